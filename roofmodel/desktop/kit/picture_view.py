"""A widget that paints a flat picture to scale and tells what the pointer is on."""

from collections.abc import Sequence

import shapely
from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget
from shapely.geometry.base import BaseGeometry

from roofmodel.desktop.kit import flat_picture, theme, word_places
from roofmodel.desktop.kit.flat_canvas import Flat, Place
from roofmodel.desktop.kit.flat_picture import Overall, Patch, Picture, Stroke, Weight
from roofmodel.desktop.kit.palette import ON_PAPER
from roofmodel.desktop.kit.word_places import WordPlace

_LEFT, _TOP, _RIGHT, _BOTTOM = 34.0, 30.0, 20.0, 30.0
_RANK = 26.0
"""Room beside the drawing, and what each rank of dimensions adds to it [pixels]."""

_OFF_LINE, _NEAR_PX = 9.0, 7.0

_PENS = {
    Weight.SHARED: (ON_PAPER.ink, 1.8, Qt.PenStyle.SolidLine),
    Weight.OUTER: (ON_PAPER.ink, 1.3, Qt.PenStyle.SolidLine),
    Weight.THIN: (ON_PAPER.faint, 1.0, Qt.PenStyle.SolidLine),
    Weight.GROUND: (ON_PAPER.ink, 2.4, Qt.PenStyle.SolidLine),
    Weight.CUT: (ON_PAPER.ink, 3.0, Qt.PenStyle.SolidLine),
}


class PictureView(QWidget):
    """Shows one picture, or the words why there is none."""

    def __init__(self) -> None:
        """Show nothing yet."""
        super().__init__()
        self._picture: Picture | None = None
        self._why_not = ""
        self._pointed: Stroke | Patch | None = None
        self._greyed = False
        self._lit: tuple[tuple[Flat, Flat], ...] = ()
        self.setMinimumSize(200, 150)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMouseTracking(True)

    @property
    def picture(self) -> Picture | None:
        """What is shown."""
        return self._picture

    @property
    def why_not(self) -> str:
        """Why nothing is shown."""
        return self._why_not

    @property
    def note(self) -> str:
        """What is told of the line under the pointer."""
        return self._pointed.note if self._pointed else ""

    @property
    def place(self) -> Place:
        """Where the drawing lies in the widget."""
        assert self._picture is not None
        ranks = dict.fromkeys((True, False), 0)
        for overall in self._picture.overalls:
            ranks[overall.upright] = max(ranks[overall.upright], overall.rank + 1)
        room = QRectF(self.rect()).adjusted(
            _LEFT, _TOP, -_RIGHT - ranks[True] * _RANK, -_BOTTOM - ranks[False] * _RANK
        )
        return flat_picture.placed(self._picture.bounds, room)

    def spot(self, at: Flat) -> QPointF:
        """Return where a spot of the drawing lies in the widget."""
        return self.place.at(at)

    def sizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """Return a size at which most drawings read well."""
        return QSize(520, 260)

    def show_picture(
        self, picture: Picture | None, *, why_not: str = "", greyed: bool = False
    ) -> None:
        """Show a picture, greyed when it is of the last good roof, or why there is none."""
        self._picture, self._why_not, self._greyed = picture, why_not, greyed
        self._pointed = None
        self.update()

    @property
    def lit(self) -> tuple[tuple[Flat, Flat], ...]:
        """The strokes that are lit."""
        return self._lit

    def light(self, strokes: Sequence[tuple[Flat, Flat]]) -> None:
        """Light the geometry of a take-off line; none puts it out."""
        self._lit = tuple(strokes)
        self.update()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Tell what the pointer is on."""
        if self._picture is None:
            return
        place, at = self.place, event.position()
        spot = flat_picture.spot_at(place, (at.x(), at.y()))
        stroke = flat_picture.stroke_at(
            self._picture.strokes, spot, within_mm=_NEAR_PX / place.scale
        )
        pointed = stroke or flat_picture.patch_at(self._picture.patches, spot)
        if pointed is not self._pointed:
            self._pointed = pointed
            self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802 - Qt's name
        """Paint all of it."""
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.fillRect(self.rect(), QColor(ON_PAPER.card))
            if self._picture is None:
                painter.setPen(QColor(ON_PAPER.faint))
                flags = Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap
                room = QRectF(self.rect()).adjusted(20, 20, -20, -20)
                painter.drawText(room, flags, self._why_not)
                return
            place = self.place
            for patch in self._picture.patches:
                self._patch(painter, patch, place)
            for stroke in self._picture.strokes:
                self._stroke(painter, stroke, place)
            self._write_all(painter, self._picture, place)
            painter.setPen(QPen(QColor(theme.LIT), 3.0))
            for start, end in self._lit:
                painter.drawLine(place.at(start), place.at(end))
            self.paint_over(painter, place)
            self._write_notes(painter, self._picture.title)

    def kept_free(self, _place: Place) -> list[tuple[QPointF, QPointF]]:
        """Return lines over the picture that words must not cross; none here."""
        return []

    def paint_over(self, painter: QPainter, place: Place) -> None:
        """Paint what lies over the picture; nothing here."""

    def _patch(self, painter: QPainter, patch: Patch, place: Place) -> None:
        shape = place.polygon(patch.corners)
        colour = theme.greyed(patch.colour) if self._greyed else patch.colour
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(theme.blended(colour, "#ffffff", 0.35)))
        painter.drawPolygon(shape)

    def _stroke(self, painter: QPainter, stroke: Stroke, place: Place) -> None:
        colour, width, style = _PENS[stroke.weight]
        if stroke is self._pointed:
            colour, width = ON_PAPER.accent, width + 1.5
        painter.setPen(QPen(QColor(colour), width, style))
        painter.drawLine(place.at(stroke.start), place.at(stroke.end))

    def _write_all(self, painter: QPainter, picture: Picture, place: Place) -> None:
        """Write names of areas, then dimensions, then lengths of lines, each where it has room."""
        painter.setFont(theme.font(8.0))
        metrics = QFontMetricsF(painter.font())
        lines = [_pixels(place.at(s.start), place.at(s.end)) for s in picture.strokes]
        taken: list[BaseGeometry] = [shapely.LineString(line) for line in lines]
        taken += [shapely.LineString(_pixels(*line)) for line in self.kept_free(place)]
        for patch in picture.patches:
            area = [_pixel(place.at(corner)) for corner in patch.corners]
            counts = range(len(patch.words), 0, -1)
            texts = ["\n".join(patch.words[:count]) for count in counts]
            _write(painter, word_places.within(area, _sized(texts, metrics), taken), taken)
        for overall in picture.overalls:
            line = _overall(painter, overall, place, picture.bounds)
            texts = list(overall.words)
            # The dimension's own ends touch the drawing's extent, so that only words clash.
            beside = word_places.beside(line, _sized(texts, metrics), taken, off_px=_OFF_LINE)
            _write(painter, beside, taken)
            taken.append(shapely.LineString(line))
        for stroke, line in zip(picture.strokes, lines, strict=True):
            sized = _sized(list(stroke.words), metrics)
            _write(painter, word_places.beside(line, sized, taken, off_px=_OFF_LINE), taken)

    def _write_notes(self, painter: QPainter, title: str) -> None:
        room = QRectF(self.rect()).adjusted(8.0, 3.0, -8.0, -3.0)
        painter.setPen(QColor(ON_PAPER.ink))
        painter.setFont(theme.font(9.0, bold=True))
        painter.drawText(room, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop, title)
        painter.setFont(theme.font(8.5))
        painter.setPen(QColor(ON_PAPER.accent if self.note else ON_PAPER.faint))
        wide = QFontMetricsF(painter.font()).elidedText
        words = wide(
            self.note or "mm; point to a line or facet to see its true size",
            Qt.TextElideMode.ElideRight,
            room.width(),
        )
        painter.drawText(room, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignBottom, words)


def _overall(
    painter: QPainter,
    overall: Overall,
    place: Place,
    bounds: tuple[float, float, float, float],
) -> tuple[Flat, Flat]:
    """Draw a dimension line with a tick at either end; return its ends [pixels]."""
    if overall.upright:
        x = place.at((bounds[2], 0.0)).x() + 12.0 + overall.rank * _RANK
        start = QPointF(x, place.at((0.0, overall.start)).y())
        end = QPointF(x, place.at((0.0, overall.end)).y())
    else:
        y = place.at((0.0, bounds[1])).y() + 20.0 + overall.rank * _RANK
        start = QPointF(place.at((overall.start, 0.0)).x(), y)
        end = QPointF(place.at((overall.end, 0.0)).x(), y)
    painter.setPen(QPen(QColor(ON_PAPER.faint), 1.0))
    painter.drawLine(start, end)
    for tip in (start, end):
        painter.drawLine(tip + QPointF(-4.0, 4.0), tip + QPointF(4.0, -4.0))
    return _pixels(start, end)


def _pixel(spot: QPointF) -> Flat:
    return (spot.x(), spot.y())


def _pixels(start: QPointF, end: QPointF) -> tuple[Flat, Flat]:
    return _pixel(start), _pixel(end)


def _sized(texts: Sequence[str], metrics: QFontMetricsF) -> list[tuple[str, Flat]]:
    """Return texts with the room each takes [pixels]."""
    sizes = []
    for text in texts:
        lines = text.split("\n")
        wide = max(metrics.horizontalAdvance(line) for line in lines) + 4.0
        sizes.append((text, (wide, metrics.lineSpacing() * len(lines) - 2.0)))
    return sizes


def _write(painter: QPainter, place: WordPlace | None, taken: list[BaseGeometry]) -> None:
    """Write words that found room, and keep others off them."""
    if place is None:
        return
    taken.append(place.ground)
    painter.save()
    painter.setPen(QColor(ON_PAPER.ink))
    painter.translate(*place.middle)
    painter.rotate(place.turn_deg)
    box = QRectF(-400.0, -100.0, 800.0, 200.0)
    painter.drawText(box, Qt.AlignmentFlag.AlignCenter, place.text)
    painter.restore()
