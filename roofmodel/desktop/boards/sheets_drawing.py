"""The nested sheets of one material, pieces in the colours of their facets."""

from collections.abc import Mapping

from PySide6.QtCore import QEvent, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QHelpEvent, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QToolTip, QWidget

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.parts.layout import Layout, Placed
from roofmodel.desktop.kit import flat_canvas, theme
from roofmodel.desktop.kit.flat_canvas import Place
from roofmodel.desktop.kit.palette import ON_PAPER

_GAP, _HEAD = 16.0, 18.0
_WIDTH_PX = 290.0
"""Width a sheet is drawn at, give or take what fills the row [pixels]."""


class SheetsDrawing(QWidget):
    """Paints all sheets of a plan in rows; made to be put in a scroll area."""

    def __init__(self) -> None:
        """Show nothing yet."""
        super().__init__()
        self._layout: Layout | None = None
        self._good: SheetGood | None = None
        self._colours: Mapping[str, str] = {}
        self._why_not = ""

    @property
    def sheets(self) -> int:
        """Number of sheets shown."""
        return self._layout.sheets if self._layout else 0

    def show_layout(self, layout: Layout, good: SheetGood, colours: Mapping[str, str]) -> None:
        """Show a plan; ``colours`` are those of the facets by name."""
        self._layout, self._good, self._colours = layout, good, colours
        self._take_room()
        self.update()

    def show_none(self, why_not: str) -> None:
        """Show no plan, and why."""
        self._layout, self._good, self._why_not = None, None, why_not
        self._take_room()
        self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802 - Qt's name
        """Break the rows anew."""
        super().resizeEvent(event)
        self._take_room()

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802 - Qt's name
        """Paint all sheets."""
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.fillRect(self.rect(), QColor(ON_PAPER.card))
            if self._layout is None or self._good is None:
                painter.setPen(QColor(ON_PAPER.faint))
                flags = Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap
                painter.drawText(
                    QRectF(self.rect()).adjusted(20, 20, -20, -20), flags, self._why_not
                )
                return
            for number in self._numbers():
                self._paint_sheet(painter, number)

    def event(self, event: QEvent) -> bool:
        """Name the piece under the pointer in full."""
        if event.type() == QEvent.Type.ToolTip:
            assert isinstance(event, QHelpEvent)
            placed = self._piece_at(QPointF(event.pos()))
            if placed is not None:
                QToolTip.showText(event.globalPos(), _described(placed), self)
            else:
                QToolTip.hideText()
            return True
        return super().event(event)

    def _numbers(self) -> list[int]:
        if self._layout is None:
            return []
        return sorted({placed.sheet_no for placed in self._layout.placed})

    def _columns(self) -> int:
        return max(1, round((self.width() - _GAP) / (_WIDTH_PX + _GAP)))

    def _cell(self) -> tuple[float, float]:
        """Return width and height of a sheet with what belongs to it [pixels]."""
        assert self._good is not None
        wide = (self.width() - _GAP) / self._columns()
        return wide, (wide - _GAP) * self._good.width_mm / self._good.length_mm + _GAP + _HEAD

    def _take_room(self) -> None:
        rows = -(-len(self._numbers()) // self._columns())
        self.setMinimumHeight(round(rows * self._cell()[1] + _GAP) if rows else 0)

    def _place(self, number: int) -> Place:
        assert self._good is not None
        row, column = divmod(self._numbers().index(number), self._columns())
        wide, high = self._cell()
        left, top = _GAP + column * wide, _GAP / 2.0 + row * high
        room = QRectF(left, top + _HEAD, wide - _GAP, high - _GAP - _HEAD)
        return flat_canvas.fitted((self._good.length_mm, self._good.width_mm), room)

    def _paint_sheet(self, painter: QPainter, number: int) -> None:
        assert self._good is not None
        assert self._layout is not None
        place = self._place(number)
        size = (self._good.length_mm, self._good.width_mm)
        sheet = QRectF(place.at((0.0, size[1])), place.at((size[0], 0.0)))
        painter.setFont(theme.font(8.5))
        painter.setPen(QColor(ON_PAPER.faint))
        title = f"{self._good.short} sheet {number} of {self._layout.sheets}"
        painter.drawText(sheet.topLeft() + QPointF(0.0, -5.0), title)
        painter.setPen(QPen(QColor(ON_PAPER.hairline), 1.0))
        painter.setBrush(QColor(ON_PAPER.well))
        painter.drawRect(sheet)
        for placed in self._layout.on_sheet(number):
            self._paint_piece(painter, placed, place)

    def _paint_piece(self, painter: QPainter, placed: Placed, place: Place) -> None:
        shape = place.polygon(placed.outline_mm)
        colour = self._colours.get(placed.part.facet, ON_PAPER.well)
        painter.setPen(QPen(QColor(ON_PAPER.ink), 1.0))
        painter.setBrush(QColor(theme.blended(colour, "#ffffff", 0.2)))
        painter.drawPolygon(shape)
        for points in (8.0, 7.0, 6.0):
            painter.setFont(theme.font(points))
            if flat_canvas.write_in(painter, (_short_mark(placed),), shape):
                return

    def _piece_at(self, spot: QPointF) -> Placed | None:
        if self._layout is None:
            return None
        for placed in self._layout.placed:
            shape = self._place(placed.sheet_no).polygon(placed.outline_mm)
            if shape.containsPoint(spot, Qt.FillRule.WindingFill):
                return placed
        return None


def _short_mark(placed: Placed) -> str:
    """Return the mark without job and material, which are the same on every sheet shown."""
    facet = placed.part.mark.index(f"-{placed.part.facet}-") + 1
    where, _material, hand = placed.part.mark[facet:].rsplit("-", 2)
    return f"{where}-{hand}"


def _described(placed: Placed) -> str:
    part = placed.part
    turned = f", turned {placed.turned_deg}°" if placed.turned_deg else ""
    over = ", turned over" if placed.turned_over else ""
    return f"{part.mark}\n{part.length_tenths / 10:g} × {part.width_tenths / 10:g} mm{turned}{over}"
