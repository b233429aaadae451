"""The fields of one layer of the build-up: material, zone, lie, thickness, spacing, purpose."""

from collections.abc import Iterable
from dataclasses import dataclass

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtWidgets import QComboBox, QCompleter, QGridLayout, QWidget

from roofmodel.buildups.material import Material
from roofmodel.desktop.kit import number_text
from roofmodel.desktop.kit.number_text import Unreadable
from roofmodel.desktop.kit.typed_field import CalmComboBox, JobLineEdit, MarkedField
from roofmodel.drawings.views import layer_style
from roofmodel.foundation.errors import DimensionError
from roofmodel.refit.layer import Layer, Lie, Zone
from roofmodel.survey.taped.findings import Finding, Severity, stops

ZONES = {Zone.ROOM: "room side", Zone.BARS: "between the bars", Zone.OUTSIDE: "outside"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Typed:
    """What stands in the fields: a layer, or why it is none."""

    layer: Layer | None
    findings: tuple[Finding, ...] = ()


class LayerFields(QWidget):
    """Shows a layer and tells when something else was entered."""

    entered = Signal()
    """A field holds something else now."""

    left = Signal()
    """A field was left."""

    def __init__(self) -> None:
        """Build the fields."""
        super().__init__()
        self._layer: Layer | None = None
        self.material, self.zone, self.lie = _search(), CalmComboBox(), CalmComboBox()
        self.thickness, self.spacing = MarkedField(unit="mm thick"), MarkedField(unit="mm c/c")
        self.purpose = MarkedField()
        self.numbers = {"thickness_mm": self.thickness, "spacing_mm": self.spacing}
        self._fill()
        self._lay_out()
        # Zone and lie go together before anyone reads either.
        self.zone.activated.connect(lambda _place: self._pair_lie())
        self.lie.activated.connect(lambda _place: self._pair_zone())
        for combo in (self.zone, self.lie):
            combo.setMinimumContentsLength(6)
            combo.setSizeAdjustPolicy(
                QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon
            )
        for combo in (self.material, self.zone, self.lie):
            combo.activated.connect(lambda _place: self.entered.emit())
        edit = self.material.lineEdit()
        assert isinstance(edit, JobLineEdit)
        edit.finished.connect(self._finish_material)
        for field in (self.purpose, self.thickness, self.spacing):
            field.edit.typed.connect(lambda _text: self.entered.emit())
            field.edit.finished.connect(self.left)

    def _fill(self) -> None:
        for zone, words in ZONES.items():
            self.zone.addItem(words, zone)
        for lie in Lie:
            self.lie.addItem(lie.words, lie)
        self.zone.setToolTip("Which side of the bars the layer is on")
        self.lie.setToolTip("How it is laid on the roof, which also decides how it is measured")
        self.thickness.setToolTip("Thickness; the catalogue's if left empty")
        self.spacing.setToolTip("Centre-to-centre spacing across the bars")
        self.purpose.edit.setPlaceholderText("purpose")
        self.purpose.setToolTip("Purpose of the layer; printed with it")

    def _lay_out(self) -> None:
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setSpacing(4)
        for column, widget in enumerate((self.material, self.zone, self.lie)):
            grid.addWidget(widget, 0, column)
        for column, field in enumerate((self.purpose, self.thickness, self.spacing)):
            grid.addWidget(field, 1, column, Qt.AlignmentFlag.AlignTop)
        for column, share in enumerate((3, 2, 2)):
            grid.setColumnStretch(column, share)
        for field in (self.purpose, self.thickness, self.spacing):
            field.edit.setMinimumWidth(40)
        # Narrower than their words: where there is little room these are cut, not the page.
        for combo in (self.material, self.zone, self.lie):
            combo.setMinimumWidth(70)

    def offer(self, materials: Iterable[Material], used: str) -> None:
        """Offer what can be a layer, and what is one."""
        rows = [
            (f"{one.name} ({one.code})", one.code)
            for one in materials
            if one.thickness_mm is not None
            or one.category in layer_style.CATEGORIES
            or one.code == used
        ]
        if used and used not in [code for _, code in rows]:
            rows.append((f"{used} (not in the catalogue)", used))
        if [self.material.itemData(i) for i in range(self.material.count())] == [
            c for _, c in rows
        ]:
            return
        with QSignalBlocker(self.material):
            self.material.clear()
            for words, code in rows:
                self.material.addItem(words, code)

    def show_layer(self, layer: Layer | None, catalogue_mm: float | None) -> None:
        """Show a layer; ``catalogue_mm`` is the thickness its material has by itself."""
        self._layer = layer
        self.setEnabled(layer is not None)
        if layer is None:
            return
        self.material.setCurrentIndex(self.material.findData(layer.material))
        edit = self.material.lineEdit()
        if edit is not None and not edit.hasFocus():
            # Of a long name the beginning shows.
            edit.setCursorPosition(0)
        self.zone.setCurrentIndex(self.zone.findData(layer.zone))
        self.lie.setCurrentIndex(self.lie.findData(layer.lie))
        for name, field in self.numbers.items():
            value = getattr(layer, name)
            if _read(field) != value or not field.edit.text():
                field.edit.show_text("" if value is None else number_text.shown(value))
        known = "not in the catalogue" if catalogue_mm is None else f"catalogue {catalogue_mm:g}"
        self.thickness.edit.setPlaceholderText(known)
        self.purpose.edit.show_text(layer.purpose)
        self.spacing.setEnabled(layer.lie is Lie.ACROSS or bool(self.spacing.edit.text()))

    def typed(self) -> Typed:
        """Return the layer that stands in the fields."""
        values: dict[str, float | None] = {}
        for name, field in self.numbers.items():
            value = _read(field)
            if isinstance(value, Unreadable):
                return Typed(layer=None, findings=(_stop(name, value.text, value.remedy),))
            values[name] = value
        material = self._code()
        if material is None:
            text = f"There is no material “{self.material.currentText()}” in the catalogue."
            return Typed(
                layer=None, findings=(_stop("material", text, "Choose one from the list."),)
            )
        lie = Lie(self.lie.currentData())
        if lie is Lie.ACROSS:
            self.spacing.setEnabled(True)
        try:
            layer = Layer(
                material=material,
                zone=Zone(self.zone.currentData()),
                lie=lie,
                purpose=self.purpose.edit.text().strip(),
                thickness_mm=values["thickness_mm"],
                spacing_mm=values["spacing_mm"] if lie is Lie.ACROSS else None,
            )
        except DimensionError as error:
            return Typed(layer=None, findings=tuple(stops(error.faults, under="layer")))
        return Typed(layer=layer)

    def show_remarks(self, findings: Iterable[Finding]) -> None:
        """Mark the fields findings are about; their words stand below the table."""
        marked = {f.field.rsplit(".", 1)[-1]: f.severity.value for f in findings}
        for name, field in self.numbers.items():
            edit = field.edit
            if edit.property("mark") != marked.get(name, ""):
                edit.setProperty("mark", marked.get(name, ""))
                edit.style().unpolish(edit)
                edit.style().polish(edit)

    def _code(self) -> str | None:
        text = self.material.currentText().strip()
        for place in range(self.material.count()):
            code = str(self.material.itemData(place))
            if text in (self.material.itemText(place), code):
                return code
        return None

    def _finish_material(self) -> None:
        if self._layer is not None and self._code() != self._layer.material:
            self.entered.emit()

    def _pair_lie(self) -> None:
        """Let what lies between the bars be in their zone, and nothing else."""
        between = self.zone.currentData() == Zone.BARS
        if between != (self.lie.currentData() == Lie.BETWEEN):
            self.lie.setCurrentIndex(self.lie.findData(Lie.BETWEEN if between else Lie.OVER))

    def _pair_zone(self) -> None:
        between = self.lie.currentData() == Lie.BETWEEN
        if between != (self.zone.currentData() == Zone.BARS):
            self.zone.setCurrentIndex(self.zone.findData(Zone.BARS if between else Zone.OUTSIDE))


def _search() -> CalmComboBox:
    """Return a choice that is searched by any part of its words."""
    combo = CalmComboBox()
    combo.setEditable(True)
    combo.setLineEdit(JobLineEdit())
    combo.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
    combo.setMinimumContentsLength(8)
    by_length = QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon
    combo.setSizeAdjustPolicy(by_length)
    combo.setToolTip("Material from the catalogue; type part of its name or code")
    completer = combo.completer()
    if completer is not None:
        completer.setFilterMode(Qt.MatchFlag.MatchContains)
        completer.setCompletionMode(QCompleter.CompletionMode.PopupCompletion)
    return combo


def _read(field: MarkedField) -> float | Unreadable | None:
    text = field.edit.text()
    return number_text.read(text, unit="mm") if text.strip() else None


def _stop(name: str, text: str, remedy: str) -> Finding:
    return Finding(f"layer.{name}", Severity.STOP, text, remedy)
