"""Asks what an offer needs to know: where to, of which day, a photograph, the gang."""

from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path

from PySide6.QtCore import QDate
from PySide6.QtWidgets import (
    QComboBox,
    QDateEdit,
    QDialog,
    QDialogButtonBox,
    QFileDialog,
    QFormLayout,
    QHBoxLayout,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from roofmodel.desktop.kit import theme

PHOTOGRAPHS = "Photographs (*.jpg *.jpeg *.png *.heic *.heif *.hif *.webp);;All files (*)"
PICTURES = "Pictures (*.jpg *.jpeg *.png *.webp *.tif *.tiff);;All files (*)"
_BY_ROOF = "set by the roof"
_BY_LEAD = "set by the longest lead time"
_MOST_MEN = 6
_WIDE = 560


@dataclass(frozen=True, slots=True, kw_only=True)
class OfferWanted:
    """What was answered.

    ``installers`` None leaves the gang to the roof, ``first_day`` None the first day on site to
    the longest lead time.
    """

    folder: Path
    made_on: date
    first_day: date | None
    photo: Path | None = None
    installers: int | None = None


class OfferDialog(QDialog):
    """One form; Enter writes, Esc does not."""

    def __init__(self, parent: QWidget | None, *, folder: Path, today: date) -> None:
        """Suggest a folder, and today for the day of the offer."""
        super().__init__(parent)
        self.setWindowTitle("Offer papers")
        self.folder, self.photo = QLineEdit(str(folder)), QLineEdit()
        self.folder.setToolTip("A new or empty folder, or one with an earlier offer of this job")
        self.photo.setPlaceholderText("none")
        self.photo.setToolTip("Photograph of the roof as it is now, printed next to the pictures")
        self.made_on = _day(today, "Date of the offer; it is valid from this date")
        asked = "First day on site, for calendar files and order lists"
        self.first_day = _day(today - timedelta(days=1), asked)
        # The earliest day stands for none: Qt shows words in its place.
        self.first_day.setMinimumDate(self.first_day.date())
        self.first_day.setSpecialValueText(_BY_LEAD)
        self.men = _gang()
        self._lay_out()

    def _lay_out(self) -> None:
        form = QFormLayout()
        form.addRow("&Folder", _with_button(self.folder, self._choose_folder))
        form.addRow("&Date of the offer", self.made_on)
        form.addRow("F&irst day on site", self.first_day)
        form.addRow("&Photograph", _with_button(self.photo, self._choose_photo))
        form.addRow("&Team", self.men)
        buttons = QDialogButtonBox()
        write = buttons.addButton("Write", QDialogButtonBox.ButtonRole.AcceptRole)
        write.setDefault(True)
        buttons.addButton(QDialogButtonBox.StandardButton.Cancel)
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        column = QVBoxLayout(self)
        column.addLayout(form)
        words = theme.faint(
            "Prices and programmes for three methods, the customer's offer, workbooks, "
            "order lists, day plans, calendars and the 3D page. Files from an earlier "
            "offer in the folder are replaced."
        )
        words.setWordWrap(True)
        column.addWidget(words)
        column.addWidget(buttons)
        self.resize(_WIDE, self.sizeHint().height())

    @property
    def wanted(self) -> OfferWanted:
        """What is entered."""
        photo = self.photo.text().strip()
        return OfferWanted(
            folder=Path(self.folder.text().strip()).expanduser(),
            made_on=_read(self.made_on),
            first_day=(
                None
                if self.first_day.date() == self.first_day.minimumDate()
                else _read(self.first_day)
            ),
            photo=Path(photo).expanduser() if photo else None,
            installers=self.men.currentData(),
        )

    def accept(self) -> None:
        """Close, unless no folder is named."""
        if self.folder.text().strip():
            super().accept()
        else:
            self.folder.setFocus()

    def _choose_folder(self) -> None:
        chosen = QFileDialog.getExistingDirectory(self, "Folder for the offer", self.folder.text())
        if chosen:
            self.folder.setText(chosen)

    def _choose_photo(self) -> None:
        chosen, _ = QFileDialog.getOpenFileName(
            self, "Photograph of the roof", self.photo.text(), PICTURES
        )
        if chosen:
            self.photo.setText(chosen)


def _gang() -> QComboBox:
    men = QComboBox()
    men.addItem(_BY_ROOF, None)
    for count in range(1, _MOST_MEN + 1):
        men.addItem(f"{count} installer{'s' if count > 1 else ''}", count)
    men.setToolTip("The number of days on site depends on the size of the team")
    return men


def _day(day: date, asked: str) -> QDateEdit:
    field = QDateEdit(QDate(day.year, day.month, day.day))
    field.setToolTip(asked)
    field.setCalendarPopup(True)
    field.setDisplayFormat("d MMMM yyyy")
    return field


def _read(field: QDateEdit) -> date:
    day = field.date()
    return date(day.year(), day.month(), day.day())


def _with_button(field: QLineEdit, choose: object) -> QWidget:
    box = QWidget()
    row = QHBoxLayout(box)
    row.setContentsMargins(0, 0, 0, 0)
    button = QPushButton("Choose…")
    button.setAutoDefault(False)
    button.clicked.connect(choose)
    row.addWidget(field, 1)
    row.addWidget(button)
    return box
