"""The layer section painted in the window, to scale, with labels that keep off one another."""

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from roofmodel.desktop.kit import flat_picture, theme
from roofmodel.desktop.kit.flat_canvas import Place
from roofmodel.desktop.kit.palette import ON_PAPER
from roofmodel.drawings.views import layer_style, stack_section
from roofmodel.drawings.views.stack_section import Band, StackSection

BAR_COLOUR = "#8d99a3"
_LABEL_SHARE, _MOST_LABEL_PX, _DEPTHS_PX = 0.46, 330.0, 62.0
"""Room for labels at the right and depths at the left [share of the width, pixels]."""
_TOP_PX, _FOOT_PX = 24.0, 20.0


class StackPicture(QWidget):
    """Shows one section, or the words why there is none."""

    def __init__(self) -> None:
        """Show nothing yet."""
        super().__init__()
        self._section: StackSection | None = None
        self._why_not = ""
        self._chosen: int | None = None
        self.setMinimumSize(240, 150)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Ignored)

    @property
    def section(self) -> StackSection | None:
        """What is shown."""
        return self._section

    @property
    def why_not(self) -> str:
        """Why nothing is shown."""
        return self._why_not

    def sizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """Return a size at which most sections read well."""
        return QSize(460, 260)

    def show_section(
        self, section: StackSection | None, *, why_not: str = "", chosen: int | None = None
    ) -> None:
        """Show a section, the layer of the chosen number stronger."""
        self._section, self._why_not, self._chosen = section, why_not, chosen
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802 - Qt's name
        """Paint all of it."""
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.fillRect(self.rect(), QColor(ON_PAPER.card))
            if self._section is None:
                painter.setPen(QColor(ON_PAPER.faint))
                flags = Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap
                painter.drawText(
                    QRectF(self.rect()).adjusted(20, 20, -20, -20), flags, self._why_not
                )
                return
            self._paint(painter, self._section)

    def _paint(self, painter: QPainter, section: StackSection) -> None:
        labels_px = min(self.width() * _LABEL_SHARE, _MOST_LABEL_PX)
        room = QRectF(self.rect()).adjusted(_DEPTHS_PX, _TOP_PX, -labels_px - 18.0, -_FOOT_PX)
        low, high = -section.inside_mm, section.outside_mm
        bounds = (section.left_mm, low, section.right_mm, max(high, low + 1.0))
        place = flat_picture.placed(bounds, room)
        painter.setPen(QPen(QColor(ON_PAPER.ink), 1.2))
        painter.setBrush(QColor(BAR_COLOUR))
        for bar in section.bars:
            painter.drawRect(_rect(bar, place))
        for band in section.bands:
            self._band(painter, band, place)
        self._datum(painter, section, place)
        self._labels(painter, section, place, labels_px)
        self._depths(painter, section, place)
        self._notes(painter)

    def _band(self, painter: QPainter, band: Band, place: Place) -> None:
        colour = QColor(layer_style.layer_colour(band.category))
        chosen = band.number == self._chosen
        painter.setPen(
            QPen(QColor(ON_PAPER.accent if chosen else ON_PAPER.faint), 2.4 if chosen else 0.8)
        )
        for box in band.boxes:
            shape = _rect(box, place)
            painter.setBrush(colour)
            painter.drawRect(shape)
            if band.category == "insulation":
                painter.setBrush(QColor(ON_PAPER.note))
                painter.setBrush(Qt.BrushStyle.BDiagPattern)
                painter.drawRect(shape)

    def _datum(self, painter: QPainter, section: StackSection, place: Place) -> None:
        painter.setPen(QPen(QColor(ON_PAPER.stop), 1.2, Qt.PenStyle.DashDotLine))
        painter.drawLine(place.at((section.left_mm, 0.0)), place.at((section.right_mm, 0.0)))

    def _labels(
        self, painter: QPainter, section: StackSection, place: Place, labels_px: float
    ) -> None:
        """Write every layer's name at the right, a thin line leading to it."""
        painter.setFont(theme.font(8.0))
        metrics = QFontMetricsF(painter.font())
        wanted = [-place.at((0.0, band.middle_mm)).y() for band in section.bands]
        heights = [-y for y in stack_section.spread(wanted, metrics.height())]
        # Moved where the uppermost or the lowest would leave the drawing.
        push = max(0.0, _TOP_PX - min(heights, default=_TOP_PX))
        foot = self.height() - _FOOT_PX
        push = min(push, foot - max(heights)) if heights and max(heights) + push > foot else push
        left = self.width() - labels_px
        for band, y in zip(section.bands, heights, strict=True):
            at = place.at((band.boxes[-1][2], band.middle_mm))
            painter.setPen(QPen(QColor(ON_PAPER.hairline), 1.0))
            painter.drawLine(at, QPointF(left - 4.0, y + push))
            chosen = band.number == self._chosen
            painter.setPen(QColor(ON_PAPER.accent if chosen else ON_PAPER.ink))
            words = metrics.elidedText(band.words, Qt.TextElideMode.ElideMiddle, labels_px - 8.0)
            box = QRectF(left, y + push - 10.0, labels_px - 4.0, 20.0)
            painter.drawText(box, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, words)

    def _depths(self, painter: QPainter, section: StackSection, place: Place) -> None:
        painter.setFont(theme.font(8.0))
        x = place.at((section.left_mm, 0.0)).x() - 12.0
        for words, low, high in stack_section.depths(section):
            top, foot = place.at((0.0, high)).y(), place.at((0.0, low)).y()
            painter.setPen(QPen(QColor(ON_PAPER.faint), 1.0))
            painter.drawLine(QPointF(x, top), QPointF(x, foot))
            for y in (top, foot):
                painter.drawLine(QPointF(x - 4.0, y + 4.0), QPointF(x + 4.0, y - 4.0))
            painter.setPen(QColor(ON_PAPER.ink))
            name, _, figure = words.partition(" ")
            metrics = QFontMetricsF(painter.font())
            upright = foot - top >= metrics.horizontalAdvance(words) + 4.0
            painter.save()
            painter.translate(x - 8.0, (top + foot) / 2.0)
            painter.rotate(-90.0 if upright else 0.0)
            box = QRectF(-60.0, -14.0, 120.0, 18.0) if upright else QRectF(-60.0, -9.0, 58.0, 18.0)
            align = Qt.AlignmentFlag.AlignCenter
            if not upright:
                align = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
            painter.drawText(box, align, f"{name} {figure}" if upright else figure)
            painter.restore()

    def _notes(self, painter: QPainter) -> None:
        room = QRectF(self.rect()).adjusted(8.0, 4.0, -8.0, -4.0)
        painter.setFont(theme.font(8.5))
        painter.setPen(QColor(ON_PAPER.faint))
        left = Qt.AlignmentFlag.AlignLeft
        painter.drawText(room, left | Qt.AlignmentFlag.AlignTop, "OUTSIDE")
        painter.drawText(room, left | Qt.AlignmentFlag.AlignBottom, "ROOM")


def words(section: StackSection) -> str:
    """Return what stands below the section: depths, headroom lost, and the bars."""
    return (
        f"{section.inside_mm:g} mm inside the datum, {section.outside_mm:g} mm outside; "
        f"headroom lost: {section.lost_mm:g} mm; {section.remark}."
    )


def _rect(box: tuple[float, float, float, float], place: Place) -> QRectF:
    left, low, right, high = box
    return QRectF(place.at((left, high)), place.at((right, low)))
