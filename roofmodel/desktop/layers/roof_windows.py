"""Facets that stay glazed, and windows in the slopes."""

from collections.abc import Sequence
from dataclasses import replace
from functools import partial

from PySide6.QtCore import QSignalBlocker
from PySide6.QtWidgets import (
    QCheckBox,
    QGridLayout,
    QHBoxLayout,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from roofmodel.desktop.job.method_switch import FORM as UNDER
from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.kit import number_text, quiet_table, theme
from roofmodel.desktop.kit.number_text import Unreadable
from roofmodel.desktop.kit.typed_field import CalmComboBox, JobLineEdit
from roofmodel.foundation import entered
from roofmodel.foundation.errors import DimensionError
from roofmodel.refit.entry import RoofWindow
from roofmodel.survey.taped.findings import Finding, Severity, stops

FORM = f"{UNDER}.roof_windows"
_NUMBERS = entered.fields_of(RoofWindow)
_HEADS = ("Facet", *(one.says.label for one in _NUMBERS.values()), "Window")
_OPENING = "opening"
"""Category of the catalogue that roof windows are in."""


class KeptGlazed(QWidget):
    """A check box for each facet."""

    def __init__(self, open_job: OpenJob) -> None:
        """Build the boxes, then listen."""
        super().__init__()
        self._open_job = open_job
        self.boxes: dict[str, QCheckBox] = {}
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        open_job.reckoned.connect(self._show)
        self._show()

    def focus_facet(self, place: str) -> None:
        """Put the cursor on the facet kept at a place of the job's list, or on the first."""
        kept = self._open_job.job.refit.kept_glazed
        name = kept[int(place)] if place.isdigit() and int(place) < len(kept) else ""
        box = self.boxes.get(name) or next(iter(self.boxes.values()), None)
        if box is not None:
            box.setFocus()

    def _show(self) -> None:
        drawn, kept = self._open_job.drawn, self._open_job.job.refit.kept_glazed
        names = [facet.name for facet in drawn.roof.facets] if drawn else []
        names += [name for name in kept if name not in names]
        if names != list(self.boxes):
            for box in self.boxes.values():
                self._grid.removeWidget(box)
                box.deleteLater()
            self.boxes = {name: QCheckBox(name) for name in names}
            for place, (name, box) in enumerate(self.boxes.items()):
                box.setToolTip(f"{name} stays glazed as it is: nothing is laid or measured there")
                box.toggled.connect(partial(self._toggle, name))
                self._grid.addWidget(box, place // 4, place % 4)
        for name, box in self.boxes.items():
            with QSignalBlocker(box):
                box.setChecked(name in kept)

    def _toggle(self, name: str, on: bool) -> None:  # noqa: FBT001 - Qt's signal
        job = self._open_job.job
        others = [one for one in job.refit.kept_glazed if one != name]
        kept = tuple(one for one in self.boxes if one in others or (on and one == name))
        self._open_job.enter(
            replace(job, refit=replace(job.refit, kept_glazed=kept)), form=f"{UNDER}.kept_glazed"
        )


class RoofWindows(QWidget):
    """A small list of windows with the fields of the selected one below."""

    def __init__(self, open_job: OpenJob) -> None:
        """Build list and fields, then listen."""
        super().__init__()
        self._open_job = open_job
        self._place = 0
        self._rejected: tuple[Finding, ...] = ()
        self.table = quiet_table.make(_HEADS, words=(0, len(_HEADS) - 1))
        self.table.setMaximumHeight(100)
        self.facet, self.material = CalmComboBox(), CalmComboBox()
        self.material.setToolTip("Roof window, by its row in the catalogue")
        self.material.setAccessibleName("Roof window")
        self.edits = {name: JobLineEdit() for name in _NUMBERS}
        self.add, self.remove = QPushButton("Add window"), QPushButton("Remove")
        self.remark = theme.Wrapped()
        self.remark.setObjectName("stop")
        self._lay_out()
        self.table.currentCellChanged.connect(self._choose)
        self.add.clicked.connect(self._add)
        self.remove.clicked.connect(self._remove)
        open_job.reckoned.connect(self._show)
        open_job.begun.connect(self._begin)
        self._show()

    def focus_field(self, path: str) -> None:
        """Put the cursor into a field such as ``refit.roof_windows.1.width_mm``."""
        place, name, *_ = *path.removeprefix(f"{FORM}.").split("."), "", ""
        if place.isdigit() and int(place) < len(self._windows):
            self._choose(int(place))
            quiet_table.set_current(self.table, int(place))
            self._show_fields()
        (self.edits.get(name) or self.facet if self._windows else self.add).setFocus()

    def _lay_out(self) -> None:
        fields, buttons = QHBoxLayout(), QHBoxLayout()
        fields.addWidget(self.facet)
        self.facet.activated.connect(lambda _place: self._enter())
        for name, edit in self.edits.items():
            says = _NUMBERS[name].says
            edit.setToolTip(f"{says.where} [{says.unit}]")
            edit.setPlaceholderText(says.label)
            edit.setAccessibleName(says.label)
            edit.setMinimumWidth(48)
            edit.typed.connect(lambda _text: self._enter())
            edit.finished.connect(self._open_job.history.end_merge)
            fields.addWidget(edit)
        self.material.activated.connect(lambda _place: self._enter())
        buttons.addWidget(self.add)
        buttons.addWidget(self.remove)
        buttons.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addWidget(self.table)
        column.addLayout(fields)
        column.addWidget(self.material)
        column.addWidget(self.remark)
        column.addLayout(buttons)

    @property
    def _windows(self) -> tuple[RoofWindow, ...]:
        return self._open_job.job.refit.roof_windows

    def _begin(self) -> None:
        self._place, self._rejected = 0, ()

    def _show(self) -> None:
        if not self._open_job.rejected_by(FORM):
            self._rejected = ()
        windows, drawn = self._windows, self._open_job.drawn
        self._place = max(min(self._place, len(windows) - 1), 0)
        quiet_table.fill(self.table, [_row(one) for one in windows])
        quiet_table.set_current(self.table, self._place if windows else None)
        names = [facet.name for facet in drawn.roof.facets] if drawn else []
        names += [one.facet for one in windows if one.facet not in names]
        if names != [self.facet.itemText(i) for i in range(self.facet.count())]:
            self.facet.clear()
            self.facet.addItems(names)
        self._offer_materials(windows)
        # A box nothing can be typed into is not shown: the keys would go elsewhere.
        shown = (self.table, self.facet, *self.edits.values(), self.material, self.remove)
        for widget in shown:
            widget.setVisible(bool(windows))
        self._show_fields()

    def _offer_materials(self, windows: Sequence[RoofWindow]) -> None:
        """Offer the roof windows of the catalogue, and what the job names beside them."""
        known = self._open_job.catalogue.materials
        found = {code: one.name for code, one in known.items() if one.category == _OPENING}
        found |= {one.material: "" for one in windows if one.material not in found}
        if list(found) != [self.material.itemData(i) for i in range(self.material.count())]:
            self.material.clear()
            for code, name in found.items():
                self.material.addItem(f"{code}  {name}".strip(), code)

    def _show_fields(self) -> None:
        windows = self._windows
        if windows and not self._rejected:
            one = windows[self._place]
            self.facet.setCurrentText(one.facet)
            self.material.setCurrentIndex(self.material.findData(one.material))
            for name, edit in self.edits.items():
                edit.show_text(number_text.shown(getattr(one, name)))
        if not windows:
            for edit in self.edits.values():
                edit.show_text("")
        found = self._rejected or tuple(
            f for f in self._open_job.findings if f.field.startswith(FORM)
        )
        self.remark.setText("\n".join(f"{f.text} {f.remedy}" for f in found))
        self.remark.setVisible(bool(found))

    def _choose(self, row: int, *_: int) -> None:
        if row >= 0 and row != self._place:
            self._place = row
            self._reject(())

    def _add(self) -> None:
        facet = self._open_job.facet
        if facet is None:
            return
        new = RoofWindow(facet=facet.name, u_mm=600.0, v_mm=600.0, width_mm=550.0, height_mm=780.0)
        self._place = len(self._windows)
        self._take((*self._windows, new))

    def _remove(self) -> None:
        self._take(tuple(one for i, one in enumerate(self._windows) if i != self._place))

    def _enter(self) -> None:
        values: dict[str, float] = {}
        for name, edit in self.edits.items():
            value = number_text.read(edit.text(), unit="mm")
            if isinstance(value, Unreadable):
                path = f"{FORM}.{self._place}.{name}"
                self._reject((Finding(path, Severity.STOP, value.text, value.remedy),))
                return
            values[name] = value
        windows = list(self._windows)
        try:
            windows[self._place] = RoofWindow(
                facet=self.facet.currentText(),
                material=self.material.currentData() or windows[self._place].material,
                u_mm=values["u_mm"],
                v_mm=values["v_mm"],
                width_mm=values["width_mm"],
                height_mm=values["height_mm"],
            )
        except DimensionError as error:
            self._reject(tuple(stops(error.faults, under=f"{FORM}.{self._place}")))
            return
        self._take(windows, merge=(FORM, self._place))

    def _take(self, windows: Sequence[RoofWindow], *, merge: object = None) -> None:
        self._rejected = ()
        job = self._open_job.job
        changed = replace(job, refit=replace(job.refit, roof_windows=tuple(windows)))
        self._open_job.enter(changed, form=FORM, merge=merge)
        self._show_fields()

    def _reject(self, findings: tuple[Finding, ...]) -> None:
        self._rejected = findings
        self._open_job.enter(self._open_job.job, form=FORM, rejected=findings)
        self._show_fields()


def _row(window: RoofWindow) -> Sequence[str]:
    numbers = (number_text.shown(getattr(window, name)) for name in _NUMBERS)
    return (window.facet, *numbers, window.material)
