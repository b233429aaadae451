"""Surfaces of ISO 6946, and how a U-value is printed."""

import pytest

from roofmodel.standards import iso_6946_2017 as iso_6946
from roofmodel.standards.iso_6946_2017 import Flow, Surfaces


@pytest.mark.parametrize(
    ("pitch", "inside", "outside"), [(0.0, 0.10, 0.04), (59.9, 0.10, 0.04), (60.0, 0.13, 0.04)]
)
def test_a_roof_of_60_degrees_counts_as_a_wall(pitch, inside, outside):
    """BR 443 (2019) 4.2 as a public program quotes it."""
    assert iso_6946.surfaces(pitch) == Surfaces(inside_m2k_w=inside, outside_m2k_w=outside)


def test_outside_a_ventilated_space_the_surface_is_like_an_inside_one():
    """BR 443 (2019) 4.7.3 as a public program quotes it: 0.10 for a roof, 0.13 for a wall."""
    assert iso_6946.surfaces(25.0, ventilated_covering=True).outside_m2k_w == 0.10
    assert iso_6946.surfaces(90.0, ventilated_covering=True).outside_m2k_w == 0.13


def test_heat_going_down_meets_the_most_resistance_inside():
    assert iso_6946.RSI_M2K_W == {Flow.UPWARD: 0.10, Flow.HORIZONTAL: 0.13, Flow.DOWNWARD: 0.17}


@pytest.mark.parametrize(("exact", "printed"), [(0.0583, 0.058), (1.234, 1.2), (0.1627, 0.16)])
def test_a_u_value_is_printed_to_two_significant_figures(exact, printed):
    """ISO 6946:2017 6.5.2 as a public program quotes it."""
    assert iso_6946.rounded_u_w_m2k(exact) == printed
