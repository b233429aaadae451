"""The catalogue page: what the firm buys, at what price, and where its rows differ."""

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from roofmodel.buildups.material import Material
from roofmodel.desktop.kit import theme
from roofmodel.desktop.kit.typed_field import CalmComboBox
from roofmodel.desktop.materials import catalogue_columns
from roofmodel.desktop.materials.catalogue_entry import CatalogueEntry
from roofmodel.desktop.materials.catalogue_table import CatalogueTable
from roofmodel.desktop.materials.price_lists import Past, PriceLists
from roofmodel.foundation.errors import DimensionError, RoofModelError

ALL = "All categories"
DOUBTFUL = "Out-of-date or missing prices"
OWN = "Own rows"
WITHDRAWN = "Withdrawn rows"
MOST_TOLD = 5
"""More faults than this would leave the table no room."""


class CataloguePanel(QWidget):
    """Shows the catalogue with the firm's rows in it, takes edits in place and saves them."""

    saved = Signal(object)
    """The own rows were saved; the `Catalogue` to reckon with from now on."""

    def __init__(self, entry: CatalogueEntry, *, past: Past = tuple) -> None:
        """Build the page, then show what is there; ``past`` gives the history of prices."""
        super().__init__()
        self.entry = entry
        self.price_lists = PriceLists(entry, past)
        self.search = QLineEdit()
        self.search.setPlaceholderText("Search code, name or source")
        self.search.setClearButtonEnabled(True)
        self.category = CalmComboBox()
        self.category.setAccessibleName("Category")
        self.table = CatalogueTable(entry)
        self.counts, self.said, self.faults = theme.faint(), theme.faint(), theme.Wrapped()
        self.faults.setObjectName("stop")
        self.new_code = QLineEdit()
        self.new_code.setPlaceholderText("New code")
        self.new_code.setMaximumWidth(140)
        self.copy = QPushButton("Copy row")
        self.copy.setToolTip("Add a copy of the selected row under the new code")
        self.drop = QPushButton("Restore")
        self.undo, self.redo = QPushButton("Undo"), QPushButton("Redo")
        self.save = QPushButton("Save catalogue")
        self._lay_out()
        self._connect()
        self._offer_categories()
        self.refresh()

    @property
    def unsaved(self) -> bool:
        """Whether own rows were changed and not saved."""
        return self.entry.history.changed

    def refresh(self) -> None:
        """Show the catalogue as it is now, as far as search and category want it."""
        rows = (*self.entry.merged.catalogue.materials.values(), *self.entry.withdrawn_rows)
        self._show([row for row in rows if self._is_wanted(row)])

    def _show(self, shown: Sequence[Material]) -> None:
        merged = self.entry.merged
        rows = list(merged.catalogue.materials.values())
        self.table.show_rows(shown)
        doubts = [self.entry.remark(row) for row in rows]
        missing = doubts.count("No price")
        own = len(self.entry.own_codes)
        stale = len([doubt for doubt in doubts if doubt]) - missing
        self.counts.setText(
            f"{len(self.table.codes)} of {len(rows)} materials; {own} own "
            f"rows; {stale} out-of-date and {missing} missing prices. GBP ex VAT, per "
            "pack."
        )
        # What is waiting is told whether its row is in view or not.
        told = [
            f"{code}, {catalogue_columns.HEADS[column]}: {waiting.fault}"
            for (code, column), waiting in self.entry.rejected.items()
        ]
        if len(told) > MOST_TOLD:
            told[MOST_TOLD:] = [f"And {len(told) - MOST_TOLD} more, marked in the table."]
        if self.entry.trouble:
            told.insert(0, self.entry.trouble)
        self.faults.setText("\n".join(told))
        self.faults.setVisible(bool(told))
        self.said.setText(self.entry.said)
        self.price_lists.show_days()
        self._enable()

    def _lay_out(self) -> None:
        top = QHBoxLayout()
        top.addWidget(theme.heading("Catalogue"))
        top.addWidget(self.search, 1)
        top.addWidget(self.category)
        bottom = QHBoxLayout()
        for widget in (self.new_code, self.copy, self.drop):
            bottom.addWidget(widget)
        bottom.addStretch(1)
        for widget in (self.undo, self.redo, self.save):
            bottom.addWidget(widget)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addLayout(top)
        column.addWidget(self.counts)
        column.addWidget(self.table, 1)
        column.addWidget(self.faults)
        column.addWidget(self.said)
        column.addWidget(self.price_lists)
        column.addLayout(bottom)

    def _connect(self) -> None:
        self.price_lists.changed.connect(self.refresh)
        self.price_lists.refused.connect(self._refuse)
        self.search.textChanged.connect(self.refresh)
        self.category.currentTextChanged.connect(self.refresh)
        self.new_code.textChanged.connect(self._enable)
        self.new_code.returnPressed.connect(self._copy)
        self.table.typed.connect(self._type)
        self.table.row_chosen.connect(self._enable)
        self.table.undo_asked.connect(self._undo)
        self.table.redo_asked.connect(self._redo)
        for button, act in (
            (self.copy, self._copy),
            (self.drop, self._drop),
            (self.undo, self._undo),
            (self.redo, self._redo),
            (self.save, self._save),
        ):
            button.clicked.connect(act)

    def _offer_categories(self) -> None:
        found = [row.category for row in self.entry.merged.catalogue.materials.values()]
        self.category.addItems([ALL, DOUBTFUL, OWN, WITHDRAWN, *dict.fromkeys(found)])

    def _is_wanted(self, row: Material) -> bool:
        choice = self.category.currentText()
        if row in self.entry.withdrawn_rows or choice == WITHDRAWN:
            fits = row in self.entry.withdrawn_rows and choice == WITHDRAWN
        elif choice == DOUBTFUL:
            fits = bool(self.entry.remark(row))
        elif choice == OWN:
            fits = row.code in self.entry.own_codes
        else:
            fits = choice in (ALL, row.category)
        words = " ".join(catalogue_columns.texts(row)).casefold()
        return fits and self.search.text().strip().casefold() in words

    def _enable(self) -> None:
        code, history = self.table.current_code, self.entry.history
        self.copy.setEnabled(code is not None and bool(self.new_code.text().strip()))
        self.drop.setEnabled(code is not None)
        words, tip = self._drop_words(code)
        self.drop.setText(words)
        self.drop.setToolTip(tip)
        self.undo.setEnabled(history.can_undo or bool(self.entry.rejected))
        self.redo.setEnabled(history.can_redo)
        self.save.setEnabled(history.changed)

    def _type(self, code: str, column: int, typed: str) -> None:
        self.entry.type(code, column, typed)
        # The rows in view stay: one that is mended is not taken from under the hand.
        known = self.entry.merged.catalogue.materials
        self._show([known[shown] for shown in self.table.codes if shown in known])

    def _copy(self) -> None:
        code, new_code = self.table.current_code, self.new_code.text().strip()
        if code is None or not new_code:
            return
        try:
            self.entry.copy(code, new_code)
        except DimensionError as error:
            self._refuse(f"New code: {error}")
            return
        self.new_code.clear()
        self.search.clear()
        self.category.setCurrentText(ALL)
        self.refresh()
        self.table.lead_to(new_code, catalogue_columns.PRICE)

    def _drop(self) -> None:
        code = self.table.current_code
        if code is None:
            return
        if self._may_withdraw(code):
            self.entry.withdraw(code)
        else:
            self.entry.drop(code)
        self.refresh()

    def _may_withdraw(self, code: str | None) -> bool:
        """Return whether a row is a shipped one in use, which may be withdrawn."""
        gone = [row.code for row in self.entry.withdrawn_rows]
        return code is not None and code not in self.entry.own_codes and code not in gone

    def _drop_words(self, code: str | None) -> tuple[str, str]:
        """Return what the button for a row says, and its tip."""
        if self._may_withdraw(code):
            return "Withdraw row", "Withdraw this row: recipes no longer find its material"
        if code is not None and code not in self.entry.base.materials:
            return "Remove row", "Remove your own row"
        return "Restore", "Replace your own row with the supplied one"

    def _undo(self) -> None:
        self.entry.undo()
        self.refresh()

    def _redo(self) -> None:
        self.entry.redo()
        self.refresh()

    def _save(self) -> None:
        try:
            self.entry.save()
        except RoofModelError as error:
            self._refuse(str(error))
            return
        self.refresh()
        self.saved.emit(self.entry.merged.catalogue)

    def _refuse(self, text: str) -> None:
        self.refresh()
        self.faults.setText("\n".join(filter(None, (self.faults.text(), text))))
        self.faults.show()
