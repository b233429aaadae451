"""The colours of the window against WCAG 2.2, success criterion 1.4.3: 4.5 to 1 for its letters.

The formula of relative luminance is that of WCAG 2.2, written here anew.
"""

import itertools
import subprocess
import sys

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QPalette
from PySide6.QtWidgets import QComboBox, QLineEdit, QVBoxLayout, QWidget

from roofmodel.desktop.kit import palette, theme
from roofmodel.desktop.kit.palette import DARK, LIGHT

pytestmark = pytest.mark.desktop

LEAST = 4.5
GROUNDS = ("paper", "card", "well", "accent_pale")
LETTERS = ("ink", "faint", "accent", "question", "stop", "note", "good")


def luminance(colour):
    shares = [share / 255.0 for share in theme.rgb(colour)]
    red, green, blue = (
        share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4 for share in shares
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one, other):
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_the_formula_gives_the_ends_of_its_scale():
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.01)  # as published


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize(("letters", "ground"), list(itertools.product(LETTERS, GROUNDS)))
def test_letters_stand_out_from_every_ground_they_are_on(colours, letters, ground):
    assert contrast(getattr(colours, letters), getattr(colours, ground)) >= LEAST


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize(
    ("letters", "ground"),
    [
        ("question", "question_pale"),
        ("ink", "question_pale"),
        ("stop", "stop_pale"),
        ("ink", "stop_pale"),
        ("on_accent", "accent"),
    ],
)
def test_letters_on_a_mark_stand_out(colours, letters, ground):
    assert contrast(getattr(colours, letters), getattr(colours, ground)) >= LEAST


def test_the_theme_is_the_one_the_system_asks_for(qapp):
    assert palette.of(Qt.ColorScheme.Dark) is DARK
    assert palette.of(Qt.ColorScheme.Light) is LIGHT
    assert palette.of(Qt.ColorScheme.Unknown) is LIGHT
    assert palette.of_the_system() is palette.of(qapp.styleHints().colorScheme())


def test_the_window_is_dressed_in_the_dark_theme_where_it_is_asked_for():
    """In a process of its own: the choice is made once, when the window is loaded."""
    said = subprocess.run(
        [
            sys.executable,
            "-c",
            "from PySide6.QtWidgets import QApplication, QLineEdit; app = QApplication([]); "
            "from roofmodel.desktop.kit import palette; "
            "palette.of_the_system = lambda: palette.DARK; "
            "from roofmodel.desktop.kit import theme; theme.dress(app); field = QLineEdit(); "
            "image = field.grab().toImage(); "
            "print(theme.INK, image.pixelColor(image.width() // 2, image.height() // 2).name())",
        ],
        capture_output=True,
        text=True,
        check=True,
    )

    assert said.stdout.split() == [DARK.ink, DARK.card]


def painted(widget):
    """Return the two commonest colours of a widget as it is painted: ground and letters apart."""
    image = widget.grab().toImage()
    counts = {}
    for x, y in itertools.product(range(image.width()), range(image.height())):
        colour = QColor(image.pixel(x, y)).name()
        counts[colour] = counts.get(colour, 0) + 1
    return counts


@pytest.mark.parametrize("make", ["placeholder", "disabled", "highlighted"])
def test_what_is_painted_stands_out_as_well(qtbot, qapp, make):
    """Found painted at 2.6, 2.4 and 2.1 to 1."""
    theme.dress(qapp)
    if make == "highlighted":
        combo = QComboBox()
        combo.addItems(["MMMMMMMM", "NNNNNNNN"])
        widget = combo.view()
        qtbot.addWidget(combo)
        combo.show()
        combo.showPopup()
        qtbot.waitUntil(widget.isVisible)
        widget = widget.viewport()
    else:
        widget = QLineEdit("" if make == "placeholder" else "MMMMMMMM")
        widget.setPlaceholderText("MMMMMMMM")
        widget.setEnabled(make != "disabled")
        qtbot.addWidget(widget)
        widget.resize(160, 30)
        widget.show()
    counts = painted(widget)
    ground = max(counts, key=counts.get)

    assert max(contrast(colour, ground) for colour in counts) >= LEAST


def test_a_disabled_field_looks_disabled(qtbot, qapp):
    theme.dress(qapp)
    live, dead = QLineEdit("1"), QLineEdit("1")
    dead.setEnabled(False)
    for widget in (live, dead):
        qtbot.addWidget(widget)
        widget.resize(80, 28)
        widget.show()
    grounds = [max(found, key=found.get) for found in map(painted, (live, dead))]

    assert grounds[0] != grounds[1]


def test_placeholders_take_the_colour_of_lesser_words(qapp):
    theme.dress(qapp)

    found = qapp.palette().color(QPalette.ColorRole.PlaceholderText)
    assert found.name() == theme.FAINT


def test_what_gets_the_cursor_is_brought_into_sight(qtbot):
    inside = QWidget()
    column = QVBoxLayout(inside)
    edits = [QLineEdit() for _ in range(30)]
    for edit in edits:
        column.addWidget(edit)
    area = theme.scrolled(inside)
    qtbot.addWidget(area)
    area.resize(200, 200)
    with qtbot.waitExposed(area):
        area.show()
    area.activateWindow()
    qtbot.waitUntil(area.isActiveWindow)
    for edit in (edits[-1], edits[0], edits[3]):
        edit.setFocus()
        assert edit.visibleRegion().boundingRect().height() == edit.height()


def test_wrapped_words_give_back_the_height_they_no_longer_need(qtbot):
    label = theme.Wrapped("Click a side to say what stands there. Drag a side to move it.")
    qtbot.addWidget(label)
    label.resize(80, 200)
    label.show()
    narrow = label.minimumHeight()

    label.resize(900, 200)

    assert label.minimumHeight() < narrow / 2
