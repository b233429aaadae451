"""A finding stands once, and one click does what it asks where that is one value."""

import math
from dataclasses import replace

import pytest
from PySide6.QtWidgets import QApplication

from roofmodel.refit.light_entry import LightsEntry
from tests.desktop import hands

pytestmark = pytest.mark.desktop


def row_of(window, part):
    return next(row for row in window.findings_panel.rows if part in row.finding.text)


def do_it(window, part):
    QApplication.processEvents()
    row = row_of(window, part)
    assert row.do_it.isVisible()
    row.do_it.click()


def test_a_width_of_4_2_is_made_4200_by_one_click(open_window, sample):
    window = open_window(replace(sample("lean-to"), bars=()))
    hands.overtype(window.survey_panel.fields["width_mm"].edit, "4.2")
    assert row_of(window, "very short").do_it.text() == "Do it: 4200 mm"

    do_it(window, "very short")

    assert window.open_job.job.survey.width_mm == 4200.0
    window.open_job.undo()
    assert window.open_job.job.survey.width_mm == 4.2


def test_a_size_typed_in_metres_is_taken_over_in_mm(open_window, sample):
    window = open_window(replace(sample("lean-to"), bars=()))
    hands.overtype(window.survey_panel.fields["width_mm"].edit, "4.2 m")

    do_it(window, "is not in mm")

    assert window.open_job.job.survey.width_mm == 4200.0
    assert not window.open_job.rejected


def test_a_lean_to_of_12_degrees_is_told_what_is_missing_at_the_wall(open_window, sample):
    """By hand: 2900 mm × (tan 14° − tan 12°) = 106.6 mm."""
    job = sample("lean-to")
    survey = replace(job.survey, projection_mm=2900.0, pitch_deg=12.0)
    window = open_window(replace(job, survey=survey, bars=()))
    flat = [row for row in window.findings_panel.rows if row.finding.offer is not None]
    assert [row.do_it.text() for row in flat] == ["Do it: 107 mm more at the wall gives 14°"]
    assert math.ceil(2900 * (math.tan(math.radians(14)) - math.tan(math.radians(12)))) == 107

    flat[0].do_it.click()

    assert window.open_job.job.survey.pitch_deg == 14.0
    assert not window.open_job.drawn.option.refused


def test_a_facet_into_a_box_gutter_takes_the_front_pitch(open_window):
    window = open_window("hipped")
    front_deg = window.open_job.job.survey.front_pitch_deg
    rear = window.survey_panel.choices["rear"]
    rear.setCurrentIndex(rear.findData("box gutter"))
    rear.activated.emit(rear.currentIndex())

    do_it(window, "box gutter at the back has no pitch")

    survey = window.open_job.job.survey
    assert (survey.rear, survey.rear_pitch_deg) == ("box gutter", front_deg)


def test_the_lights_of_a_facet_that_stays_glazed_go(open_window, sample):
    job = sample("three-facet-end")
    lights = tuple(
        LightsEntry(facet=name, body_mm=70.0, depth_mm=35.0, per_bay=1) for name in ("F1", "F2")
    )
    refit = replace(job.refit, kept_glazed=("F2",))
    window = open_window(replace(job, lights=lights, refit=refit))

    do_it(window, "F2 stays glazed")

    assert [one.facet for one in window.open_job.job.lights] == ["F1"]
    assert not any("stays glazed" in f.text for f in window.open_job.findings)


def test_no_sentence_stands_twice_in_the_list(open_window, sample):
    """Found: a flat lean-to said the same in red and in amber."""
    job = sample("lean-to")
    survey = replace(job.survey, pitch_deg=12.0)
    window = open_window(replace(job, survey=survey, bars=()))
    texts = [row.finding.text for row in window.findings_panel.rows]

    assert len(texts) == len(set(texts))
