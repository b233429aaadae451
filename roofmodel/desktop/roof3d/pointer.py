"""What mouse and keys mean over the 3D view: turn, move, come nearer, take hold, or click."""

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, QPointF, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QWheelEvent
from PySide6.QtWidgets import QWidget

_CLICK_PX = 4.0
"""A press and release closer together than this are a click; farther apart a drag."""

_WHEEL_STEP = 1.15


_ARROWS = {
    Qt.Key.Key_Left: (-1, 0),
    Qt.Key.Key_Right: (1, 0),
    Qt.Key.Key_Up: (0, 1),
    Qt.Key.Key_Down: (0, -1),
}
_ZOOMS = {"+": _WHEEL_STEP, "=": _WHEEL_STEP, "-": 1.0 / _WHEEL_STEP}


class Pointer(QObject):
    """Listens to a widget's mouse and keys; the widget itself gets nothing of them."""

    turned = Signal(QPointF)
    """Dragged to turn; by how much [pixels]."""

    shifted = Signal(QPointF)
    """Dragged to move; by how much [pixels]."""

    neared = Signal(float, QPointF)
    """The wheel was turned; factor and where."""

    clicked = Signal(QPointF)
    """Clicked; where."""

    hovered = Signal(QPointF)
    """Moved with no button down; where to."""

    carried = Signal(QPointF)
    """What was taken hold of is dragged; where to."""

    let_go = Signal()
    """What was taken hold of is let go."""

    taken_back = Signal()
    """Esc was pressed while something was held."""

    stepped = Signal(int, int)
    """An arrow key was pressed; steps to the right and up."""

    zoomed = Signal(float)
    """Plus or minus was pressed; the factor."""

    takes_hold: Callable[[QPointF], bool] | None = None
    """Asked at every press with the left button whether something is taken hold of there."""

    def __init__(self, widget: QWidget) -> None:
        """Begin to listen."""
        super().__init__(widget)
        self._widget = widget
        self._pressed_at: QPointF | None = None
        self._last_at = QPointF()
        self._dragging = self._shifting = self._carrying = False
        widget.installEventFilter(self)

    def close(self) -> None:
        """Listen no more."""
        self._widget.removeEventFilter(self)

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:  # noqa: N802 - Qt's name
        """Understand the event and keep it from the graphics library, which has its own ideas."""
        handler = self._HANDLERS.get(event.type())
        if handler is None:
            return event.type() in _NOT_PASSED_ON
        handler(self, event)
        return True

    def _press(self, event: QEvent) -> None:
        assert isinstance(event, QMouseEvent)
        self._widget.setFocus(Qt.FocusReason.MouseFocusReason)
        self._pressed_at = self._last_at = event.position()
        self._dragging = False
        self._carrying = (
            event.button() == Qt.MouseButton.LeftButton
            and self.takes_hold is not None
            and self.takes_hold(event.position())
        )
        self._shifting = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)

    def _move(self, event: QEvent) -> None:
        assert isinstance(event, QMouseEvent)
        if self._pressed_at is None or event.buttons() == Qt.MouseButton.NoButton:
            self.hovered.emit(event.position())
            return
        if self._carrying:
            self.carried.emit(event.position())
            return
        if not self._dragging and _apart(event.position(), self._pressed_at) < _CLICK_PX:
            return
        self._dragging = True
        step = event.position() - self._last_at
        self._last_at = event.position()
        if event.buttons() & Qt.MouseButton.LeftButton and not self._shifting:
            self.turned.emit(step)
        else:
            self.shifted.emit(step)

    def _release(self, event: QEvent) -> None:
        assert isinstance(event, QMouseEvent)
        if self._carrying:
            self.let_go.emit()
        is_click = self._pressed_at is not None and not (self._dragging or self._carrying)
        self._pressed_at, self._dragging, self._carrying = None, False, False
        if is_click and event.button() == Qt.MouseButton.LeftButton:
            self.clicked.emit(event.position())

    def _override(self, event: QEvent) -> None:
        """Have Esc for what is held, before a shortcut has it."""
        assert isinstance(event, QKeyEvent)
        if self._carrying and event.key() == Qt.Key.Key_Escape:
            self._carrying, self._pressed_at = False, None
            self.taken_back.emit()
            event.accept()
        else:
            event.ignore()

    def _key(self, event: QEvent) -> None:
        assert isinstance(event, QKeyEvent)
        if event.key() in _ARROWS:
            self.stepped.emit(*_ARROWS[Qt.Key(event.key())])
        elif event.text() in _ZOOMS:
            self.zoomed.emit(_ZOOMS[event.text()])

    def _wheel(self, event: QEvent) -> None:
        assert isinstance(event, QWheelEvent)
        self.neared.emit(_WHEEL_STEP ** (event.angleDelta().y() / 120.0), event.position())

    _HANDLERS: dict[QEvent.Type, Callable[["Pointer", QEvent], None]] = {  # noqa: RUF012
        QEvent.Type.MouseButtonPress: _press,
        QEvent.Type.MouseButtonDblClick: _press,
        QEvent.Type.MouseMove: _move,
        QEvent.Type.MouseButtonRelease: _release,
        QEvent.Type.Wheel: _wheel,
        QEvent.Type.KeyPress: _key,
        QEvent.Type.ShortcutOverride: _override,
    }


_NOT_PASSED_ON = (
    QEvent.Type.KeyRelease,
    QEvent.Type.Enter,
    QEvent.Type.Leave,
    QEvent.Type.ContextMenu,
)


def _apart(a: QPointF, b: QPointF) -> float:
    step = a - b
    return float(abs(step.x()) + abs(step.y()))
