"""Asks who releases a job for cutting, and on which day."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from PySide6.QtCore import QDate
from PySide6.QtWidgets import (
    QDateEdit,
    QDialog,
    QDialogButtonBox,
    QFormLayout,
    QLabel,
    QLineEdit,
    QVBoxLayout,
    QWidget,
)

from roofmodel.desktop.kit import theme

_WIDE = 520


@dataclass(frozen=True, slots=True, kw_only=True)
class ReleaseWanted:
    """Who releases, and on which day."""

    by: str
    on: date


class ReleaseDialog(QDialog):
    """Says what would be released and what still stands against cutting; asks for name and day."""

    def __init__(
        self, parent: QWidget | None, *, what: str, against: Sequence[str], today: date
    ) -> None:
        """Suggest today; no later day can be chosen."""
        super().__init__(parent)
        self.setWindowTitle("Release for cutting")
        self.what, self.against = QLabel(what), theme.faint("\n".join(against))
        for words in (self.what, self.against):
            words.setWordWrap(True)
        self.against.setVisible(bool(against))
        self.by = QLineEdit()
        self.by.setPlaceholderText("who measured the roof a second time")
        self.on = QDateEdit(QDate(today.year, today.month, today.day))
        self.on.setMaximumDate(self.on.date())
        self.on.setCalendarPopup(True)
        self.on.setDisplayFormat("d MMMM yyyy")
        form = QFormLayout()
        form.addRow("&Name", self.by)
        form.addRow("&Day", self.on)
        buttons = QDialogButtonBox()
        release = buttons.addButton("Release", QDialogButtonBox.ButtonRole.AcceptRole)
        release.setDefault(True)
        buttons.addButton(QDialogButtonBox.StandardButton.Cancel)
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        column = QVBoxLayout(self)
        column.addWidget(self.what)
        column.addLayout(form)
        column.addWidget(self.against)
        column.addWidget(buttons)
        self.resize(_WIDE, self.sizeHint().height())

    @property
    def wanted(self) -> ReleaseWanted:
        """What is entered."""
        day = self.on.date()
        return ReleaseWanted(by=self.by.text().strip(), on=date(day.year(), day.month(), day.day()))

    def accept(self) -> None:
        """Close, unless nobody is named."""
        if self.by.text().strip():
            super().accept()
        else:
            self.by.setFocus()
