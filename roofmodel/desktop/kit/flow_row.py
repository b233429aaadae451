"""A row that goes on in a second one where the window is narrow, so that no button is cut short."""

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QSize
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

_GAP, _MARGIN, _TOP = 4, 8, 6


class FlowRow(QWidget):
    """Puts widgets side by side at their own size, in as many rows as it takes."""

    def __init__(self, *, margin_px: int = _MARGIN, top_px: int = _TOP) -> None:
        """Start empty."""
        super().__init__()
        self._margin_px, self._top_px = margin_px, top_px
        self._widgets: tuple[QWidget, ...] = ()
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)

    def hold(self, widgets: Sequence[QWidget]) -> None:
        """Take the widgets of the row, in their order."""
        self._widgets = tuple(widgets)
        for widget in widgets:
            widget.setParent(self)
        self._take_height()

    def sizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """Return the room the rows take."""
        return QSize(self.width(), self._arrange())

    def minimumSizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """Return the width of the widest widget."""
        shown = [widget.sizeHint().width() for widget in self._widgets if not widget.isHidden()]
        return QSize(max(shown, default=0) + 2 * self._margin_px, 0)

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802 - Qt's name
        """Break the row anew."""
        super().resizeEvent(event)
        self._take_height()

    def event(self, event: QEvent) -> bool:
        """Break the row anew when a widget in it is shown, hidden or becomes another size."""
        if event.type() == QEvent.Type.LayoutRequest:
            self._take_height()
        return super().event(event)

    def _take_height(self) -> None:
        high = self._arrange()
        if high != self.height():
            self.setFixedHeight(high)

    def _arrange(self) -> int:
        """Put every widget in its place; return the height of all rows."""
        x, y, high = self._margin_px, self._top_px, 0
        for widget in self._widgets:
            if widget.isHidden():
                continue
            size = widget.sizeHint().expandedTo(widget.minimumSize())
            if x > self._margin_px and x + size.width() > self.width() - self._margin_px:
                x, y, high = self._margin_px, y + high + _GAP, 0
            widget.setGeometry(
                x, y, min(size.width(), self.width() - 2 * self._margin_px), size.height()
            )
            x += size.width() + _GAP
            high = max(high, size.height())
        return y + high
