"""The ceiling of one facet: bars, counter-battens, lights, what clashes and what is offered."""

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from roofmodel.desktop.kit import flat_canvas, theme
from roofmodel.desktop.kit.flat_canvas import Place
from roofmodel.desktop.kit.palette import ON_PAPER
from roofmodel.refit.light import Ceiling, Light, lines_up
from roofmodel.refit.light_layout import LightReport

_TIMBER, _BAR = "#e3d2ba", "#c3ccd3"
_ROOM = 14.0


@dataclass(frozen=True, slots=True, kw_only=True)
class CeilingShown:
    """A ceiling with its lights, ``body_mm`` wide; ``report`` is None without lights."""

    ceiling: Ceiling
    report: LightReport | None
    body_mm: float


class CeilingPicture(QWidget):
    """Paints one ceiling, seen from outside like every facet, or says why there is none."""

    def __init__(self) -> None:
        """Show nothing yet."""
        super().__init__()
        self._shown: CeilingShown | None = None
        self._why_not = ""
        self.setMinimumSize(180, 110)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    @property
    def shown(self) -> CeilingShown | None:
        """What is shown."""
        return self._shown

    @property
    def why_not(self) -> str:
        """Why nothing is shown."""
        return self._why_not

    def sizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """Return a size at which most ceilings read well."""
        return QSize(320, 170)

    def show_ceiling(self, shown: CeilingShown | None, *, why_not: str = "") -> None:
        """Show a ceiling, or why there is none."""
        self._shown, self._why_not = shown, why_not
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802 - Qt's name
        """Paint all of it."""
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.fillRect(self.rect(), QColor(ON_PAPER.card))
            room = QRectF(self.rect()).adjusted(_ROOM, _ROOM, -_ROOM, -_ROOM)
            if self._shown is None:
                painter.setPen(QColor(ON_PAPER.faint))
                flags = Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap
                painter.drawText(room, flags, self._why_not)
                return
            self._paint(painter, self._shown, room)

    def _paint(self, painter: QPainter, shown: CeilingShown, room: QRectF) -> None:
        ceiling = shown.ceiling
        left, low, right, high = ceiling.shape.bounds
        view = flat_canvas.fitted((right - left, high - low), room)
        place = Place(
            left_px=view.left_px - left * view.scale,
            bottom_px=view.bottom_px + low * view.scale,
            scale=view.scale,
        )
        self._members(painter, ceiling, place)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(QColor(ON_PAPER.ink), 1.8))
        painter.drawPolygon(place.polygon([edge.start for edge in ceiling.edges]))
        if shown.report is not None:
            self._lights(painter, shown.report, shown.body_mm, place)

    def _members(self, painter: QPainter, ceiling: Ceiling, place: Place) -> None:
        left, low, right, high = ceiling.shape.bounds
        half = ceiling.battens.width_mm / 2.0
        painter.save()
        painter.setClipRect(QRectF(place.at((left, high)), place.at((right, low))))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(_TIMBER))
        for row in ceiling.battens.rows_mm:
            painter.drawRect(QRectF(place.at((left, row + half)), place.at((right, row - half))))
        painter.setBrush(QColor(_BAR))
        half = ceiling.bar_width_mm / 2.0
        for bar in ceiling.bars_mm:
            for foot, head in lines_up(ceiling.shape, bar):
                top, bottom = place.at((bar - half, head)), place.at((bar + half, foot))
                painter.drawRect(QRectF(top, bottom))
        painter.restore()

    def _lights(self, painter: QPainter, report: LightReport, body: float, place: Place) -> None:
        radius = max(body / 2.0 * place.scale, 3.0)
        clashing = {clash.light for clash in report.clashes}
        painter.setFont(theme.font(7.5))
        for light in report.wanted:
            bad = light.mark in clashing or report.depth is not None
            at = _spot(light, place)
            painter.setPen(QPen(QColor(ON_PAPER.stop if bad else ON_PAPER.ink), 1.5))
            painter.setBrush(QColor(ON_PAPER.stop_pale if bad else "#fff6c8"))
            painter.drawEllipse(at, radius, radius)
            if radius > 6.0:
                number = light.mark.rsplit("-L", 1)[-1]
                box = QRectF(at.x() - 15.0, at.y() - 8.0, 30.0, 16.0)
                painter.drawText(box, Qt.AlignmentFlag.AlignCenter, number)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        for offer in report.offers:
            if offer.offered is not None:
                start, end = _spot(offer.wanted, place), _spot(offer.offered, place)
                painter.setPen(QPen(QColor(ON_PAPER.good), 1.0, Qt.PenStyle.DotLine))
                painter.drawLine(start, end)
                painter.setPen(QPen(QColor(ON_PAPER.good), 2.0))
                painter.drawEllipse(end, radius, radius)


def _spot(light: Light, place: Place) -> QPointF:
    return place.at(light.spot)
