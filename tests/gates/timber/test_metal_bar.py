"""The screen of metal bars that stay, against closed forms, and what it asks to be read."""

import pytest

from roofmodel.foundation.errors import DimensionError
from roofmodel.foundation.outcome import Outcome
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.gates.timber import members
from roofmodel.gates.timber.metal_bar import MetalBar
from roofmodel.gates.timber.screen import Actions
from roofmodel.gates.weight import ledger as loads_ledger
from roofmodel.refit.method import Method
from roofmodel.survey.taped.standing import BarShape, Standing
from tests import acceptance_jobs

BAR = MetalBar(
    shape=BarShape.BOX,
    width_mm=60.0,
    depth_mm=80.0,
    wall_mm=3.0,
    span_mm=3_000.0,
    proof_n_mm2=160.0,
)
JOB = acceptance_jobs.JOBS["J01"]
SNOW = SiteFacts(snow_zone=1, altitude_m=20.0)


def test_the_moment_of_a_hollow_box_and_of_one_web_by_hand():
    """(60 × 80³ − 54 × 74³) / 12 and (60 × 80³ − 57 × 74³) / 12 mm⁴."""
    web = MetalBar(
        shape=BarShape.ONE_WEB,
        width_mm=60.0,
        depth_mm=80.0,
        wall_mm=3.0,
        span_mm=3_000.0,
        proof_n_mm2=160.0,
    )
    assert BAR.second_moment_mm4 == pytest.approx(736_492.0)
    assert web.second_moment_mm4 == pytest.approx(635_186.0)


def test_bending_and_sag_are_those_of_a_simple_beam():
    """By hand: 1.35 × 0.3 + 1.5 × 0.5 = 1.155 kN/m, M 1.299 kN m, 70.6 N/mm² of 145.5; 0.8 kN/m
    sags 5 × 0.8 × 3000⁴ / (384 × 70 000 × 736 492) = 16.4 mm of 15."""
    actions = Actions(name="snow", dead_n_mm=0.3, live_n_mm=0.5)

    assert BAR.bending(actions) == pytest.approx(70.57 / 145.45, rel=1e-3)
    assert BAR.sag(actions) == pytest.approx(16.37 / 15.0, rel=1e-3)


def screened(bars=JOB["bars"], **standing):
    read = {**JOB["standing"], "wall_above_mm": 300.0, **standing}
    drawn = acceptance_jobs.drawn("J01", standing=read, bars=bars)
    refit = drawn.option_of(Method.BUILD_ROUND).refit
    found = members.of_refit(refit, SNOW, loads_ledger.of_refit(refit, drawn.catalogue))
    return next((one for one in found if one.name.startswith("member: bar ")), None)


READ = {"bar_shape": "hollow box", "bar_depth_mm": 150.0, "bar_wall_mm": 4.0}


@pytest.mark.parametrize(
    ("standing", "outcome"),
    [
        ({**READ, "bar_proof_n_mm2": 160.0}, Outcome.PASS),
        (READ, Outcome.ASSUMED),
        ({**READ, "bar_depth_mm": 50.0, "bar_wall_mm": 2.0}, Outcome.FAIL),
        ({**READ, "bar_wall_mm": 1.0}, Outcome.NOT_CALCULABLE),
    ],
)
def test_a_section_that_was_read_is_screened_and_its_alloy_is_not_guessed(standing, outcome):
    found = screened(**standing)

    assert found.outcome is outcome
    assert not found.source.verified
    if outcome is Outcome.ASSUMED:
        assert found.field == "standing.bar_proof_n_mm2"


@pytest.mark.parametrize("name", list(READ))
def test_without_its_whole_section_no_bar_is_screened(name):
    assert screened(**{**READ, name: None}) is None


def test_walls_that_do_not_go_into_their_bar_give_no_verdict():
    narrow = [{"facet": "F1", "width_mm": 20.0, "bays": 6}]
    found = screened(bars=narrow, **{**READ, "bar_wall_mm": 10.0})
    assert found.outcome is Outcome.MEASURE_AGAIN
    assert found.field == "standing.bar_wall_mm"
    with pytest.raises(DimensionError, match="Bar wall"):
        Standing(bar_depth_mm=20.0, bar_wall_mm=10.0)
