"""Mouse and keyboard: events go to the window and find their widget as real ones do."""

from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QScrollArea, QWidget

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
    """Click into a widget; what is out of sight is scrolled to first."""
    scroll_to(widget, at)
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
    """Go to a field, click into it, replace what stands there, and press Enter."""
    come_to(field)
    click(field)
    press(field, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    if text:
        type_text(field, text)
    else:
        press(field, Qt.Key.Key_Delete)
    if enter:
        press(field, Qt.Key.Key_Return)


def scroll_to(widget: QWidget, at: QPoint | QPointF | None = None) -> None:
    """Scroll a page until a place of a widget, its middle if left out, is in sight."""
    place = widget.mapFrom(widget.window(), spot(widget, at))
    page = widget.parentWidget()
    while page is not None and not isinstance(page, QScrollArea):
        page = page.parentWidget()
    if page is not None and widget.isVisible() and not widget.visibleRegion().contains(place):
        page.ensureWidgetVisible(widget)
        QApplication.processEvents()


def come_to(widget: QWidget) -> None:
    """Go to the stage of the work a widget stands at, if it is not in sight."""
    stages = getattr(widget.window(), "stages", None)
    if stages is not None and not widget.isVisible():
        stages.bring_around(widget)
        QApplication.processEvents()


def turn_to(window: QWidget, page: QWidget) -> None:
    """Click the stage a page belongs to, and its tab where there are several."""
    stages = window.stages
    if not page.isVisible():
        click(stages.bar.buttons[stages.stages_of(page)[0]])
    for tabs in (stages.main, stages.side):
        place = tabs.indexOf(page)
        if place >= 0 and tabs.currentIndex() != place:
            click(tabs.tabBar(), tabs.tabBar().tabRect(place).center())
