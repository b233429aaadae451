"""Downlights of the selected facet: entered, checked on its ceiling, moved where there is room."""

from dataclasses import replace
from typing import Any

from PySide6.QtWidgets import (
    QFormLayout,
    QHBoxLayout,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.kit import number_text, theme
from roofmodel.desktop.kit.number_text import Unreadable
from roofmodel.desktop.kit.typed_field import MarkedField
from roofmodel.desktop.layers.ceiling_picture import CeilingPicture, CeilingShown
from roofmodel.foundation.errors import DimensionError, RoofModelError
from roofmodel.refit import ceiling_lights
from roofmodel.refit.light import LIGHT_CAUTIONS
from roofmodel.refit.light_entry import LightsEntry
from roofmodel.refit.light_layout import LightReport
from roofmodel.survey.taped.findings import Finding, Severity, stops

FORM = "lights"
"""Where lights stand in the job file, and the name of this form for what it rejects."""

_NEW = {"body_mm": 70.0, "depth_mm": 35.0, "clearance_mm": 0.0}
"""A fitting to start from (common practice, no source)."""
_ASKED = {
    "per_bay": (
        "Lights in each bay",
        "",
        "Number of lights, evenly spaced up the slope of every bay",
    ),
    "slope_shares": (
        "or positions up the slope",
        "",
        "Positions from 0 at the eaves to 1 at the top, separated by spaces: 0.25 0.75",
    ),
    "body_mm": ("Body", "mm", "Diameter of the body of the fitting"),
    "depth_mm": ("Depth", "mm", "Depth of the fitting behind the board"),
    "clearance_mm": (
        "Clearance",
        "mm",
        "Clearance the manufacturer requires around and above the fitting",
    ),
}
_WAYS = ("per_bay", "slope_shares", "positions_mm")


class LightsPage(QWidget):
    """The ceiling plan with the fields of the selected facet's lights."""

    def __init__(self, open_job: OpenJob) -> None:
        """Build picture and fields, then listen."""
        super().__init__()
        self._open_job = open_job
        self._rejected: tuple[Finding, ...] = ()
        self.heading = theme.heading("Lights")
        self.picture = CeilingPicture()
        self.fields = {name: MarkedField(unit=unit) for name, (_, unit, _) in _ASKED.items()}
        self.take = QPushButton("Use suggested positions")
        self.take.setToolTip("Move every light that clashes to where there is room for it")
        self.none = QPushButton("No lights here")
        self.said = theme.Wrapped()
        self.cautions = theme.faint(" ".join(LIGHT_CAUTIONS))
        self._lay_out()
        for name, field in self.fields.items():
            field.setToolTip(_ASKED[name][2])
            field.edit.typed.connect(lambda text, name=name: self._enter(name, text))
            field.edit.finished.connect(open_job.history.end_merge)
        self.take.clicked.connect(self._take_offers)
        self.none.clicked.connect(lambda: self._hand_over(None))
        open_job.reckoned.connect(self._show)
        open_job.selected.connect(self._change_facet)
        self._show()

    def focus_field(self, path: str) -> None:
        """Select the facet of a field such as ``lights.1.body_mm``, and put the cursor there."""
        _, place, name, *_ = *path.split("."), "", ""
        entries = self._open_job.job.lights
        if place.isdigit() and int(place) < len(entries):
            self._open_job.select(entries[int(place)].facet)
        self.fields.get(name, self.fields["per_bay"]).setFocus()

    @property
    def entry(self) -> LightsEntry | None:
        """The lights of the selected facet as they are entered."""
        name = self._facet_name
        return next((one for one in self._open_job.job.lights if one.facet == name), None)

    @property
    def report(self) -> LightReport | None:
        """The same lights, checked."""
        drawn, name = self._open_job.drawn, self._facet_name
        reports = drawn.option.lights if drawn else ()
        return next((one for one in reports if one.facet == name), None)

    @property
    def _facet_name(self) -> str:
        facet = self._open_job.facet
        return facet.name if facet else ""

    def _lay_out(self) -> None:
        form = QFormLayout()
        form.setVerticalSpacing(4)
        for name, (label, _, _) in _ASKED.items():
            form.addRow(label, self.fields[name])
        buttons = QHBoxLayout()
        buttons.addWidget(self.take)
        buttons.addWidget(self.none)
        buttons.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(8, 6, 8, 6)
        column.setSpacing(5)
        column.addWidget(self.heading)
        column.addWidget(self.picture, 1)
        column.addWidget(self.said)
        column.addLayout(buttons)
        column.addLayout(form)
        column.addWidget(self.cautions)

    def _change_facet(self) -> None:
        if self._rejected:
            self._rejected = ()
            self._open_job.enter(self._open_job.job, form=FORM)
        self._show()

    def _show(self) -> None:
        if not self._open_job.rejected_by(FORM):
            self._rejected = ()
        entry, report = self.entry, self.report
        self.heading.setText(f"Lights of {self._facet_name}" if self._facet_name else "Lights")
        if not self._rejected:
            for name, field in self.fields.items():
                value = None if entry is None else getattr(entry, name)
                if _read(name, field.edit.text()) != value or not field.edit.text():
                    field.edit.show_text(_written(value))
        placed = entry is not None and entry.positions_mm is not None
        self.fields["per_bay"].edit.setPlaceholderText(
            f"{len(entry.positions_mm or ())} positioned individually"
            if entry and placed
            else "none"
        )
        self._show_picture(report, entry)
        self._say(report)
        offers = report.offers if report else ()
        self.take.setEnabled(any(one.offered is not None for one in offers))
        self.none.setEnabled(entry is not None)

    def _show_picture(self, report: LightReport | None, entry: LightsEntry | None) -> None:
        drawn, name = self._open_job.drawn, self._facet_name
        if drawn is None or drawn.option.refit is None:
            why = drawn.option.refused if drawn else "There is no roof yet."
            self.picture.show_ceiling(None, why_not=why)
            return
        try:
            ceiling = ceiling_lights.ceiling(drawn.option.refit, name)
        except KeyError:
            self.picture.show_ceiling(None, why_not=f"{name} stays glazed, so it has no ceiling.")
            return
        except RoofModelError as error:
            self.picture.show_ceiling(None, why_not=str(error))
            return
        if ceiling is None:
            why = f"{drawn.option.method.printed} does not include a ceiling, so it has no lights."
            self.picture.show_ceiling(None, why_not=why)
            return
        body = entry.body_mm if entry else _NEW["body_mm"]
        self.picture.show_ceiling(CeilingShown(ceiling=ceiling, report=report, body_mm=body))

    def _say(self, report: LightReport | None) -> None:
        remarks = self._rejected
        if not remarks:
            places = [i for i, one in enumerate(self._open_job.job.lights) if one is self.entry]
            under = tuple(f"{FORM}.{i}" for i in places)
            remarks = tuple(
                f
                for f in self._open_job.findings
                if f.severity is Severity.STOP and under and f.field.startswith(under)
            )
        if remarks:
            words, bad = "\n".join(f"{f.text} {f.remedy}" for f in remarks), True
        elif report is not None:
            words, bad = "\n".join(report.sentences), not report.passes
        else:
            words, bad = "", False
        marks = {f.field.rsplit(".", 1)[-1] for f in self._rejected}
        for name, field in self.fields.items():
            field.show_remarks(
                [f for f in self._rejected if name in marks and f.field.endswith(name)]
            )
        self.said.setText(words)
        self.said.setVisible(bool(words))
        self.said.setStyleSheet(f"color: {theme.STOP if bad else theme.FAINT};")

    def _enter(self, name: str, text: str) -> None:
        value = _read(name, text)
        if isinstance(value, Unreadable):
            self._reject((Finding(f"{FORM}.{name}", Severity.STOP, value.text, value.remedy),))
            return
        entry = self.entry
        values: dict[str, Any] = {"per_bay": 1, **_NEW} if entry is None else {}
        if name in _WAYS:
            if value is None and entry is not None and getattr(entry, name) is None:
                return
            if value is None:
                self._hand_over(None)
                return
            values |= dict.fromkeys(_WAYS)
        values[name] = value
        try:
            if entry is None:
                new = LightsEntry(facet=self._facet_name, **values)
            else:
                new = replace(entry, **values)
        except (DimensionError, TypeError) as error:
            faults = error.faults if isinstance(error, DimensionError) else []
            text = "This field is empty."
            remarks = tuple(stops(faults, under=FORM)) or (
                Finding(f"{FORM}.{name}", Severity.STOP, text, "Enter a number in mm."),
            )
            self._reject(remarks)
            return
        self._hand_over(new, merge=(FORM, self._facet_name, name))

    def _take_offers(self) -> None:
        entry, report = self.entry, self.report
        if entry is None or report is None:
            return
        spots = tuple((light.u_mm, light.v_mm) for light in report.arranged)
        if spots:
            given = replace(entry, per_bay=None, slope_shares=None, positions_mm=spots)
            self._hand_over(given)

    def _hand_over(self, entry: LightsEntry | None, *, merge: object = None) -> None:
        job, name = self._open_job.job, self._facet_name
        entries = {one.facet: one for one in job.lights}
        if entry is None:
            entries.pop(name, None)
        else:
            entries[name] = entry
        self._rejected = ()
        lights = tuple(entries[key] for key in sorted(entries))
        self._open_job.enter(replace(job, lights=lights), form=FORM, merge=merge)
        self._show()

    def _reject(self, findings: tuple[Finding, ...]) -> None:
        self._rejected = findings
        self._open_job.enter(self._open_job.job, form=FORM, rejected=findings)
        self._show()


def _read(name: str, text: str) -> Any | Unreadable:  # noqa: ANN401 - a number, several, or none
    """Return what a text means in a field."""
    if not text.strip():
        return None
    if name == "slope_shares":
        shares = [number_text.read(part, unit="mm") for part in text.replace(";", " ").split()]
        bad = [one for one in shares if isinstance(one, Unreadable)]
        return bad[0] if bad else tuple(shares)
    value = number_text.read(text, unit="mm")
    if name != "per_bay" or isinstance(value, Unreadable):
        return value
    if value != round(value):
        return Unreadable(
            f"{value:g} is not a whole number.", "Enter a whole number of lights per bay."
        )
    return round(value)


def _written(value: object) -> str:
    if isinstance(value, tuple):
        return "  ".join(f"{share:g}" for share in value)
    return number_text.shown(value) if isinstance(value, float | int) else ""
