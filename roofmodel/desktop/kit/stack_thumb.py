"""The layers of a method painted small, for a cell of the comparison."""

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from roofmodel.desktop.kit import theme
from roofmodel.desktop.kit.palette import ON_PAPER
from roofmodel.desktop.kit.stack_picture import BAR_COLOUR
from roofmodel.drawings.views import layer_style
from roofmodel.drawings.views.stack_section import StackSection

HIGH_PX = 92
_PX_A_MM = 0.27
_LEFT_PX, _TOP_PX = 4.0, 14.0


class StackThumb(QWidget):
    """A section to one scale for all methods, outside above."""

    def __init__(self, section: StackSection, ground: str) -> None:
        """Take a section and the colour of the cell."""
        super().__init__()
        self._section, self._ground = section, ground
        self._px_a_mm = _PX_A_MM
        self.setAccessibleName("Layers: " + ", ".join(band.words for band in section.bands))
        self.setToolTip("\n".join(band.words for band in reversed(section.bands)))
        self.setFixedHeight(HIGH_PX)

    def px_a_mm_in(self, wide_px: float) -> float:
        """Return the largest scale, up to the usual one, at which it has room [px per mm]."""
        wide_mm = self._section.right_mm - self._section.left_mm
        return min(_PX_A_MM, max(wide_px - 2.0 * _LEFT_PX, 1.0) / wide_mm)

    def use_scale(self, px_a_mm: float) -> None:
        """Paint to a scale [px per mm], the same for all that stand side by side."""
        self._px_a_mm = px_a_mm
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802 - Qt's name
        """Paint bars and layers."""
        with QPainter(self) as painter:
            painter.fillRect(self.rect(), QColor(self._ground))
            painter.setFont(theme.font(7.5))
            painter.setPen(QColor(ON_PAPER.faint))
            flags = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop
            painter.drawText(QRectF(_LEFT_PX, 0.0, 120.0, _TOP_PX), flags, "outside")
            painter.setPen(QPen(QColor(ON_PAPER.faint), 0.8))
            for bar in self._section.bars:
                self._box(painter, bar, BAR_COLOUR)
            for band in self._section.bands:
                for box in band.boxes:
                    self._box(painter, box, layer_style.layer_colour(band.category))

    def _box(self, painter: QPainter, box: tuple[float, float, float, float], colour: str) -> None:
        left, low, right, high = box
        painter.setBrush(QColor(colour))
        painter.drawRect(
            QRectF(
                _LEFT_PX + (left - self._section.left_mm) * self._px_a_mm,
                _TOP_PX + (self._section.outside_mm - high) * self._px_a_mm,
                (right - left) * self._px_a_mm,
                max(1.0, (high - low) * self._px_a_mm),
            )
        )
