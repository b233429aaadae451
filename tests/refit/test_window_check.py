"""A roof window that cannot be where it is entered is refused, with the reason."""

import pytest

from roofmodel.refit.method import Method
from tests import acceptance_jobs


def _option(method, *windows):
    entry = {"method": method.value, "roof_windows": list(windows)}
    return acceptance_jobs.drawn("J01", refit=entry).option_of(method)


def _window(**at):
    usual = {"facet": "F1", "u_mm": 1500.0, "v_mm": 900.0, "width_mm": 550.0, "height_mm": 780.0}
    return usual | at


def _stops(option):
    return [one for one in option.findings if one.field.startswith("refit.roof_windows")]


def test_a_window_well_inside_a_new_roof_is_taken():
    option = _option(Method.NEW_ROOF, _window())
    assert not _stops(option)
    assert "Roof window" not in option.refused


@pytest.mark.parametrize(
    ("at", "said"),
    [
        ({"u_mm": 9000.0, "v_mm": 9000.0}, "does not lie within F1"),
        ({"v_mm": 150.0}, "150 mm from the edge of F1"),
    ],
)
def test_a_window_off_its_facet_or_too_near_its_edge_is_refused(at, said):
    option = _option(Method.NEW_ROOF, _window(**at))
    (stop,) = _stops(option)
    assert said in stop.text
    assert said in option.refused


def test_a_window_over_a_kept_bar_is_refused():
    """J01 has bars 60 wide at 666.7: 550 and twice 10 mm of lining go between two, not across."""
    (stop,) = _stops(_option(Method.BUILD_ROUND, _window(u_mm=1100.0)))
    assert "crosses the kept bar at" in stop.text
    between = 1333.3 + 333.3 - 275.0
    assert not _stops(_option(Method.BUILD_ROUND, _window(u_mm=between)))


def test_two_windows_keep_apart():
    (stop,) = _stops(_option(Method.NEW_ROOF, _window(), _window(u_mm=2150.0)))
    assert "100 mm from roof window 1" in stop.text
