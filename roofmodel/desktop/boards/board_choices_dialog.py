"""What this job's sheets differ in from the catalogue: sizes, cut, gaps, and the way of laying."""

from collections.abc import Mapping, Sequence

from PySide6.QtCore import QSignalBlocker
from PySide6.QtWidgets import (
    QComboBox,
    QDialog,
    QDialogButtonBox,
    QFormLayout,
    QLineEdit,
    QVBoxLayout,
    QWidget,
)

from roofmodel.buildups.board_choice import BoardChoice
from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.laying.rule_set import RuleSet
from roofmodel.desktop.kit import number_text, theme
from roofmodel.desktop.kit.number_text import Unreadable
from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.workbench.job import sheet_layers

_LABELS = {
    "length_mm": "Length of the sheet [mm]",
    "width_mm": "Width of the sheet [mm]",
    "kerf_mm": "Saw cut [mm]",
    "trim_mm": "Edge cut off all round [mm]",
    "board_gap_mm": "Gap between boards [mm]",
    "wall_gap_mm": "Gap at house walls [mm]",
    "minimum_piece_mm": "Shortest piece [mm]",
    "stagger_mm": "Joints apart from row to row [mm]",
}
_USUAL = "the usual way"
_WIDE = 520


class BoardChoicesDialog(QDialog):
    """One material at a time; a field left empty is the catalogue's. OK keeps all of them."""

    def __init__(
        self,
        parent: QWidget | None,
        choices: Sequence[BoardChoice],
        goods: Mapping[str, SheetGood],
        ways: Mapping[str, RuleSet],
    ) -> None:
        """Show the first material.

        Parameters
        ----------
        parent
            The window this stands in front of.
        choices
            What the job has.
        goods
            The sheet materials that may be chosen, by code; those of the method first.
        ways
            The firm's ways of laying, by code.
        """
        super().__init__(parent)
        self.setWindowTitle("Boards of this job")
        self._goods, self._ways = goods, ways
        self._choices = {one.material: one for one in choices}
        self._shown = ""
        self.material, self.laying = QComboBox(), QComboBox()
        for code, good in goods.items():
            self.material.addItem(f"{code}  {good.name}", code)
        self.fields = {name: QLineEdit() for name in _LABELS}
        self.trouble = theme.Wrapped()
        self.trouble.setObjectName("stop")
        self._lay_out()
        self.material.currentIndexChanged.connect(self._other)
        self._show()

    @property
    def boards(self) -> tuple[BoardChoice, ...]:
        """What the job's sheets differ in, material by material."""
        return tuple(self._choices.values())

    def accept(self) -> None:
        """Keep what is typed, or say what cannot be and stay."""
        if self._keep():
            super().accept()

    def _lay_out(self) -> None:
        form = QFormLayout()
        form.addRow("&Material", self.material)
        form.addRow("Boards are &laid", self.laying)
        for name, label in _LABELS.items():
            form.addRow(label, self.fields[name])
        box = QDialogButtonBox(
            QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel
        )
        box.accepted.connect(self.accept)
        box.rejected.connect(self.reject)
        column = QVBoxLayout(self)
        column.addLayout(form)
        column.addWidget(theme.faint("A field left empty is taken from the catalogue."))
        column.addWidget(self.trouble)
        column.addWidget(box)
        self.resize(_WIDE, self.sizeHint().height())

    def _other(self) -> None:
        if self._keep():
            self._show()
            return
        with QSignalBlocker(self.material):
            self.material.setCurrentIndex(self.material.findData(self._shown))

    def _show(self) -> None:
        self._shown = str(self.material.currentData())
        good, choice = self._goods[self._shown], self._choices.get(self._shown)
        for name, field in self.fields.items():
            value = None if choice is None else getattr(choice, name)
            field.setText("" if value is None else number_text.shown(value))
            field.setPlaceholderText(number_text.shown(getattr(good, name)))
        self.laying.clear()
        self.laying.addItem(_USUAL, None)
        for code, way in self._ways.items():
            if good.layer in way.layers:
                self.laying.addItem(way.name, code)
        laid = None if choice is None else choice.laying
        self.laying.setCurrentIndex(max(0, self.laying.findData(laid)))
        self.trouble.setText("")

    def _keep(self) -> bool:
        """Return whether what is typed for the material shown can stand; it is kept then."""
        try:
            choice = self._typed()
        except DimensionError as error:
            said = [_LABELS.get(fault.field, "") for fault in error.faults]
            told = zip(said, error.faults, strict=True)
            self.trouble.setText(
                " ".join(f"{label}: {fault}".lstrip(": ") for label, fault in told)
            )
            return False
        bare = BoardChoice(material=self._shown)
        self._choices.pop(self._shown, None)
        if choice != bare:
            self._choices[self._shown] = choice
        return True

    def _typed(self) -> BoardChoice:
        values: dict[str, float | None] = {}
        for name, field in self.fields.items():
            text = field.text().strip()
            read = number_text.read(text, unit="mm") if text else None
            if isinstance(read, Unreadable):
                raise DimensionError([Fault(name, read.text, read.remedy)])
            values[name] = read
        laying = self.laying.currentData()
        choice = BoardChoice(material=self._shown, laying=laying, **values)
        sheet_layers.way_of(choice, choice.applied_to(self._goods[self._shown]), self._ways)
        return choice
