import pytest

from roofmodel.refit import depth
from roofmodel.refit.method import Method
from tests import acceptance_jobs


def depths(code, method=None, **changes):
    job = acceptance_jobs.drawn(code, **changes)
    option = job.option if method is None else job.option_of(method)
    return {one.where: one for one in depth.depths(option.refit)}


def test_a_build_up_is_deepest_plumb():
    found = depths("J01")

    # 47.5 outside and 182.5 inside the bars, 230 square to a slope of 15°: 238.1 plumb.
    assert found["eaves"].plumb_mm == pytest.approx(238.1, abs=0.1)
    assert found["eaves"].surface_mm == pytest.approx(2100 + 49.2, abs=0.1)
    assert found["abutment"].ceiling_mm == pytest.approx(2100 + 750.3 - 188.9, abs=0.1)


def test_the_box_gutter_has_a_depth_of_its_own():
    assert set(depths("J05")) == {"eaves", "box gutter"}


def test_headroom_is_lost_below_the_bars_and_panels_lose_none():
    job = acceptance_jobs.drawn("J01")

    # Batten 25, foil 30, counter-batten 38, board 12.5 and skim 2.
    assert depth.headroom_lost_mm(job.option.refit) == pytest.approx(107.5)
    assert depth.headroom_lost_mm(job.option_of(Method.PANEL_SWAP).refit) == 0.0


def test_panels_ask_nothing_of_the_sill():
    standing = {"glazing": "polycarbonate", "sill_height_mm": 2900.0}

    assert depths("J01", Method.PANEL_SWAP, standing=standing)["abutment"].room_mm is None
    assert depths("J01", standing=standing)["abutment"].room_mm < 0.0
