"""The bar above a photograph and the column beside it; they show and tell, and decide nothing."""

from collections.abc import Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QButtonGroup,
    QComboBox,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QSlider,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from roofmodel.desktop.kit import theme
from roofmodel.desktop.show.photo_canvas import Tool
from roofmodel.photographs.corners import Corner
from roofmodel.photographs.entry import PhotoEntry
from roofmodel.photographs.seen import Seen

_WIDE = 280


class PhotoBar(QWidget):
    """Which photograph, which tool, which corner is clicked next."""

    chosen = Signal(int)
    """The photograph chosen."""

    tool_chosen = Signal(Tool)
    """The tool taken."""

    def __init__(self) -> None:
        """Offer nothing yet."""
        super().__init__()
        self.photos, self.corners = QComboBox(), QComboBox()
        self.photos.setMinimumWidth(150)
        self.corners.setToolTip("The corner that the next click is on")
        self.add, self.remove = QPushButton("Add photograph …"), QPushButton("Remove")
        self.remove.setToolTip("Takes it out of the job; the file stays in its folder")
        self.tools = {tool: QToolButton() for tool in Tool}
        self._group = QButtonGroup(self)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(4)
        for widget in (self.photos, self.add, self.remove):
            row.addWidget(widget)
        row.addSpacing(10)
        for tool, button in self.tools.items():
            button.setText(tool.value)
            button.setToolTip(tool.hint)
            button.setCheckable(True)
            self._group.addButton(button)
            row.addWidget(button)
        row.addSpacing(10)
        row.addWidget(QLabel("Next click:"))
        row.addWidget(self.corners, 1)
        self.tools[Tool.CORNERS].setChecked(True)
        self._group.buttonClicked.connect(lambda _button: self.tool_chosen.emit(self.tool))
        self.photos.activated.connect(self.chosen.emit)

    @property
    def tool(self) -> Tool:
        """The tool in hand."""
        return next(tool for tool, button in self.tools.items() if button.isChecked())

    @property
    def corner(self) -> str:
        """The corner the next click is on."""
        return str(self.corners.currentData() or "")

    def take(self, tool: Tool) -> None:
        """Take a tool in hand."""
        if tool is not self.tool:
            self.tools[tool].setChecked(True)
            self.tool_chosen.emit(tool)

    def show_photos(self, files: Sequence[str], place: int, corners: Sequence[Corner]) -> None:
        """Offer the job's photographs and the roof's corners."""
        self.photos.clear()
        self.photos.addItems([f"{number}. {file}" for number, file in enumerate(files, start=1)])
        self.photos.setCurrentIndex(place if files else -1)
        self.remove.setEnabled(bool(files))
        if [self.corners.itemData(i) for i in range(self.corners.count())] != [
            corner.name for corner in corners
        ]:
            self.corners.clear()
            for corner in corners:
                self.corners.addItem(f"{corner.name}: {corner.words}", corner.name)

    def next_corner(self, clicked: set[str]) -> None:
        """Go on to the next corner nobody has clicked."""
        start = max(self.corners.currentIndex(), 0)
        count = self.corners.count()
        for step in range(count):
            place = (start + step) % count
            if self.corners.itemData(place) not in clicked:
                self.corners.setCurrentIndex(place)
                return


class PhotoSide(QWidget):
    """What the clicks say, what the photograph sees, the sun, and what can be done with it."""

    sun_moved = Signal(float, float)
    """Degrees to the right, degrees high."""

    captioned = Signal(str)
    """What somebody says the photograph shows."""

    def __init__(self) -> None:
        """Say nothing yet."""
        super().__init__()
        self.setFixedWidth(_WIDE)
        self.words, self.tool_words = _wrapped(), _wrapped()
        self.tool_words.setObjectName("faint")
        self.caption = QLineEdit()
        self.caption.setPlaceholderText("What the photograph shows")
        self.caption.setMaxLength(200)
        self._sizes = QGridLayout()
        self._sizes.setHorizontalSpacing(8)
        self.right, self.high = _slider(0, 360), _slider(1, 90)
        self.right.setToolTip(
            "Where the sun stood: straight behind the house at both ends, behind you in the middle"
        )
        self.high.setToolTip("How high the sun stood")
        self.draw, self.save = QPushButton("Draw the roof"), QPushButton("Save picture …")
        self.unpaint = QPushButton("Undo stroke")
        self._lay_out()
        self.hint(Tool.CORNERS.hint)
        self.caption.editingFinished.connect(lambda: self.captioned.emit(self.caption.text()))
        for slider in (self.right, self.high):
            slider.sliderReleased.connect(self._tell_sun)

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        column.addWidget(self.caption)
        column.addWidget(self.tool_words)
        column.addWidget(self.words)
        column.addLayout(self._sizes)
        sun = QGridLayout()
        sun.addWidget(QLabel("Sun from"), 0, 0)
        sun.addWidget(self.right, 0, 1)
        sun.addWidget(QLabel("Its height"), 1, 0)
        sun.addWidget(self.high, 1, 1)
        column.addLayout(sun)
        column.addStretch(1)
        buttons = QHBoxLayout()
        for button in (self.draw, self.save):
            buttons.addWidget(button)
        column.addWidget(self.unpaint)
        column.addLayout(buttons)

    def say(self, words: str, *, doubtful: bool) -> None:
        """Say what the clicks make of the photograph."""
        self.words.setObjectName("question" if doubtful else "faint")
        self.words.style().unpolish(self.words)
        self.words.style().polish(self.words)
        self.words.setText(words)

    def hint(self, words: str) -> None:
        """Say what the tool in hand does."""
        self.tool_words.setText(words)

    def show_photo(self, photo: PhotoEntry | None) -> None:
        """Show caption and sun of a photograph."""
        for widget in (self.caption, self.right, self.high, self.draw, self.save, self.unpaint):
            widget.setEnabled(photo is not None)
        self.show_sizes((), first=False)
        self.caption.setText("" if photo is None else photo.caption)
        if photo is not None:
            self.right.setValue(round(photo.sun.right_deg))
            self.high.setValue(round(photo.sun.height_deg))
            self.unpaint.setEnabled(bool(photo.strokes))

    def show_sizes(self, sizes: Sequence[Seen], *, first: bool) -> None:
        """Show what the photograph sees of the roof, beside what is entered."""
        while (item := self._sizes.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()  # it goes with the next round of events, and would stay in sight
                widget.deleteLater()
        for row, one in enumerate(sizes):
            label, figure = QLabel(one.label), QLabel(one.words)
            figure.setAlignment(Qt.AlignmentFlag.AlignRight)
            if one.doubted and not first:
                figure.setObjectName("question")
            entered = f"{one.entered:.1f}°" if one.unit == "°" else f"{one.entered:.0f} mm"
            figure.setToolTip("To be measured" if first else f"Entered: {entered}")
            self._sizes.addWidget(label, row, 0)
            self._sizes.addWidget(figure, row, 1)

    def _tell_sun(self) -> None:
        self.sun_moved.emit(float(self.right.value()), float(self.high.value()))


def _wrapped() -> QLabel:
    label = theme.faint("")
    label.setWordWrap(True)
    return label


def _slider(low: int, high: int) -> QSlider:
    slider = QSlider(Qt.Orientation.Horizontal)
    slider.setRange(low, high)
    return slider
