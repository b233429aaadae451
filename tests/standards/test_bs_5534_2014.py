"""Laps of the underlay by pitch; the rows themselves are from memory, as the module says."""

import math

import pytest

from roofmodel.standards import bs_5534_2014 as bs_5534


@pytest.mark.parametrize("pitch_deg", [15.0, 14.999999999999998, math.degrees(math.radians(15.0))])
def test_a_slope_of_15_degrees_laps_as_one_whatever_its_last_digit(pitch_deg):
    assert bs_5534.underlay_lap_mm(pitch_deg, supported=True) == 100.0


def test_a_flatter_slope_laps_more_and_too_flat_a_one_not_at_all():
    assert bs_5534.underlay_lap_mm(14.9, supported=True) == 150.0
    assert bs_5534.underlay_lap_mm(12.4, supported=True) is None
