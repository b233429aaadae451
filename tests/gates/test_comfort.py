"""Bands of comfort on the acceptance lean-to, with the figures reckoned by hand for it (J01)."""

import pytest

from roofmodel.foundation.errors import DimensionError
from roofmodel.foundation.outcome import Outcome
from roofmodel.gates import comfort
from roofmodel.refit.method import Method
from tests import acceptance_jobs


def refit(method=Method.BUILD_ROUND, **changes):
    job = acceptance_jobs.drawn("J01", refit={"stacks": [], **changes.pop("entry", {})}, **changes)
    return job.option_of(method).refit


def test_the_sun_through_the_old_roof_is_4_5_kilowatts():
    found = comfort.summer(refit())

    assert found.limit == pytest.approx(4466.0, rel=0.005)
    assert found.outcome is Outcome.NOT_CALCULABLE
    assert "4.5 kW before" in found.reason


def test_a_u_value_of_0_21_lets_83_watts_through():
    assert comfort.heat_through_roof_w(0.21, 11.6, 60.0 - 26.0) == pytest.approx(83.0, abs=0.5)


def test_the_band_after_holds_the_figure_reckoned_by_hand():
    found = comfort.summer(refit())

    assert found.value is not None
    assert found.band is not None
    assert found.band[0] < 83.0 < found.band[1]


def test_panels_let_355_watts_through():
    assert comfort.summer(refit(Method.PANEL_SWAP)).value == pytest.approx(355.0, abs=0.5)


@pytest.mark.parametrize(("old", "quieter"), [(3.4, 20.6), (20.0, 5.2)])
def test_rain_is_quieter_by_the_mass_law(old, quieter):
    """The hand calculation prints 20.7 and 5.3 for 36.6 kg/m²; within 0.1 dB."""
    assert comfort.quieter_db(old, 36.6) == pytest.approx(quieter, abs=0.1)


def test_rain_is_an_indication_and_promises_nothing_near_its_spread():
    light, heavy = comfort.rain(20.0, 30.0), comfort.rain(3.4, 36.6)

    assert light.outcome is Outcome.MEASURE_AGAIN
    assert "Promise nothing" in light.remedy
    assert heavy.outcome is Outcome.NOT_CALCULABLE
    assert "not removed" in heavy.reason


@pytest.mark.parametrize(("old", "new"), [(None, 36.6), (3.4, None)])
def test_a_mass_nobody_knows_is_asked_for(old, new):
    found = comfort.rain(old, new)

    assert found.outcome is Outcome.MEASURE_AGAIN
    assert found.value is None


@pytest.mark.parametrize("mass", [0.0, -1.0, float("nan")])
def test_a_roof_without_mass_is_refused(mass):
    with pytest.raises(DimensionError, match="cannot be compared"):
        comfort.quieter_db(mass, 10.0)


def test_daylight_left_is_the_walls_share():
    found = comfort.daylight(refit(), 11.595)

    assert found.value == pytest.approx(50.0, abs=0.01)


def test_a_roof_window_leaves_more_daylight():
    window = {"facet": "F1", "u_mm": 500.0, "v_mm": 500.0, "width_mm": 800.0, "height_mm": 1200.0}
    with_one = comfort.daylight(refit(entry={"roof_windows": [window]}), 8.0)
    without = comfort.daylight(refit(), 8.0)

    assert without.outcome is Outcome.FAIL
    assert "roof window" in without.remedy
    assert with_one.value - without.value == pytest.approx(100.0 * 0.96 / 19.595, abs=0.01)


def test_walls_nobody_measured_are_asked_for():
    assert comfort.daylight(refit(), None).outcome is Outcome.MEASURE_AGAIN


def test_summer_without_the_old_glazing_or_bars_is_asked_for():
    assert comfort.summer(refit(standing={})).outcome is Outcome.MEASURE_AGAIN
    assert "bars" in comfort.summer(refit(bars=[])).remedy


def test_an_indication_never_passes():
    """What no measurement and no model stands behind is told, and is no verdict."""
    for one in (comfort.summer(refit()), comfort.rain(3.0, 300.0)):
        assert one.outcome is not Outcome.PASS
        assert "indication" in one.remedy
        assert not one.verified
