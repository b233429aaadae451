"""How the window looks: a few quiet colours, the style sheet, and helpers that mix colours."""

from collections.abc import Iterator
from contextlib import contextmanager

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QFont, QFontInfo, QPalette, QResizeEvent
from PySide6.QtWidgets import QApplication, QLabel, QScrollArea, QWidget

from roofmodel.desktop.kit import palette

_NOW = palette.of_the_system()
"""Chosen when the window is loaded; another choice of the system counts from the next start."""

PAPER, CARD, WELL = _NOW.paper, _NOW.card, _NOW.well
INK, FAINT, HAIRLINE = _NOW.ink, _NOW.faint, _NOW.hairline
ACCENT, ACCENT_PALE, ON_ACCENT = _NOW.accent, _NOW.accent_pale, _NOW.on_accent
QUESTION, STOP, NOTE = _NOW.question, _NOW.stop, _NOW.note
QUESTION_PALE, STOP_PALE = _NOW.question_pale, _NOW.stop_pale
GOOD = _NOW.good
GREYED = "#c9c8c3"
NO_ROOF = "There is no roof yet. The findings say what is missing."
"""What a page says that has nothing to show."""
LIT = palette.ON_PAPER.lit
"""Geometry that a line of the take-off came from."""

SHEET = f"""
QWidget {{ color: {INK}; }}
QMainWindow, QDialog, QMessageBox {{ background: {PAPER}; }}
QToolTip {{ background: {CARD}; color: {INK}; border: 1px solid {HAIRLINE}; padding: 3px; }}
QMenuBar {{ background: {PAPER}; }}
QMenuBar::item:selected, QMenu::item:selected {{ background: {ACCENT_PALE}; color: {INK}; }}
QMenu {{ background: {CARD}; border: 1px solid {HAIRLINE}; }}
QMenu::item {{ padding: 5px 28px 5px 24px; }}
QMenu::item:disabled {{ color: {FAINT}; }}
QStatusBar {{ background: {PAPER}; color: {FAINT}; }}
QSplitter::handle {{ background: {PAPER}; }}
QSplitter::handle:hover {{ background: {ACCENT_PALE}; }}
QFrame#card {{ background: {CARD}; border: 1px solid {HAIRLINE}; border-radius: 6px; }}
QScrollArea, QScrollArea > QWidget > QWidget#page {{ background: {CARD}; border: none; }}
QLabel {{ background: transparent; }}
QLabel#heading {{ color: {ACCENT}; font-weight: 600; }}
QLabel#faint {{ color: {FAINT}; }}
QLabel#stop {{ color: {STOP}; }}
QLabel#question {{ color: {QUESTION}; }}
QLabel#banner {{ color: {STOP}; background: {STOP_PALE}; border-radius: 4px; padding: 3px 8px; }}
QLineEdit, QPlainTextEdit {{
    background: {CARD}; border: 1px solid {HAIRLINE}; border-radius: 4px; padding: 3px 6px;
    selection-background-color: {ACCENT}; selection-color: {ON_ACCENT};
    placeholder-text-color: {FAINT};
}}
QLineEdit:disabled, QPlainTextEdit:disabled, QComboBox:disabled {{
    background: {WELL}; color: {FAINT}; border: 1px dashed {HAIRLINE};
}}
QLabel:disabled, QCheckBox:disabled {{ color: {FAINT}; }}
/* Said here again: the ink of all widgets would beat the ink of what is highlighted. */
QComboBox QAbstractItemView, QListView, QTreeView {{
    background: {CARD}; color: {INK};
    selection-background-color: {ACCENT_PALE}; selection-color: {INK};
}}
QLineEdit:focus, QPlainTextEdit:focus {{ border: 1px solid {ACCENT}; }}
QLineEdit[mark="stop"] {{ border: 1px solid {STOP}; background: {STOP_PALE}; }}
QLineEdit[mark="question"] {{ border: 1px solid {QUESTION}; background: {QUESTION_PALE}; }}
QPushButton, QToolButton {{
    background: {CARD}; border: 1px solid {HAIRLINE}; border-radius: 4px; padding: 4px 12px;
}}
QToolButton#compact, QPushButton#compact {{ padding: 4px 6px; }}
QToolButton#stage {{
    background: transparent; border: none; border-bottom: 2px solid transparent; border-radius: 0px;
    color: {FAINT}; padding: 5px 11px;
}}
QToolButton#stage:hover {{ color: {ACCENT}; }}
QToolButton#stage:focus {{ color: {ACCENT}; border-bottom: 2px dotted {ACCENT}; }}
QToolButton#stage:checked {{
    background: transparent; color: {INK}; font-weight: 600; border-bottom: 2px solid {ACCENT};
}}
QToolButton#tile {{ padding: 4px; border-radius: 6px; }}
QPushButton:hover, QToolButton:hover {{ border-color: {ACCENT}; }}
QPushButton:focus, QToolButton:focus {{ border-color: {ACCENT}; }}
QPushButton:checked, QToolButton:checked {{
    background: {ACCENT}; border-color: {ACCENT}; color: {ON_ACCENT};
}}
QPushButton:disabled, QToolButton:disabled {{ color: {FAINT}; background: {WELL}; }}
QToolButton::menu-indicator {{ image: none; }}
/* The arrows beside tabs there is no room for: our padding would leave nothing of them. */
QFileDialog QToolButton {{ padding: 2px; border: none; background: transparent; }}
QTabBar QToolButton {{ padding: 0px; border: none; background: {CARD}; }}
QTableWidget {{
    background: {CARD}; border: none; gridline-color: {WELL};
    selection-background-color: {ACCENT_PALE}; selection-color: {INK};
}}
QHeaderView {{ background: {CARD}; border: none; }}
QHeaderView::section {{
    background: {CARD}; color: {FAINT}; border: none; border-bottom: 1px solid {HAIRLINE};
    padding: 3px 4px;
}}
QDialogButtonBox {{ dialogbuttonbox-buttons-have-icons: 0; }}
QMessageBox QLabel#qt_msgbox_informativelabel {{ min-width: 380px; }}
QTabWidget::pane {{ border: none; }}
QTabBar::tab {{
    background: transparent; color: {FAINT}; padding: 4px 12px; border: none;
    border-bottom: 2px solid transparent;
}}
QTabBar::tab:selected {{ color: {INK}; border-bottom: 2px solid {ACCENT}; }}
QTabBar::tab:hover {{ color: {ACCENT}; }}
QProgressBar {{ background: {WELL}; border: none; border-radius: 2px; max-height: 4px; }}
QProgressBar::chunk {{ background: {ACCENT}; border-radius: 2px; }}
"""


def dress(app: QApplication) -> None:
    """Give the program its look, the same on every system."""
    app.setStyle("Fusion")
    # The rest of the roles, such as the edges of buttons, follows from these two.
    roles = QPalette(QColor(CARD), QColor(PAPER))
    for role, colour in (
        (QPalette.ColorRole.Window, PAPER),
        (QPalette.ColorRole.Base, CARD),
        (QPalette.ColorRole.AlternateBase, PAPER),
        (QPalette.ColorRole.Button, CARD),
        (QPalette.ColorRole.Text, INK),
        (QPalette.ColorRole.WindowText, INK),
        (QPalette.ColorRole.ButtonText, INK),
        (QPalette.ColorRole.PlaceholderText, FAINT),
        (QPalette.ColorRole.Highlight, ACCENT_PALE),
        (QPalette.ColorRole.HighlightedText, INK),
    ):
        roles.setColor(role, QColor(colour))
    app.setPalette(roles)
    app.setStyleSheet(SHEET)


@contextmanager
def dressed_at_the_end() -> Iterator[None]:
    """Build widgets without the style sheet; all of them are dressed when they are in place.

    Qt dresses a widget and everything in it anew each time it is put into another. A window that is
    put together from the inside outwards is so dressed a dozen times over, which took four fifths
    of the time to build ours.
    """
    app = QApplication.instance()
    assert isinstance(app, QApplication)
    sheet = app.styleSheet()
    app.setStyleSheet("")
    try:
        yield
    finally:
        app.setStyleSheet(sheet)


def rgb(colour: str) -> tuple[int, int, int]:
    """Return red, green and blue of a colour, 0 to 255."""
    found = QColor(colour)
    return (found.red(), found.green(), found.blue())


def rgb_share(colour: str) -> tuple[float, float, float]:
    """Return red, green and blue of a colour, 0 to 1."""
    red, green, blue = rgb(colour)
    return (red / 255.0, green / 255.0, blue / 255.0)


def blended(colour: str, other: str, part: float) -> str:
    """Return a colour mixed with another one; ``part`` is the other's share, 0 to 1."""
    a, b = rgb(colour), rgb(other)
    mixed = (round(x * (1.0 - part) + y * part) for x, y in zip(a, b, strict=True))
    return "#{:02x}{:02x}{:02x}".format(*mixed)


def picked(colour: str) -> str:
    """Return the colour of a facet that is selected: the same hue, deeper."""
    hue = QColor(colour)
    deep = QColor.fromHsvF(
        max(hue.hueF(), 0.0),
        min(1.0, hue.saturationF() * 1.3 + 0.06),
        hue.valueF() * 0.92,
    )
    return str(deep.name())


def greyed(colour: str) -> str:
    """Return the colour of a facet of the last good roof."""
    return blended(colour, GREYED, 0.8)


def heading(text: str) -> QLabel:
    """Return a heading."""
    label = QLabel(text)
    label.setObjectName("heading")
    return label


def faint(text: str = "") -> QLabel:
    """Return words of lesser weight, wrapped."""
    label = Wrapped(text)
    label.setObjectName("faint")
    return label


_AROUND_CURSOR = (20, 40)
"""How much is seen beside and above what has the cursor [logical pixels]."""


def scrolled(widget: QWidget) -> QScrollArea:
    """Return a page that scrolls where there is too little room for it."""
    widget.setObjectName("page")
    area = _Scrolled()
    area.setWidgetResizable(True)
    area.setWidget(widget)
    return area


class _Scrolled(QScrollArea):
    """Brings whatever gets the cursor into sight, unless the mouse put it there."""

    def __init__(self) -> None:
        super().__init__()
        app = QApplication.instance()
        assert isinstance(app, QApplication)
        app.focusChanged.connect(self._bring)

    def _bring(self, _before: QWidget | None, now: QWidget | None) -> None:
        # Under a pressed mouse nothing moves: the click would end on something else.
        pressed = QApplication.mouseButtons() != Qt.MouseButton.NoButton
        if now is not None and self.isAncestorOf(now) and not pressed:
            self.ensureWidgetVisible(now, *_AROUND_CURSOR)


class Wrapped(QLabel):
    """Words that wrap and are never cut: forms give a label too little height for its width."""

    def __init__(self, text: str = "") -> None:
        super().__init__(text)
        self.setWordWrap(True)

    def setText(self, text: str) -> None:  # noqa: N802 - Qt's name
        """Show other words, and take the room they need."""
        super().setText(text)
        self._take_height()

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802 - Qt's name
        """Wrap anew, and take the room that needs."""
        super().resizeEvent(event)
        self._take_height()

    def _take_height(self) -> None:
        if self.wordWrap():
            # Qt counts the least height in: what was wrapped narrow once would stay high.
            self.setMinimumHeight(0)
            self.setMinimumHeight(max(0, self.heightForWidth(self.width())))


def letter_px() -> int:
    """Return how high the program's letters are, in pixels before the screen's scale."""
    return max(QFontInfo(QApplication.font()).pixelSize(), 8)


def font(points: float, *, bold: bool = False) -> QFont:
    """Return the program's font in a size [points]."""
    found = QFont(QApplication.font())
    found.setPointSizeF(points)
    found.setBold(bold)
    return found
