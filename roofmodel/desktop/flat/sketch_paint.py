"""What is seen on the sheet: paper and wall, the side being drawn, the plan with what is where."""

import itertools
import math
from collections.abc import Sequence

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPen

from roofmodel.desktop.flat import plan_picture
from roofmodel.desktop.flat.underlay import Under
from roofmodel.desktop.kit import theme
from roofmodel.desktop.kit.flat_canvas import Flat, Place
from roofmodel.desktop.kit.number_text import spaced
from roofmodel.desktop.kit.palette import ON_PAPER
from roofmodel.shapes.footprint import SideKind
from roofmodel.survey.taped import plan_changes
from roofmodel.survey.taped.free_plan import PlanSide
from roofmodel.survey.taped.plan_sketch import Next, Spot

BEGIN = (
    "Click the left-hand end of the house wall, then corner by corner round the roof. Type a "
    "length on the way and press Enter. Alt: no snapping. Backspace: one corner back."
)
_PENS = {
    SideKind.EAVES: (ON_PAPER.ink, 2.0, Qt.PenStyle.SolidLine),
    SideKind.HOUSE_WALL: (plan_picture.WALL_COLOUR, 9.0, Qt.PenStyle.SolidLine),
    SideKind.VERGE: (ON_PAPER.ink, 2.0, Qt.PenStyle.DashLine),
    SideKind.BOX_GUTTER: (ON_PAPER.note, 6.0, Qt.PenStyle.SolidLine),
}
_METRE_MM = 1000.0
_DOT_PX, _BESIDE_PX, _LEAST_PX = 4.0, 15.0, 8.0


def on_the_way(count: int) -> str:
    """Return what to do once so many corners stand."""
    if count < 3:
        return "Point the way the side goes, and click or type its length and press Enter."
    return "Go on, or click the first corner to close the plan."


def typing(text: str) -> str:
    """Return what a length being typed does."""
    return f"{text} mm the way you point: Enter places the corner." if text else ""


def sheet(painter: QPainter, place: Place, room: QRectF, under: Under | None) -> None:
    """Paint the paper, a line every metre, the wall, and the picture below."""
    painter.fillRect(room, QColor(ON_PAPER.card))
    if under is not None:
        corner = place.at(under.corner)
        share = under.mm_per_px * place.scale
        size = under.image.size().toSizeF() * share
        painter.setOpacity(0.45)
        painter.drawImage(QRectF(corner, size), under.image)
        painter.setOpacity(1.0)
    painter.setPen(QPen(QColor(ON_PAPER.well), 1.0))
    if place.scale * _METRE_MM > _LEAST_PX:
        first = place.left_px % (place.scale * _METRE_MM)
        for x in _steps(first, room.width(), place.scale * _METRE_MM):
            painter.drawLine(QPointF(x, 0.0), QPointF(x, room.height()))
        first = place.bottom_px % (place.scale * _METRE_MM)
        for y in _steps(first, room.height(), place.scale * _METRE_MM):
            painter.drawLine(QPointF(0.0, y), QPointF(room.width(), y))
    wall = place.at((0.0, 0.0)).y()
    painter.fillRect(QRectF(0.0, wall - 9.0, room.width(), 9.0), QColor(ON_PAPER.well))
    painter.setPen(QColor(ON_PAPER.faint))
    painter.setFont(theme.font(8.0))
    painter.drawText(QPointF(8.0, wall - 13.0), "house wall")


def _steps(first: float, end: float, step: float) -> list[float]:
    return [first + step * k for k in range(int((end - first) / step) + 1)]


def drawing(
    painter: QPainter,
    place: Place,
    corners: Sequence[Spot],
    suggested: Next | None,
    *,
    typed: str,
) -> None:
    """Paint the corners placed, the side under way with its length, and how the plan closes."""
    spots = [_at(place, corner) for corner in corners]
    painter.setPen(QPen(QColor(ON_PAPER.ink), 2.0))
    painter.drawPolyline(spots)
    for start, end in itertools.pairwise(corners):
        _beside(painter, place, start, end, spaced(math.dist(start, end)), sides=(1.0,))
    _dots(painter, spots, ON_PAPER.accent)
    if suggested is None:
        return
    to = _at(place, suggested.at)
    painter.setPen(QPen(QColor(ON_PAPER.accent), 1.0, Qt.PenStyle.DotLine))
    for start, end in suggested.along:
        painter.drawLine(_at(place, start), _at(place, end))
    words = list(suggested.notes)
    if spots:
        painter.setPen(QPen(QColor(ON_PAPER.accent), 2.0))
        painter.drawLine(spots[-1], to)
        if len(spots) > 1 and not suggested.closes:
            painter.setPen(QPen(QColor(ON_PAPER.faint), 1.0, Qt.PenStyle.DashLine))
            painter.drawLine(to, spots[0])
        words.insert(0, f"{typed or spaced(math.dist(corners[-1], suggested.at))} mm")
    _dots(painter, [to], ON_PAPER.accent)
    if words:
        _box(painter, to, words, strong=bool(typed))


def plan(
    painter: QPainter,
    place: Place,
    sides: Sequence[PlanSide],
    inner: Sequence[tuple[Spot, Spot]],
    *,
    picked: int | None,
    greyed: bool,
) -> None:
    """Paint the plan: what stands on each side, its length and pitch, the roof's own lines."""
    if not sides:
        return
    corners = [plan_changes.corner(sides, i) for i in range(len(sides))]
    shape = place.polygon([plan_picture.on_paper(*corner) for corner in corners])
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(theme.GREYED if greyed else ON_PAPER.accent_pale))
    painter.drawPolygon(shape)
    painter.setPen(QPen(QColor(ON_PAPER.faint), 1.0))
    for start, end in () if greyed else inner:
        painter.drawLine(_at(place, start), _at(place, end))
    for i, side in enumerate(sides):
        start, end = corners[i], corners[(i + 1) % len(sides)]
        colour, width, style = _PENS[SideKind(side.kind)]
        painter.setPen(
            QPen(QColor(ON_PAPER.accent if i == picked else colour), width + (i == picked), style)
        )
        painter.drawLine(_at(place, start), _at(place, end))
        _beside(painter, place, start, end, *_words(side, math.dist(start, end)))
    _dots(painter, [_at(place, corner) for corner in corners], ON_PAPER.ink)


def known(painter: QPainter, place: Place, spots: Sequence[Flat]) -> None:
    """Paint the ends of a known length that were clicked."""
    _dots(painter, [place.at(spot) for spot in spots], ON_PAPER.stop)


def found_at(
    place: Place, sides: Sequence[PlanSide], at: QPointF, *, within_px: float
) -> tuple[int, bool] | None:
    """Return the place of the corner (then True) or side (then False) at a spot of the widget."""
    spots = [_at(place, plan_changes.corner(sides, i)) for i in range(len(sides))]
    for i, spot in enumerate(spots):
        if QLineF(spot, at).length() <= within_px:
            return (i, True)
    for i, spot in enumerate(spots):
        if _from_line(at, spot, spots[(i + 1) % len(spots)]) <= within_px:
            return (i, False)
    return None


def _words(side: PlanSide, length_mm: float) -> tuple[str, ...]:
    length = spaced(length_mm)
    if side.pitch_deg is None:
        return (f"{side.kind} {length}", length)
    return (
        f"{side.kind} {length} · {side.pitch_deg:g}°",
        f"{length} · {side.pitch_deg:g}°",
        length,
    )


def _beside(
    painter: QPainter,
    place: Place,
    start: Spot,
    end: Spot,
    *words: str,
    sides: Sequence[float] = (1.0,),
) -> None:
    """Write the first text that is short enough outside a side, along it."""
    a, b = _at(place, start), _at(place, end)
    line = QLineF(a, b)
    painter.setFont(theme.font(8.5))
    metrics = QFontMetricsF(painter.font())
    text = next((one for one in words if metrics.horizontalAdvance(one) <= line.length()), None)
    if text is None:
        return
    turn = -line.angle()
    # Clockwise, so that the outside is at the left hand, which is up before it is turned.
    painter.save()
    painter.translate(line.center())
    painter.rotate(turn)
    upside_down = 90.0 < line.angle() < 270.0
    painter.translate(0.0, -_BESIDE_PX * sides[0])
    if upside_down:
        painter.rotate(180.0)
    painter.setPen(QColor(ON_PAPER.ink))
    box = QRectF(-line.length() / 2.0 - 4.0, -9.0, line.length() + 8.0, 18.0)
    painter.drawText(box, Qt.AlignmentFlag.AlignCenter, text)
    painter.restore()


def _box(painter: QPainter, at: QPointF, words: Sequence[str], *, strong: bool) -> None:
    painter.setFont(theme.font(9.0, bold=strong))
    metrics = QFontMetricsF(painter.font())
    wide = max(metrics.horizontalAdvance(word) for word in words) + 14.0
    box = QRectF(at.x() + 14.0, at.y() + 12.0, wide, metrics.lineSpacing() * len(words) + 8.0)
    painter.setPen(QPen(QColor(ON_PAPER.accent), 2.0 if strong else 1.0))
    painter.setBrush(QColor(ON_PAPER.card))
    painter.drawRoundedRect(box, 3.0, 3.0)
    painter.setPen(QColor(ON_PAPER.ink))
    painter.drawText(box, Qt.AlignmentFlag.AlignCenter, "\n".join(words))


def _dots(painter: QPainter, spots: Sequence[QPointF], colour: str) -> None:
    painter.setPen(QPen(QColor(ON_PAPER.card), 1.0))
    painter.setBrush(QColor(colour))
    for spot in spots:
        painter.drawEllipse(spot, _DOT_PX, _DOT_PX)


def _at(place: Place, spot: Spot) -> QPointF:
    return place.at(plan_picture.on_paper(*spot))


def _from_line(at: QPointF, start: QPointF, end: QPointF) -> float:
    along = end - start
    squared = QPointF.dotProduct(along, along)
    share = QPointF.dotProduct(at - start, along) / squared if squared else 0.0
    return QLineF(at, start + along * min(max(share, 0.0), 1.0)).length()
