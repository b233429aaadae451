"""Pitch against the covering: the acceptance jobs J01, J02 and J03, and the ways out."""

import pytest

from roofmodel.foundation import resources
from roofmodel.foundation.outcome import Outcome
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.gates.buildable import pitch, pitch_remedy
from roofmodel.gates.buildable.pitch_remedy import FlatSlope
from roofmodel.refit.method import Method
from roofmodel.storage import job_file
from roofmodel.survey.fit import pitch_routes
from roofmodel.survey.fit.pitch_routes import Pitch
from roofmodel.workbench.job import reckoning
from tests import acceptance_jobs, slope_by_heights


def checked(code, facts=None, method=Method.BUILD_ROUND, pitches=(), **changes):
    refit = acceptance_jobs.drawn(code, **changes).option_of(method).refit
    return pitch.of_refit(refit, facts or SiteFacts(), pitches)


def j03(rise_mm=750.0, pitches=(), **facts):
    """J03: 3600 × 3000, eaves 2150, wall plate 2900; each height good to ±5 unless said."""
    survey = {
        **acceptance_jobs.JOBS["J02"]["survey"],
        "width_mm": 3600.0,
        "eaves_height_mm": 2150.0,
        "wall_plate_height_mm": 2150.0 + rise_mm,
    }
    return checked("J02", SiteFacts(**facts), pitches=pitches, survey=survey, standing={})[0]


J02 = FlatSlope(
    eaves_height_mm=2100.0,
    rise_mm=580.0,
    run_mm=3000.0,
    least_deg=14.0,
    panel_least_deg=5.0,
    sill_height_mm=2750.0,
)


def test_j01_at_15_degrees_is_proven():
    found = checked("J01")[0]
    assert found.outcome is Outcome.PASS
    assert found.value == pytest.approx(15.0)


def test_j02_is_too_flat_for_tiles_and_says_every_way_out():
    found = checked("J02")[0]
    assert found.outcome is Outcome.FAIL
    assert found.value == pytest.approx(10.94, abs=0.005)
    ways = dict(found.details)
    assert "to 2848 mm" in ways["raise the wall plate: refused"]
    assert "98 above the sill at 2750" in ways["raise the wall plate: refused"]
    assert "2326 mm" in ways["shorten the run: refused"]
    box = "ridge parallel to the wall with a box gutter"
    assert "2646 mm" in ways[f"{box}, 20°: offered"]
    assert "2799 mm" in ways[f"{box}, 25°: to be judged"]
    assert "10.94°" in ways["swap the panels: offered"]


def test_j02_takes_panels():
    found = checked("J02", method=Method.PANEL_SWAP)[0]
    assert (found.outcome, found.limit) == (Outcome.PASS, 5.0)


@pytest.mark.parametrize(
    ("way", "offered", "figure_mm"),
    [
        (pitch_remedy.raise_top(J02), False, 2848.0),
        (pitch_remedy.shorten_run(J02), False, 2326.2),
        (pitch_remedy.other_shape(J02, 20.0), True, 2646.0),
        (pitch_remedy.other_shape(J02, 25.0), None, 2799.5),
        (pitch_remedy.swap_panels(J02), True, None),
    ],
)
def test_the_ways_out_of_j02_are_the_ones_worked_by_hand(way, offered, figure_mm):
    assert way.offered is offered
    if figure_mm is not None:
        assert way.figure_mm == pytest.approx(figure_mm, abs=0.5)


def test_j03_with_its_inclinometer_is_still_not_proven():
    route = slope_by_heights.by_heights(750.0, 3000.0, height_error_mm=5.0)
    read = pitch_routes.by_inclinometer([13.8, 14.2])
    found = j03(pitches=(Pitch(name="pitch CD to A", routes=(route, read)),))
    assert found.outcome is Outcome.MEASURE_AGAIN


def test_a_pitch_nobody_read_is_still_checked_by_its_heights():
    route = pitch_routes.by_inclinometer([25.0])
    pitches = [Pitch(name="pitch CD to A", routes=(route,))]
    refit = acceptance_jobs.drawn("J06").option_of(Method.NEW_ROOF).refit
    names = [one.name for one in pitch.of_refit(refit, SiteFacts(), pitches)]
    assert names == ["pitch: CD to A", "pitch: F2"]  # the front, at 35, was not read


def test_routes_that_contradict_each_other_prove_nothing():
    routes = (
        slope_by_heights.by_heights(816.0, 1741.0, height_error_mm=1.0),
        pitch_routes.by_inclinometer([28.0]),
    )
    found = j03(pitches=(Pitch(name="pitch F3", routes=routes),))
    assert found.name == "pitch: F3"
    assert found.outcome is Outcome.MEASURE_AGAIN
    assert found.uncertainty is None
    assert "apart" in found.reason


def test_the_makers_least_pitch_goes_before_common_practice():
    found = checked("J01", SiteFacts(tile_least_pitch_deg=17.5))[0]
    assert (found.outcome, found.limit) == (Outcome.FAIL, 17.5)
    assert "as entered" in str(found.source)


def test_an_unread_sill_leaves_raising_the_plate_open():
    slope = FlatSlope(
        eaves_height_mm=2100.0, rise_mm=580.0, run_mm=3000.0, least_deg=14.0, panel_least_deg=5.0
    )
    assert pitch_remedy.raise_top(slope).offered is None


def test_a_plate_may_rise_where_sill_and_flashing_leave_room():
    slope = FlatSlope(
        eaves_height_mm=2100.0,
        rise_mm=580.0,
        run_mm=3000.0,
        least_deg=14.0,
        panel_least_deg=5.0,
        sill_height_mm=3050.0,
        stack_mm=50.0,
    )
    found = pitch_remedy.raise_top(slope)
    assert found.offered is True
    assert "with 2 to spare" in found.text  # 3050 - 50 - 150 - 2848


def test_a_valley_is_asked_about_by_its_own_flatter_pitch():
    drawn = reckoning.reckon(job_file.read(resources.sample_roofs() / "notch.roofjob.json"))
    refit = drawn.option_of(Method.BUILD_ROUND).refit
    valley = next(one for one in pitch.of_refit(refit, SiteFacts()) if one.name == "pitch: valley")
    assert valley.value < min(facet.pitch_deg for facet in drawn.roof.facets)
    assert valley.outcome is Outcome.MEASURE_AGAIN
