"""The build-up of the chosen method as a table from the room outwards, and edits of it."""

from collections.abc import Callable, Sequence

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QBrush, QColor, QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QPushButton,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from roofmodel.buildups.catalogue import Catalogue
from roofmodel.desktop.job.method_switch import FORM as UNDER
from roofmodel.desktop.job.method_switch import MethodSwitch
from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.kit import quiet_table, theme
from roofmodel.desktop.kit.column_fit import ColumnFit
from roofmodel.desktop.kit.flow_row import FlowRow
from roofmodel.desktop.layers import layer_edits
from roofmodel.desktop.layers.layer_edits import Layers
from roofmodel.desktop.layers.layer_fields import ZONES, LayerFields
from roofmodel.refit.layer import Layer, Zone
from roofmodel.storage.job import Job
from roofmodel.survey.taped.findings import Finding, Severity

FORM = f"{UNDER}.layers"
"""Name of this form for what it rejects."""

_HEADS = ("", "Material", "Zone", "Position", "mm", "c/c mm", "Purpose")
_MATERIAL, _THICKNESS = 1, 4
_GOES_FIRST = (6, 2, 5, 3)
"""What the fields below and the colours of the zones say too."""
_TIPS = ("", "", "", "mm: ", "c/c mm: ", "purpose: ")
_MOST_PX, _LEAST_PX = 150, 150


class StackEditor(QWidget):
    """Shows the layers and hands edits to the job."""

    chosen_changed = Signal()
    """Another layer is selected."""

    def __init__(self, open_job: OpenJob) -> None:
        """Build table and fields, then listen."""
        super().__init__()
        self._open_job = open_job
        self._place = 0
        self._rejected: tuple[Finding, ...] = ()
        self.methods = MethodSwitch(open_job)
        self.table = quiet_table.make(_HEADS, words=(1, 2, 3, 6))
        self.table.horizontalHeader().setMaximumSectionSize(_MOST_PX)
        self._fit = ColumnFit(
            self.table, takes_rest=_MATERIAL, least_px=_LEAST_PX, goes_first=_GOES_FIRST
        )
        # Of the height there is it takes what the fields leave.
        self.table.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Ignored)
        self.fields = LayerFields()
        self.remark = theme.Wrapped()
        self.remark.hide()
        self.add, self.remove = QPushButton("Add"), QPushButton("Remove")
        self.up, self.down = QPushButton("Up"), QPushButton("Down")
        self.own = QPushButton("Method's own")
        for button in (self.add, self.remove, self.up, self.down, self.own):
            button.setObjectName("compact")
        self._lay_out()
        self.table.currentCellChanged.connect(self._choose)
        self.fields.entered.connect(self._enter)
        self.fields.left.connect(open_job.history.end_merge)
        self.add.clicked.connect(self._add)
        self.remove.clicked.connect(self._remove)
        self.up.clicked.connect(lambda: self._move(-1))
        self.down.clicked.connect(lambda: self._move(1))
        self.own.clicked.connect(self._go_back)
        open_job.reckoned.connect(self._show)
        open_job.begun.connect(self._begin)
        self._show()

    @property
    def number(self) -> int:
        """Number of the selected layer."""
        return self._place + 1

    def focus_layer(self, path: str) -> None:
        """Select the layer a finding such as ``refit.layers.2.zone`` is about."""
        number = next((part for part in path.split(".") if part.isdigit()), "")
        if number and int(number) < self.table.rowCount():
            self._choose(int(number))
        self.table.setFocus()

    def _lay_out(self) -> None:
        tips = {
            self.add: "Add a layer after the selected one",
            self.remove: "Remove the selected layer (Delete)",
            self.up: "Move it towards the room (Alt+Up)",
            self.down: "Move it towards the outside (Alt+Down)",
            self.own: "Go back to the method's own layers",
        }
        buttons = FlowRow(margin_px=0, top_px=0)
        buttons.hold(tuple(tips))
        for button, tip in tips.items():
            button.setToolTip(tip)
        column = QVBoxLayout(self)
        column.setContentsMargins(8, 4, 4, 4)
        column.setSpacing(4)
        column.addWidget(self.methods)
        column.addWidget(self.table, 1)
        column.addWidget(buttons)
        column.addWidget(self.fields)
        column.addWidget(self.remark)
        self._key("Alt+Up", lambda: self._move(-1))
        self._key("Alt+Down", lambda: self._move(1))
        self._key("Delete", self._remove)

    def _key(self, keys: str, do: Callable[[], None]) -> None:
        shortcut = QShortcut(QKeySequence(keys), self.table)
        shortcut.setContext(Qt.ShortcutContext.WidgetShortcut)
        shortcut.activated.connect(do)

    @property
    def _catalogue(self) -> Catalogue:
        return self._open_job.catalogue

    @property
    def _layers(self) -> Layers:
        return layer_edits.layers_of(self._open_job.job, self._open_job.tables.stacks)

    def _begin(self) -> None:
        self._place, self._rejected = 0, ()

    def _show(self) -> None:
        if not self._open_job.rejected_by(FORM):
            self._rejected = ()
        layers = self._layers
        self._place = min(self._place, len(layers) - 1)
        quiet_table.fill(self.table, [self._row(i, layer) for i, layer in enumerate(layers)])
        for row, layer in enumerate(layers):
            self._dress(row, layer)
        self._fit.fit()
        quiet_table.set_current(self.table, self._place)
        self.own.setEnabled(not layer_edits.is_own(self._open_job.job))
        self._show_layer()

    def _row(self, place: int, layer: Layer) -> Sequence[str]:
        known = self._catalogue.materials.get(layer.material)
        thickness = layer.thickness_mm or (known.thickness_mm if known else None)
        return (
            f"{place + 1}",
            known.name if known else layer.material,
            ZONES[layer.zone],
            layer.lie.words,
            "?" if thickness is None else f"{thickness:g}",
            "" if layer.spacing_mm is None else f"{layer.spacing_mm:g}",
            layer.purpose,
        )

    def _dress(self, row: int, layer: Layer) -> None:
        """Show what comes from the catalogue grey and italic, and where the zones end."""
        item = quiet_table.item(self.table, row, _THICKNESS)
        font = theme.font(self.font().pointSizeF())
        font.setItalic(layer.thickness_mm is None)
        item.setFont(font)
        item.setForeground(QBrush(QColor(theme.FAINT if layer.thickness_mm is None else theme.INK)))
        item.setToolTip("the catalogue's thickness" if layer.thickness_mm is None else "")
        texts = zip(_TIPS, self._row(row, layer)[1:], strict=True)
        said = "\n".join(f"{head}{text}" for head, text in texts if text)
        quiet_table.item(self.table, row, _MATERIAL).setToolTip(said)
        ground = {Zone.ROOM: theme.CARD, Zone.BARS: theme.WELL, Zone.OUTSIDE: theme.PAPER}[
            layer.zone
        ]
        for column in range(len(_HEADS)):
            quiet_table.item(self.table, row, column).setBackground(QBrush(QColor(ground)))

    def _show_layer(self) -> None:
        layers = self._layers
        layer = layers[self._place] if layers else None
        materials = self._catalogue.materials
        self.fields.offer(materials.values(), layer.material if layer else "")
        if not self._rejected:
            known = materials.get(layer.material) if layer else None
            self.fields.show_layer(layer, known.thickness_mm if known else None)
        remarks = self._rejected or tuple(
            f for f in self._open_job.findings if f.field.startswith(f"{UNDER}.layers")
        )
        self.fields.show_remarks(self._rejected)
        words = "\n".join(f"{f.text} {f.remedy}" for f in remarks)
        self.remark.setText(words)
        self.remark.setVisible(bool(words))
        is_stop = any(f.severity is Severity.STOP for f in remarks)
        self.remark.setStyleSheet(f"color: {theme.STOP if is_stop else theme.QUESTION};")
        self.up.setEnabled(self._place > 0)
        self.down.setEnabled(self._place + 1 < len(layers))

    def _choose(self, row: int, *_: int) -> None:
        if row < 0 or row == self._place:
            return
        self._place = row
        quiet_table.set_current(self.table, row)
        if self._rejected:
            # What was typed for another layer and could not stand goes with it.
            self._reject(())
        self._show_layer()
        self.chosen_changed.emit()

    def _enter(self) -> None:
        typed = self.fields.typed()
        if typed.layer is None:
            self._reject(typed.findings)
            return
        layers, place = layer_edits.changed(self._layers, self._place, typed.layer)
        self._try(layers, place, merge=(FORM, self._place))

    def _add(self) -> None:
        layers = self._layers
        material = layers[self._place].material if layers else "BRD-OSB18"
        layers_with, place = layer_edits.added(layers, self._place, material)
        self._try(layers_with, place)

    def _remove(self) -> None:
        self._try(layer_edits.without(self._layers, self._place), max(self._place - 1, 0))

    def _move(self, by: int) -> None:
        if 0 <= self._place + by < len(self._layers):
            self._try(layer_edits.moved(self._layers, self._place, by), self._place + by)

    def _go_back(self) -> None:
        own = self._open_job.tables.stacks[self._open_job.job.refit.method].layers
        self._try(own, 0)

    def _try(self, layers: Layers, place: int, *, merge: object = None) -> None:
        """Take layers over where they can stand, else say why not."""
        job = self._open_job.job
        why = layer_edits.why_not(job, layers, self._catalogue)
        if why:
            self._reject(why)
            return
        self._rejected, self._place = (), place
        changed = layer_edits.with_layers(job, layers, self._open_job.tables.stacks)
        self._hand_over(changed, merge=merge)
        self.chosen_changed.emit()

    def _reject(self, findings: tuple[Finding, ...]) -> None:
        self._rejected = findings
        self._hand_over(self._open_job.job)

    def _hand_over(self, job: Job, *, merge: object = None) -> None:
        self._open_job.enter(job, form=FORM, rejected=self._rejected, merge=merge)
        self._show_layer()
