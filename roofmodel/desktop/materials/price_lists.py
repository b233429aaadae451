"""The buttons for price lists under the catalogue: in, out, what prices were, their age."""

from collections.abc import Callable, Sequence
from pathlib import Path

from PySide6.QtCore import QSignalBlocker, Signal
from PySide6.QtWidgets import (
    QDialog,
    QFileDialog,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSpinBox,
    QWidget,
)

from roofmodel.buildups.catalogue_rows import LONGEST_DAYS
from roofmodel.buildups.prices import list_file
from roofmodel.buildups.prices.history import PastPrice
from roofmodel.desktop.materials.catalogue_entry import CatalogueEntry
from roofmodel.desktop.materials.price_list_dialog import PriceHistory, PriceListDialog
from roofmodel.foundation.errors import RoofModelError
from roofmodel.storage import safe_write

LISTS = "Price lists (*.xlsx *.csv)"

type Past = Callable[[], Sequence[PastPrice]]


class PriceLists(QWidget):
    """Reads a list into the page, where it can be undone until it is saved; writes one out."""

    changed = Signal()
    refused = Signal(str)

    def __init__(self, entry: CatalogueEntry, past: Past) -> None:
        """Build the row; ``past`` gives the history of prices."""
        super().__init__()
        self._entry, self._past = entry, past
        self.read = QPushButton("&Read price list…")
        self.write = QPushButton("&Write price list…")
        self.history = QPushButton("What prices &were…")
        self.days = QSpinBox()
        self.days.setRange(1, LONGEST_DAYS)
        self.days.setSuffix(" days")
        self.days.setToolTip("Older prices are marked, and an offer that uses one is a draft")
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        for button in (self.read, self.write, self.history):
            row.addWidget(button)
        row.addStretch(1)
        label = QLabel("Prices are good &for")
        label.setBuddy(self.days)
        row.addWidget(label)
        row.addWidget(self.days)
        self.read.clicked.connect(self._ask_read)
        self.write.clicked.connect(self._ask_write)
        self.history.clicked.connect(self._show_history)
        self.days.valueChanged.connect(self._set_days)
        self.show_days()

    def show_days(self) -> None:
        """Show how long a price is good for."""
        with QSignalBlocker(self.days):
            self.days.setValue(self._entry.merged.catalogue.stale_days)

    def take(self, dialog: PriceListDialog) -> None:
        """Take what a list would change into the page."""
        if dialog.exec() == QDialog.DialogCode.Accepted and dialog.preview is not None:
            self._entry.take(dialog.preview)
            self.changed.emit()

    def write_to(self, path: Path) -> None:
        """Write the prices as they stand on the page."""
        try:
            content = list_file.content(self._entry.merged.catalogue, path)
            safe_write.replace_bytes(path, content)
        except RoofModelError as error:
            self.refused.emit(str(error))
            return
        self._entry.said = f"The prices have been written to {path}."
        self.changed.emit()

    def _ask_read(self) -> None:
        chosen, _ = QFileDialog.getOpenFileName(self, "Price list", str(Path.home()), LISTS)
        if chosen:
            known, today = self._entry.merged.catalogue, self._entry.today
            self.take(PriceListDialog(self, Path(chosen), known, today))

    def _ask_write(self) -> None:
        suggested = str(Path.home() / "prices.xlsx")
        chosen, _ = QFileDialog.getSaveFileName(self, "Price list", suggested, LISTS)
        if chosen:
            self.write_to(Path(chosen))

    def _show_history(self) -> None:
        try:
            PriceHistory(self, self._past()).exec()
        except RoofModelError as error:
            self.refused.emit(str(error))

    def _set_days(self, days: int) -> None:
        self._entry.good_for(days)
        self.changed.emit()
