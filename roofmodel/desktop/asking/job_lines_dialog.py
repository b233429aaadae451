"""The lines of one job: extras, overrides, choices, alternatives, sums, discount, contingency."""

from dataclasses import replace
from decimal import Decimal

from PySide6.QtWidgets import (
    QAbstractItemView,
    QComboBox,
    QDialog,
    QDialogButtonBox,
    QFormLayout,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from roofmodel.desktop.kit import number_text, quiet_table, theme
from roofmodel.desktop.kit.number_text import Unreadable
from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.quantities.job_lines import JobEstimate, JobLine, LineKind
from roofmodel.quantities.labour import Trade
from roofmodel.refit.method import Method

_HEADS = ("Kind", "What", "Quantity", "Rate £", "Hours", "Reason", "Methods")
_KINDS = {
    LineKind.EXTRA: "Extra: a code, or words with a rate or hours",
    LineKind.OVERRIDE: "Another quantity of a line, with the reason",
    LineKind.CHOSEN: "Switch on a line that stands at zero",
    LineKind.ALTERNATIVE: "Another material in the quantity of a line",
    LineKind.PROVISIONAL: "Provisional sum, shown apart",
}
_FIELDS = {
    "text": "In words",
    "material": "Code",
    "instead_of": "Instead of code",
    "quantity": "Quantity",
    "rate_gbp": "Rate or sum, without VAT [£]",
    "hours": "Hours",
    "reason": "Reason",
}
_USED = {
    LineKind.EXTRA: ("text", "material", "quantity", "rate_gbp", "hours"),
    LineKind.OVERRIDE: ("material", "quantity", "reason"),
    LineKind.CHOSEN: ("material", "quantity"),
    LineKind.ALTERNATIVE: ("instead_of", "material", "reason"),
    LineKind.PROVISIONAL: ("text", "rate_gbp"),
}
_OF_JOB = {
    "discount_percent": "Discount [%]",
    "discount_gbp": "Discount [£, without VAT]",
    "discount_reason": "Discount is for",
    "contingency_percent": "Contingency of this job [%]",
}
_CUT_IN = {
    None: "not decided: no hours of the workshop",
    "workshop": "in the workshop, piece by piece",
    "site": "on site, which takes longer",
}
_WIDE, _HIGH = 760, 620


class JobLinesDialog(QDialog):
    """A list of lines with what is needed to add one; OK keeps them, Cancel does not."""

    def __init__(self, parent: QWidget | None, entry: JobEstimate) -> None:
        """Show what the job has."""
        super().__init__(parent)
        self.setWindowTitle("Lines of this job")
        self._lines = list(entry.lines)
        self.entry = entry
        self.table = quiet_table.make(_HEADS, words=(0, 1, 5, 6))
        self.table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.kind, self.trade, self.method = QComboBox(), QComboBox(), QComboBox()
        for kind, words in _KINDS.items():
            self.kind.addItem(words, kind)
        for trade in Trade:
            self.trade.addItem(trade.value, trade)
        self.method.addItem("all methods", None)
        for method in Method:
            self.method.addItem(method.printed, method)
        self.cut_in = QComboBox()
        for where, words in _CUT_IN.items():
            self.cut_in.addItem(words, where)
        self.fields = {name: QLineEdit() for name in _FIELDS}
        self.of_job = {name: QLineEdit() for name in _OF_JOB}
        self.fault = theme.faint()
        self.fault.setWordWrap(True)
        self.add, self.remove = QPushButton("&Add the line"), QPushButton("&Remove the line")
        self._show_job(entry)
        self._lay_out()
        self.kind.currentIndexChanged.connect(self._show_fields)
        self.add.clicked.connect(self._add)
        self.remove.clicked.connect(self._remove)
        self._show_fields()
        self._show_lines()

    def _show_job(self, entry: JobEstimate) -> None:
        self.of_job["discount_percent"].setText(_figure(entry.discount_percent))
        self.of_job["discount_gbp"].setText(_figure(entry.discount_gbp))
        self.of_job["discount_reason"].setText(entry.discount_reason)
        self.of_job["contingency_percent"].setText(_figure(entry.contingency_percent))
        self.of_job["contingency_percent"].setPlaceholderText("the firm's")
        self.cut_in.setCurrentIndex(max(0, self.cut_in.findData(entry.boards_cut)))

    def _lay_out(self) -> None:
        form = QFormLayout()
        form.addRow("&Kind", self.kind)
        for name, label in _FIELDS.items():
            form.addRow(label, self.fields[name])
        form.addRow("Trade", self.trade)
        form.addRow("For", self.method)
        buttons = QHBoxLayout()
        buttons.addWidget(self.add)
        buttons.addWidget(self.remove)
        buttons.addStretch(1)
        job = QFormLayout()
        for name, label in _OF_JOB.items():
            job.addRow(label, self.of_job[name])
        job.addRow("Boards are cut", self.cut_in)
        box = QDialogButtonBox(
            QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel
        )
        box.accepted.connect(self.accept)
        box.rejected.connect(self.reject)
        column = QVBoxLayout(self)
        column.addWidget(self.table, 1)
        column.addLayout(form)
        column.addLayout(buttons)
        column.addLayout(job)
        column.addWidget(self.fault)
        column.addWidget(box)
        self._form = form
        self.resize(_WIDE, _HIGH)

    def _show_fields(self) -> None:
        """Show only what the kind needs."""
        kind = LineKind(self.kind.currentData())
        for name, field in self.fields.items():
            self._form.setRowVisible(field, name in _USED[kind])
        self._form.setRowVisible(self.trade, kind is LineKind.EXTRA)

    def _show_lines(self) -> None:
        quiet_table.fill(self.table, [_row(line) for line in self._lines])
        self.remove.setEnabled(bool(self._lines))

    def _add(self) -> None:
        kind = LineKind(self.kind.currentData())
        try:
            values = {name: self._read(name) for name in _USED[kind]}
            line = JobLine(
                kind=kind,
                trade=Trade(self.trade.currentData()),
                methods=tuple(Method(one) for one in (self.method.currentData(),) if one),
                **values,  # type: ignore[arg-type] # read by their names
            )
        except DimensionError as error:
            self.fault.setText(" ".join(f"{one.text} {one.remedy}" for one in error.faults))
            return
        self._lines.append(line)
        self.fault.setText("")
        for field in self.fields.values():
            field.clear()
        self._show_lines()

    def _remove(self) -> None:
        row = self.table.currentRow()
        if 0 <= row < len(self._lines):
            del self._lines[row]
            self._show_lines()
        else:
            self.fault.setText("Select the line that is to go.")

    def _read(self, name: str) -> object:
        words = self.fields[name].text().strip()
        if name in ("text", "material", "instead_of", "reason"):
            return words
        if not words:
            return 0.0 if name == "hours" else None
        value = _number(words, name, _FIELDS[name])
        return Decimal(repr(value)) if name == "rate_gbp" else value

    def accept(self) -> None:
        """Close, unless the discount or the contingency cannot be."""
        try:
            self.entry = replace(
                self.entry,
                lines=tuple(self._lines),
                discount_percent=self._amount("discount_percent") or Decimal(0),
                discount_gbp=self._amount("discount_gbp") or Decimal(0),
                discount_reason=self.of_job["discount_reason"].text().strip(),
                contingency_percent=self._amount("contingency_percent"),
                boards_cut=self.cut_in.currentData(),
            )
        except DimensionError as error:
            self.fault.setText(" ".join(f"{one.text} {one.remedy}" for one in error.faults))
            return
        super().accept()

    def _amount(self, name: str) -> Decimal | None:
        words = self.of_job[name].text().strip()
        return Decimal(repr(_number(words, name, _OF_JOB[name]))) if words else None


def _number(words: str, field: str, label: str) -> float:
    value = number_text.read(words, unit="")
    if isinstance(value, Unreadable):
        raise DimensionError([Fault(field, f"{label}: “{words}” is no number.", "Enter digits.")])
    return value


def _figure(value: Decimal | None) -> str:
    return f"{value:f}" if value else ""


def _row(line: JobLine) -> tuple[str, ...]:
    what = " ".join(filter(None, (line.material, line.text)))
    if line.instead_of:
        what = f"{line.material} instead of {line.instead_of}"
    return (
        line.kind.value,
        what,
        "" if line.quantity is None else f"{line.quantity:g}",
        "" if line.rate_gbp is None else f"{line.rate_gbp:,.2f}",
        f"{line.hours:g} h {line.trade}" if line.hours else "",
        line.reason,
        ", ".join(method.printed for method in line.methods) or "all",
    )
