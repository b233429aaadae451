"""The firm's own name, logo, rates and words, entered once and kept for every offer."""

from dataclasses import replace
from decimal import Decimal
from pathlib import Path
from typing import get_args

from PySide6.QtCore import Qt
from PySide6.QtGui import QPixmap
from PySide6.QtWidgets import (
    QComboBox,
    QDialog,
    QDialogButtonBox,
    QFileDialog,
    QFormLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPlainTextEdit,
    QPushButton,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)

from roofmodel.desktop.asking.offer_dialog import PICTURES
from roofmodel.desktop.kit import number_text, theme
from roofmodel.desktop.kit.number_text import Unreadable
from roofmodel.drawings.offer.offer_text import OfferText, Stage
from roofmodel.drawings.pictures import photo
from roofmodel.foundation import clock
from roofmodel.foundation.errors import DimensionError, Fault, RoofModelError
from roofmodel.pricing.rates import ProfitIs, Rates, Rounding
from roofmodel.programme.working_days import Nation
from roofmodel.workbench.firm import firm
from roofmodel.workbench.firm.firm import Firm

_NAMES = {
    "name": "Firm's name",
    "address": "Address",
    "contact": "Telephone, e-mail",
    "note": "Footer line",
}
_RATES = {
    "installer_gbp_h": ("Installer", "£/h"),
    "electrician_gbp_h": ("Electrician", "£/h"),
    "plasterer_gbp_h": ("Plasterer", "£/h"),
    "workshop_gbp_h": ("Workshop", "£/h"),
    "overhead_percent": ("Overhead", "%"),
    "profit_percent": ("Profit", "%"),
    "contingency_percent": ("Contingency", "%"),
    "vat_percent": ("VAT", "%"),
    "hours_a_day": ("A day of the team", "h"),
    "productive_hours_a_day": ("of it on an open roof", "h"),
    "price_step_gbp": ("Prices with VAT in steps of", "£"),
}
_LISTS = {
    "intro": "Introduction",
    "included": "Included",
    "not_included": "Not included",
    "assumptions": "Assumptions",
    "cautions": "Please note",
}
_TEXTS = {
    "panel_note": "Note on panel swap",
    "options_note": "Note on extras",
    "warranty": "Guarantee",
    "cancellation": "Right to cancel",
    "consent": "Consent to photographs",
}
_STAGES = "stages"
_LOGO_PX = (220, 70)
_SIZE = (640, 560)


class FirmDialog(QDialog):
    """Three tabs; nothing is kept until everything can stand."""

    def __init__(self, parent: QWidget | None, folder: Path) -> None:
        """Show what is kept in a folder, or what ships."""
        super().__init__(parent)
        self.setWindowTitle("Firm: name, logo, rates, texts")
        self._folder = folder
        self.trouble = theme.Wrapped()
        self.trouble.setObjectName("stop")
        try:
            self._firm = firm.load(folder)
        except RoofModelError as error:
            self._firm = firm.load(None)
            self.trouble.setText(f"{error} The supplied texts and rates are shown instead.")
        self._logo = self._firm.text.firm.logo
        self.names = {name: QLineEdit(getattr(self._firm.text.firm, name)) for name in _NAMES}
        self.valid_days = QLineEdit(f"{self._firm.text.valid_days}")
        self.picture = QLabel()
        self.rates = {n: QLineEdit(_rate_text(getattr(self._firm.rates, n))) for n in _RATES}
        self.profit_is, self.nation, self.rounding = QComboBox(), QComboBox(), QComboBox()
        self.part, self.words = QComboBox(), QPlainTextEdit()
        self._texts = _texts_of(self._firm.text)
        self._shown = ""
        self.tabs = QTabWidget()
        for page, title in (
            (self._name_page(), "&Name and logo"),
            (self._rates_page(), "&Rates"),
            (self._words_page(), "&Texts of the offer"),
        ):
            self.tabs.addTab(page, title)
        buttons = QDialogButtonBox(
            QDialogButtonBox.StandardButton.Save | QDialogButtonBox.StandardButton.Cancel
        )
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        column = QVBoxLayout(self)
        column.addWidget(self.tabs, 1)
        column.addWidget(self.trouble)
        column.addWidget(buttons)
        self.resize(*_SIZE)

    def use_logo(self, file: Path | None) -> None:
        """Take a picture as the logo, or none."""
        if file is not None:
            try:
                photo.check(file)
            except RoofModelError as error:
                self.trouble.setText(str(error))
                return
        self.trouble.setText("")
        self._logo = "" if file is None else str(file)
        self._show_logo()

    def show_part(self, name: str) -> None:
        """Show a part of the offer's words."""
        self._keep_part()
        self._shown = name
        self.words.setPlainText(self._texts[name])
        self.part.setCurrentIndex(self.part.findData(name))

    def accept(self) -> None:
        """Keep everything, or say what cannot stand and stay."""
        self._keep_part()
        try:
            firm.save(self._entered(), self._folder)
        except DimensionError as error:
            self.trouble.setText(" ".join(_named(fault) for fault in error.faults))
            return
        except RoofModelError as error:
            self.trouble.setText(str(error))
            return
        super().accept()

    def _name_page(self) -> QWidget:
        page = QWidget()
        form = QFormLayout(page)
        for name, label in _NAMES.items():
            form.addRow(label, self.names[name])
        form.addRow("Offer valid for [days]", self.valid_days)
        choose, drop = QPushButton("Choose…"), QPushButton("No logo")
        choose.clicked.connect(self._choose_logo)
        drop.clicked.connect(lambda: self.use_logo(None))
        row = QHBoxLayout()
        for widget in (choose, drop):
            widget.setAutoDefault(False)
            row.addWidget(widget)
        row.addStretch(1)
        form.addRow("Logo", row)
        self.picture.setMinimumHeight(_LOGO_PX[1])
        form.addRow("", self.picture)
        self._show_logo()
        return page

    def _rates_page(self) -> QWidget:
        page = QWidget()
        form = QFormLayout(page)
        for name, (label, unit) in _RATES.items():
            form.addRow(f"{label} [{unit}]", self.rates[name])
            if name == "profit_percent":
                for one in ProfitIs:
                    self.profit_is.addItem(_OF[one], one)
                self.profit_is.setCurrentIndex(self.profit_is.findData(self._firm.rates.profit_is))
                form.addRow("Profit as a percentage", self.profit_is)
        for way in Rounding:
            self.rounding.addItem(_WAY[way], way)
        self.rounding.setCurrentIndex(self.rounding.findData(self._firm.rates.price_rounded))
        form.addRow("Rounded", self.rounding)
        self.rates["workshop_gbp_h"].setPlaceholderText("as the installer")
        for nation in get_args(Nation):
            self.nation.addItem(nation)
        self.nation.setCurrentText(self._firm.rates.bank_holidays_of)
        form.addRow("Bank holidays of", self.nation)
        form.addRow(theme.faint("Ex VAT. The supplied rates are placeholders: enter your own."))
        return page

    def _words_page(self) -> QWidget:
        page = QWidget()
        for name, label in (*_LISTS.items(), *_TEXTS.items(), (_STAGES, "Payment stages")):
            self.part.addItem(label, name)
        self.part.activated.connect(lambda place: self.show_part(self.part.itemData(place)))
        self.words.setTabChangesFocus(True)
        column = QVBoxLayout(page)
        column.addWidget(self.part)
        column.addWidget(self.words, 1)
        hint = theme.faint(
            "One point per line. {firm}, {code}, {title} and {valid_days} are filled in "
            "automatically. Begin a payment stage with its share: 10 % with the order. "
            "Have the texts checked by the firm's adviser."
        )
        hint.setWordWrap(True)
        column.addWidget(hint)
        self.show_part(next(iter(_LISTS)))
        return page

    def _choose_logo(self) -> None:
        chosen, _ = QFileDialog.getOpenFileName(self, "Logo", str(Path.home()), PICTURES)
        if chosen:
            self.use_logo(Path(chosen))

    def _show_logo(self) -> None:
        picture = QPixmap(self._logo) if self._logo else QPixmap()
        if picture.isNull():
            self.picture.setText("none: firm's name only")
            return
        keep, smooth = (
            Qt.AspectRatioMode.KeepAspectRatio,
            Qt.TransformationMode.SmoothTransformation,
        )
        self.picture.setPixmap(picture.scaled(*_LOGO_PX, keep, smooth))

    def _keep_part(self) -> None:
        if self._shown:
            self._texts[self._shown] = self.words.toPlainText()

    def _entered(self) -> Firm:
        text = self._firm.text
        lists = {name: _lines(self._texts[name]) for name in _LISTS}
        single = {name: " ".join(_lines(self._texts[name])) for name in _TEXTS}
        names = {name: field.text().strip() for name, field in self.names.items()}
        if not names["name"]:
            fault = Fault("firm.name", "The firm's name is missing.", "Enter it on the first page.")
            raise DimensionError([fault])
        return Firm(
            text=replace(
                text,
                valid_days=int(_number(self.valid_days.text(), "Offer valid for", "days")),
                stages=tuple(_stage(line) for line in _lines(self._texts[_STAGES])),
                firm=replace(text.firm, **names, logo=self._logo),
                **lists,  # type: ignore[arg-type] # the names are those of lists
                **single,  # type: ignore[arg-type] # and these of single texts
            ),
            rates=self._rates(),
            tables=self._firm.tables,
            own=True,
        )

    def _rates(self) -> Rates:
        before = self._firm.rates
        values: dict[str, object] = {
            name: Decimal(repr(_number(field.text(), *_RATES[name])))
            for name, field in self.rates.items()
            if field.text().strip() or name != "workshop_gbp_h"
        }
        values = {
            "workshop_gbp_h": None,
            "bank_holidays_of": self.nation.currentText(),
            "price_rounded": self.rounding.currentData(),
            **values,
        }
        profit_is = self.profit_is.currentData()
        changed = replace(before, **values, profit_is=profit_is)  # type: ignore[arg-type] # by name
        if changed == before:
            return before
        return replace(changed, dated=clock.today(), source="the firm")


_WAY = {
    Rounding.NEAREST: "to the nearest step",
    Rounding.UP: "up to the next step",
    Rounding.DOWN: "down to the last step",
}
_OF = {ProfitIs.MARK_UP: "of cost (mark-up)", ProfitIs.MARGIN: "of price (margin)"}


def _rate_text(rate: Decimal | None) -> str:
    return "" if rate is None else f"{rate:f}"


def _texts_of(text: OfferText) -> dict[str, str]:
    found = {name: "\n".join(getattr(text, name)) for name in _LISTS}
    found |= {name: getattr(text, name) for name in _TEXTS}
    found[_STAGES] = "\n".join(f"{one.percent:g} % {one.what}" for one in text.stages)
    return found


def _named(fault: Fault) -> str:
    """Return a fault with the field it is about, as this dialog calls it."""
    label = _RATES[fault.field][0] if fault.field in _RATES else ""
    return f"{label}: {fault}" if label else str(fault)


def _lines(text: str) -> tuple[str, ...]:
    return tuple(line.strip() for line in text.splitlines() if line.strip())


def _stage(line: str) -> Stage:
    share, sign, what = line.partition("%")
    value = number_text.read(share, unit="%")
    if isinstance(value, Unreadable) or not sign or not what.strip():
        text = f"“{line}” is not a payment stage."
        raise DimensionError([Fault(_STAGES, text, "Enter it in the form: 10 % with the order.")])
    return Stage(what=what.strip(), percent=value)


def _number(text: str, label: str, unit: str) -> float:
    value = number_text.read(text, unit=unit)
    if isinstance(value, Unreadable):
        raise DimensionError([Fault(label, f"{label}: {value.text}", value.remedy)])
    return value
