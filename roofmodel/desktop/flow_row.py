"""A row that goes on in a second one where the window is narrow, so that no button is cut short."""

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QSize
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

_GAP, _MARGIN, _TOP = 4, 8, 6


class FlowRow(QWidget):
    """Puts widgets side by side at their own size, in as many rows as it takes."""

    def __init__(self) -> None:
        """Start empty."""
        super().__init__()
        self._widgets: tuple[QWidget, ...] = ()
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)

    def hold(self, widgets: Sequence[QWidget]) -> None:
        """Take the widgets of the row, in their order."""
        self._widgets = tuple(widgets)
        for widget in widgets:
            widget.setParent(self)
        self._arrange()

    def sizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """Return the room the rows take."""
        return QSize(self.width(), self._arrange())

    def minimumSizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """Return the width of the widest widget."""
        shown = [widget.sizeHint().width() for widget in self._widgets if not widget.isHidden()]
        return QSize(max(shown, default=0) + 2 * _MARGIN, 0)

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
        x, y, high = _MARGIN, _TOP, 0
        for widget in self._widgets:
            if widget.isHidden():
                continue
            size = widget.sizeHint()
            if x > _MARGIN and x + size.width() > self.width() - _MARGIN:
                x, y, high = _MARGIN, y + high + _GAP, 0
            widget.setGeometry(x, y, min(size.width(), self.width() - 2 * _MARGIN), size.height())
            x += size.width() + _GAP
            high = max(high, size.height())
        return y + high
