"""Two lists of the roof's corners, for measuring by keyboard."""

from PySide6.QtCore import QSignalBlocker
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLabel, QWidget

from roofmodel.desktop.job.measuring import Measuring
from roofmodel.desktop.kit import theme
from roofmodel.geometry.plane import Point


class CornerChoice(QWidget):
    """Chooses the corners to measure between, by the numbers the plan shows."""

    def __init__(self, measuring: Measuring) -> None:
        """List the corners, then listen."""
        super().__init__()
        self._measuring = measuring
        self.lists = (QComboBox(), QComboBox())
        self.figures = theme.faint()
        self.figures.setWordWrap(False)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(4)
        for word, box in zip(("from corner", "to"), self.lists, strict=True):
            row.addWidget(QLabel(word))
            box.setAccessibleName(f"Measure {word}")
            box.activated.connect(self._take)
            row.addWidget(box)
        row.addWidget(self.figures)
        measuring.changed.connect(self._show)
        self._show()

    def _take(self) -> None:
        places = [box.currentIndex() - 1 for box in self.lists]
        if min(places) >= 0 and places[0] != places[1]:
            self._measuring.clear()
            for place in places:
                self._measuring.take(place)

    def _show(self) -> None:
        texts = ["–", *(_text(i, c) for i, c in enumerate(self._measuring.corners))]
        for end, box in enumerate(self.lists):
            with QSignalBlocker(box):
                if [box.itemText(i) for i in range(box.count())] != texts:
                    box.clear()
                    box.addItems(texts)
                if len(self._measuring.taken) > end:
                    box.setCurrentIndex(self._measuring.taken[end] + 1)
        dimension = self._measuring.dimension
        self.figures.setText(" · ".join(dimension.lines) if dimension else "")


def _text(place: int, corner: Point) -> str:
    x, y, z = (round(value) + 0 for value in corner)
    return f"{place + 1}: {x} along, {y} out, {z} up"
