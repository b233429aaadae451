"""Every field of the job file is entered in the window, and a finding leads to it."""

from dataclasses import replace
from typing import get_args

import pytest
from PySide6.QtWidgets import QApplication, QTableWidget

from roofmodel.foundation import entered
from roofmodel.gates.answer.house_facts import HouseFacts
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.gates.damp.rules import Ventilation
from roofmodel.gates.heat.modelled import ModelledU
from roofmodel.gates.heat_entry import ClimateEntry, HeatEntry
from roofmodel.refit.entry import RefitEntry, RoofWindow
from roofmodel.refit.light_entry import LightsEntry
from roofmodel.survey.taped.bars_entry import BarsEntry
from roofmodel.survey.taped.standing import Standing
from roofmodel.survey.taped.survey import RoofSurvey
from tests import cases

pytestmark = pytest.mark.desktop

PARTS = {
    "site": SiteFacts,
    "house": HouseFacts,
    "heat": HeatEntry,
    "heat.modelled": ModelledU,
    "heat.ventilation": Ventilation,
    "heat.climate": ClimateEntry,
    "standing": Standing,
    "refit": RefitEntry,
    "refit.roof_windows.0": RoofWindow,
    "bars.0": BarsEntry,
}


def has_cursor():
    """Return what has the cursor: of a table, the cell."""
    widget = QApplication.focusWidget()
    if isinstance(widget, QTableWidget):
        return widget, widget.currentRow(), widget.currentColumn()
    return widget


@pytest.mark.parametrize("part", PARTS)
def test_every_declared_field_has_a_place_of_its_own_in_the_window(open_window, sample, part):
    job = sample("lean-to")
    window_in = RoofWindow(facet="F1", u_mm=900.0, v_mm=900.0, width_mm=550.0, height_mm=780.0)
    light = LightsEntry(facet="F1", body_mm=70.0, depth_mm=35.0, per_bay=1)
    refit = replace(job.refit, roof_windows=(window_in,))
    window = open_window(replace(job, refit=refit, lights=(light,)))
    reached = {}
    for name in entered.fields_of(PARTS[part]):
        window.setFocus()
        assert window.lead_to(f"{part}.{name}"), name
        widget = QApplication.focusWidget()
        assert widget is not window, name
        assert widget.isVisible(), name
        reached[name] = has_cursor()

    assert len(set(reached.values())) == len(reached)


@pytest.mark.parametrize(
    "job",
    cases.few_of(
        ["lean-to", "gable", "hipped", "five-facet-end", "wing", "notch"], {"gable", "notch"}
    ),
)
def test_every_field_of_a_survey_that_is_shown_can_be_led_to(open_window, job):
    window = open_window(job)
    survey = window.open_job.job.survey
    given = [n for n in entered.fields_of(type(survey)) if getattr(survey, n) is not None]
    for name in given:
        window.setFocus()
        assert window.lead_to(f"survey.{name}"), name
        assert QApplication.focusWidget().isVisible()


def test_the_parts_tried_here_are_all_that_declare_fields(sample):
    """A new part of the job has to be added above, or the first test would not see it."""
    found = set()

    def look_into(value):
        kind = type(value)
        if isinstance(value, tuple) and value:
            look_into(value[0])
        if not hasattr(kind, "__dataclass_fields__"):
            return
        if entered.fields_of(kind):
            found.add(kind)
        for name in kind.__dataclass_fields__:
            look_into(getattr(value, name))

    look_into(sample("lean-to"))
    assert found - set(get_args(RoofSurvey)) <= set(PARTS.values())


def test_the_five_facts_that_only_the_file_could_hold_are_entered(open_window):
    """The fields found missing: snow held, run ±, panels from, outlet central, least ceiling."""
    window = open_window("lean-to")
    form = window.gates_page.site
    for name in ("snow_held", "outlet_central"):
        combo = form.choices[name]
        combo.setCurrentIndex(combo.findText("yes"))
        combo.activated.emit(combo.currentIndex())
    for name, text in (
        ("run_error_mm", "4"),
        ("panel_least_pitch_deg", "7"),
        ("least_ceiling_mm", "2050"),
    ):
        form.fields[name].edit.typed.emit(text)

    site = window.open_job.job.site
    assert (site.snow_held, site.outlet_central) == (True, True)
    assert (site.run_error_mm, site.panel_least_pitch_deg) == (4.0, 7.0)
    assert site.least_ceiling_mm == 2050.0


def test_the_depth_of_the_bars_that_is_asked_for_is_where_its_finding_leads(open_window, sample):
    job = sample("five-facet-end")
    window = open_window(replace(job, standing=replace(job.standing, bar_depth_mm=None)))
    asked = next(f for f in window.open_job.findings if "depth of the bars" in f.text)

    assert window.lead_to(asked.field)

    assert QApplication.focusWidget() is window.layers_page.standing.fields["bar_depth_mm"].edit
