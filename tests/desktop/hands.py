"""Mouse and keyboard: events go to the window and find their widget as real ones do."""

from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

LEFT = Qt.MouseButton.LeftButton
NONE = Qt.KeyboardModifier.NoModifier


def spot(widget: QWidget, at: QPoint | QPointF | None = None) -> QPoint:
    """Return a place of a widget, its middle if left out, in its window."""
    if at is None:
        at = widget.rect().center()
    elif isinstance(at, QPointF):
        at = at.toPoint()
    return widget.mapTo(widget.window(), at)


def click(widget: QWidget, at: QPoint | QPointF | None = None) -> None:
    """Click into a widget."""
    QTest.mouseClick(widget.window().windowHandle(), LEFT, NONE, spot(widget, at))
    QApplication.processEvents()


def drag(widget: QWidget, start: QPoint | QPointF, by: tuple[int, int], *, steps: int = 8) -> None:
    """Press, move in steps, and let go."""
    handle, first = widget.window().windowHandle(), spot(widget, start)
    QTest.mousePress(handle, LEFT, NONE, first)
    for step in range(1, steps + 1):
        QTest.mouseMove(handle, first + QPoint(by[0] * step // steps, by[1] * step // steps))
        QApplication.processEvents()
    QTest.mouseRelease(handle, LEFT, NONE, first + QPoint(*by))
    QApplication.processEvents()


def press(window: QWidget, key: Qt.Key, modifier: Qt.KeyboardModifier = NONE) -> None:
    """Press and release a key."""
    QTest.keyClick(window.window().windowHandle(), key, modifier)
    QApplication.processEvents()


def type_text(window: QWidget, text: str) -> None:
    """Type letter by letter into whatever has the cursor."""
    for letter in text:
        QTest.keyClick(window.window().windowHandle(), letter)
    QApplication.processEvents()


def overtype(field: QWidget, text: str, *, enter: bool = True) -> None:
    """Click into a field, replace what stands there, and press Enter."""
    click(field)
    press(field, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    if text:
        type_text(field, text)
    else:
        press(field, Qt.Key.Key_Delete)
    if enter:
        press(field, Qt.Key.Key_Return)
