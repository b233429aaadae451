"""Gutters as runs with corners, ends and what they drain."""

import pytest

from roofmodel.quantities import gutter_run
from tests import acceptance_jobs


def test_gutters_of_a_polygonal_end_are_one_run_with_four_corners():
    roof = acceptance_jobs.drawn("J04").roof
    (run,) = gutter_run.runs(roof, [facet.name for facet in roof.facets])

    assert len(run.lengths_mm) == 5
    assert run.corner_turns_deg == pytest.approx([45.0] * 4)
    assert not run.ring


def test_a_lantern_has_a_gutter_without_ends():
    survey = {
        "shape": "hipped",
        "width_mm": 3000.0,
        "projection_mm": 4000.0,
        "eaves_height_mm": 2100.0,
        "left_pitch_deg": 25.0,
        "right_pitch_deg": 25.0,
        "front_pitch_deg": 25.0,
        "rear_pitch_deg": 25.0,
        "rear": "eaves",
    }
    roof = acceptance_jobs.drawn("J06", survey=survey).roof
    (run,) = gutter_run.runs(roof, [facet.name for facet in roof.facets])

    assert run.ring
    assert len(run.corner_turns_deg) == 4
    assert run.length_m == pytest.approx(14.0)
