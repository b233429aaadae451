"""The plan one can work on: corners to measure, a section line to drag, deviations drawn large."""

import math
from collections.abc import Sequence

from PySide6.QtCore import QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QColor, QFontMetricsF, QMouseEvent, QPainter, QPen
from PySide6.QtWidgets import QWidget

from roofmodel.desktop.flat import plan_picture
from roofmodel.desktop.flat.out_of_square import TIMES, Deviation
from roofmodel.desktop.flat.section_picture import SectionLine
from roofmodel.desktop.job import dimension
from roofmodel.desktop.job.measuring import Measuring
from roofmodel.desktop.kit import flat_picture, theme
from roofmodel.desktop.kit.flat_canvas import Flat, Place
from roofmodel.desktop.kit.palette import ON_PAPER
from roofmodel.desktop.kit.picture_view import PictureView

_GRIP_PX, _DRAGGED_PX = 12.0, 4.0
_LETTER_PX = 20.0


class PlanCanvas(PictureView):
    """The plan, with whatever is being done on it."""

    section_drawn = Signal(object)
    """A section line was drawn or moved; its two ends on plan."""

    def __init__(self, measuring: Measuring) -> None:
        """Take corners for a measurement that others may show too."""
        super().__init__()
        self._measuring = measuring
        self._section: SectionLine | None = None
        self._deviations: tuple[Deviation, ...] = ()
        self._fixed: Flat | None = None
        self._moves_start = False
        self._pressed_at: QPointF | None = None
        measuring.changed.connect(self.update)

    def show_section_line(self, line: SectionLine | None) -> None:
        """Show where the section is cut, and let it be dragged; None hides it."""
        self._section = line
        self.update()

    @property
    def deviations(self) -> tuple[Deviation, ...]:
        """The deviations shown."""
        return self._deviations

    def show_deviations(self, deviations: Sequence[Deviation]) -> None:
        """Show how far the corners are out of square; an empty sequence hides it."""
        self._deviations = tuple(deviations)
        self.update()

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Take a corner, or begin to move the section line or an end of it."""
        if self.picture is None or event.button() != Qt.MouseButton.LeftButton:
            return
        at = event.position()
        if self._section is not None:
            self._pressed_at, self._fixed = at, self._other_end(at)
        elif self._measuring.on:
            corner = dimension.snapped(self._corner_pixels(), (at.x(), at.y()))
            if corner is None:
                self._measuring.miss()
            else:
                self._measuring.take(self._order[corner])

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Draw the section line while a button is down, else tell what the pointer is on."""
        if self._pressed_at is None:
            super().mouseMoveEvent(event)
            return
        step = event.position() - self._pressed_at
        if self._fixed is None and math.hypot(step.x(), step.y()) < _DRAGGED_PX:
            return
        if self._fixed is None:
            self._fixed = self._plan_at(self._pressed_at)
            self._moves_start = False
        ends = (self._fixed, self._plan_at(event.position()))
        self.section_drawn.emit(ends[::-1] if self._moves_start else ends)

    def mouseReleaseEvent(self, _event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Leave the section line where it is."""
        self._pressed_at, self._fixed = None, None

    def kept_free(self, place: Place) -> list[tuple[QPointF, QPointF]]:
        """Return the section line, which no words may cross."""
        if self._section is None:
            return []
        start, end = (place.at(plan_picture.on_paper(*spot)) for spot in self._section)
        # The letters at its ends need room too.
        off = end - start
        beyond = off * (_LETTER_PX / max(math.hypot(off.x(), off.y()), 1.0))
        return [(start - beyond, end + beyond)]

    def paint_over(self, painter: QPainter, place: Place) -> None:
        """Paint section line, deviations and the measured dimension."""
        if self._deviations:
            _paint_deviations(painter, self._deviations, place, QRectF(self.rect()))
        if self._section is not None:
            _paint_section_line(painter, self._section, place)
        elif self._measuring.on:
            self._paint_measured(painter, place)

    @property
    def _order(self) -> list[int]:
        """Places of the corners, the upper of two above each other first."""
        corners = self._measuring.corners
        return sorted(range(len(corners)), key=lambda i: -corners[i][2])

    def _corner_pixels(self) -> list[Flat]:
        place, corners = self.place, self._measuring.corners
        spots = (place.at(plan_picture.on_paper(*corners[i][:2])) for i in self._order)
        return [(spot.x(), spot.y()) for spot in spots]

    def _plan_at(self, at: QPointF) -> Flat:
        x, y = plan_picture.on_plan(flat_picture.spot_at(self.place, (at.x(), at.y())))
        return (float(round(x)), float(round(y)))

    def _other_end(self, at: QPointF) -> Flat | None:
        """Return the end that stays when the other is gripped; None away from both."""
        assert self._section is not None
        place = self.place
        spots = [place.at(plan_picture.on_paper(*end)) for end in self._section]
        pixels = [(spot.x(), spot.y()) for spot in spots]
        gripped = dimension.snapped(pixels, (at.x(), at.y()), within_px=_GRIP_PX)
        self._moves_start = gripped == 0
        return None if gripped is None else self._section[1 - gripped]

    def _paint_measured(self, painter: QPainter, place: Place) -> None:
        corners, taken = self._measuring.corners, self._measuring.taken
        painter.setFont(theme.font(8.0, bold=True))
        for i, corner in enumerate(corners):
            at = place.at(plan_picture.on_paper(*corner[:2]))
            painter.setPen(QPen(QColor(ON_PAPER.accent), 1.5))
            painter.setBrush(QColor(ON_PAPER.accent if i in taken else ON_PAPER.card))
            painter.drawEllipse(at, 4.5, 4.5)
            painter.drawText(at + QPointF(6.0, -5.0), str(i + 1))
        measured = self._measuring.dimension
        if measured is None:
            return
        ends = [place.at(plan_picture.on_paper(*end[:2])) for end in (measured.start, measured.end)]
        painter.setPen(QPen(QColor(ON_PAPER.accent), 2.5))
        painter.drawLine(*ends)
        painter.setFont(theme.font(8.5))
        _write_box(painter, measured.lines, (ends[0] + ends[1]) / 2.0, self)


def _write_box(painter: QPainter, lines: Sequence[str], beside: QPointF, widget: QWidget) -> None:
    """Write lines on a ground of their own beside a spot, kept inside the widget."""
    metrics = QFontMetricsF(painter.font())
    wide = max(metrics.horizontalAdvance(line) for line in lines) + 12.0
    high = metrics.lineSpacing() * len(lines) + 8.0
    x = min(max(beside.x() + 12.0, 2.0), widget.width() - wide - 2.0)
    y = min(max(beside.y() - high / 2.0, 2.0), widget.height() - high - 2.0)
    box = QRectF(x, y, wide, high)
    painter.setPen(QPen(QColor(ON_PAPER.accent), 1.0))
    painter.setBrush(QColor(ON_PAPER.card))
    painter.drawRoundedRect(box, 3.0, 3.0)
    painter.setPen(QColor(ON_PAPER.ink))
    painter.drawText(box, Qt.AlignmentFlag.AlignCenter, "\n".join(lines))


def _paint_section_line(painter: QPainter, line: SectionLine, place: Place) -> None:
    start, end = (place.at(plan_picture.on_paper(*spot)) for spot in line)
    painter.setPen(QPen(QColor(ON_PAPER.stop), 2.0, Qt.PenStyle.DashDotLine))
    painter.drawLine(start, end)
    painter.setFont(theme.font(9.5, bold=True))
    painter.setPen(QPen(QColor(ON_PAPER.stop), 1.5))
    painter.setBrush(QColor(ON_PAPER.card))
    for spot in (start, end):
        painter.drawEllipse(spot, 4.5, 4.5)
        painter.drawText(spot + QPointF(8.0, -4.0), "A")


def _paint_deviations(
    painter: QPainter, deviations: Sequence[Deviation], place: Place, room: QRectF
) -> None:
    """Draw the regular plan thin, the exaggerated one dashed, true values at its corners."""
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(QColor(ON_PAPER.faint), 1.0))
    painter.drawPolygon(place.polygon([plan_picture.on_paper(*d.regular) for d in deviations]))
    shape = place.polygon([plan_picture.on_paper(*d.drawn()) for d in deviations])
    painter.setPen(QPen(QColor(ON_PAPER.question), 2.0, Qt.PenStyle.DashLine))
    painter.drawPolygon(shape)
    painter.setFont(theme.font(8.5, bold=True))
    metrics = QFontMetricsF(painter.font())
    middle = shape.boundingRect().center()
    for i, deviation in enumerate(deviations):
        at = shape.at(i)
        wide, high = metrics.horizontalAdvance(deviation.text) + 8.0, metrics.height() + 2.0
        # Inside the plan, towards its middle, where neither dimensions nor edge words stand.
        x = at.x() + 16.0 if at.x() < middle.x() else at.x() - 16.0 - wide
        y = at.y() + 18.0 if at.y() < middle.y() else at.y() - 18.0 - high
        box = QRectF(
            min(max(x, 2.0), room.width() - wide - 2.0),
            min(max(y, 2.0), room.height() - high - 2.0),
            wide,
            high,
        )
        painter.fillRect(box, QColor(ON_PAPER.question_pale))
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter, deviation.text)
    painter.drawText(
        room.adjusted(8.0, 3.0, -8.0, -3.0),
        Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop,
        f"dashed: out of square exaggerated ×{TIMES:.0f}; figures are true, mm",
    )
