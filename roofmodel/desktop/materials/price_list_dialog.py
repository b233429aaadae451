"""What a price list would change, shown before it is taken; and what the prices were before."""

from collections.abc import Sequence
from datetime import date
from pathlib import Path

from PySide6.QtWidgets import (
    QCheckBox,
    QDialog,
    QDialogButtonBox,
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QVBoxLayout,
    QWidget,
)

from roofmodel.buildups.catalogue import Catalogue
from roofmodel.buildups.material import Price
from roofmodel.buildups.prices import list_file, price_entry, price_list
from roofmodel.buildups.prices.history import PastPrice
from roofmodel.buildups.prices.price_list import Preview, PriceChange
from roofmodel.desktop.kit import quiet_table, theme
from roofmodel.foundation.errors import RoofModelError

_HEADS = ("Code", "Name", "Before £", "Dated", "After £", "Dated", "Change", "Check")
_PAST_HEADS = ("Code", "Size mm", "Price £", "Dated", "Taken on", "Source")
_SIZE = (900, 520)


class PriceListDialog(QDialog):
    """Shows every price a list would change, or what is wrong with the list; takes nothing."""

    def __init__(self, parent: QWidget | None, path: Path, known: Catalogue, today: date) -> None:
        """Read a list for a catalogue."""
        super().__init__(parent)
        self.setWindowTitle(f"Price list {path.name}")
        self._path, self._known, self._today = path, known, today
        self.preview: Preview | None = None
        self.table = quiet_table.make(_HEADS, words=(0, 1, 7))
        self.dated = QLineEdit()
        self.dated.setPlaceholderText("day of prices that have none, such as 25/11/2026")
        self.only_known = QCheckBox("S&kip materials that are not in the catalogue")
        self.said = QLabel()
        self.faults = QPlainTextEdit()
        self.faults.setReadOnly(True)
        self.faults.setObjectName("stop")
        self.buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Cancel)
        self.take = self.buttons.addButton(
            "&Take these prices", QDialogButtonBox.ButtonRole.AcceptRole
        )
        self.buttons.accepted.connect(self.accept)
        self.buttons.rejected.connect(self.reject)
        self.dated.editingFinished.connect(self._read)
        self.only_known.toggled.connect(self._read)
        column = QVBoxLayout(self)
        for widget in (self.said, self.table, self.faults, self.dated, self.only_known):
            column.addWidget(widget)
        column.addWidget(theme.faint("Prices are in GBP ex VAT, for one pack."))
        column.addWidget(self.buttons)
        self.resize(*_SIZE)
        self._read()

    def _read(self) -> None:
        """Read the list anew, as date and tick want it."""
        self.preview, told = None, ""
        try:
            day = self._day()
            self.preview = price_list.read(
                list_file.open_list(self._path, has_date=day is not None),
                self._known,
                name=self._path.name,
                today=self._today,
                dated=day,
                only_known=self.only_known.isChecked(),
            )
        except RoofModelError as error:
            told = str(error)
        changes = self.preview.changes if self.preview is not None else ()
        quiet_table.fill(self.table, [self._row(one) for one in changes])
        self.table.setVisible(self.preview is not None)
        self.faults.setPlainText(told)
        self.faults.setVisible(bool(told))
        self.said.setText(_summary(self.preview))
        self.take.setEnabled(bool(changes))

    def _day(self) -> date | None:
        typed = self.dated.text().strip()
        if not typed:
            return None
        day, wrong = price_entry.date_of(typed, today=self._today)
        if day is None:
            raise RoofModelError(" ".join(wrong or ()))
        return day

    def _row(self, one: PriceChange) -> Sequence[str]:
        percent = "" if one.percent is None else f"{one.percent:+.1f} %"
        remark = one.remark
        if one.supplier_code is not None:
            remark = "; ".join(filter(None, (f"supplier code {one.supplier_code}", remark)))
        name = self._known.materials[one.code].name
        return (one.named, name, *_money(one.before), *_money(one.after), percent, remark)


class PriceHistory(QDialog):
    """The prices there were, the newest first."""

    def __init__(self, parent: QWidget | None, entries: Sequence[PastPrice]) -> None:
        """Show them; nothing can be changed here."""
        super().__init__(parent)
        self.setWindowTitle("What prices were")
        self.table = quiet_table.make(_PAST_HEADS, words=(0, 1, 3, 4, 5))
        rows = [
            (
                one.code,
                one.size,
                f"{one.price.amount:,.2f}",
                _shown(one.price.dated),
                _shown(one.taken_on),
                one.price.source,
            )
            for one in reversed(entries)
        ]
        quiet_table.fill(self.table, rows)
        words = "No price has been changed yet." if not rows else "GBP ex VAT, for one pack."
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        buttons.rejected.connect(self.reject)
        column = QVBoxLayout(self)
        column.addWidget(self.table)
        column.addWidget(theme.faint(words))
        column.addWidget(buttons)
        self.resize(*_SIZE)


def _summary(preview: Preview | None) -> str:
    if preview is None:
        return "The list cannot be taken yet; nothing was changed."
    passed = f", {preview.passed_over} skipped" if preview.passed_over else ""
    return f"{len(preview.changes)} prices to change, {preview.same} unchanged{passed}."


def _money(price: Price | None) -> tuple[str, str]:
    return ("none", "") if price is None else (f"{price.amount:,.2f}", _shown(price.dated))


def _shown(day: date) -> str:
    return f"{day:%d/%m/%Y}"
