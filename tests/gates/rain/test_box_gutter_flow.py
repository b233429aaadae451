"""Flow in a level box gutter: the closed form against the momentum of the water."""

import math

import pytest

from roofmodel.gates.rain import box_gutter_flow
from roofmodel.gates.rain.box_gutter_flow import GRAVITY_M_S2, BoxGutter
from roofmodel.standards import en_12056_3_2000 as en_12056_3


def upstream_mm(width_mm, flow_l_s):
    """Depth at the closed end, by the force and momentum of the water between both ends.

    Rain falls in without speed along the gutter, so b h² / 2 there equals b h² / 2 + Q² / (g b h)
    at the outfall, where the depth is critical; found by halving.
    """
    b, q = width_mm / 1e3, flow_l_s / 1e3
    critical = (q**2 / (GRAVITY_M_S2 * b**2)) ** (1.0 / 3.0)
    outfall = b * critical**2 / 2.0 + q**2 / (GRAVITY_M_S2 * b * critical)
    low, high = critical, 3.0 * critical
    for _ in range(60):
        middle = (low + high) / 2.0
        low, high = (middle, high) if b * middle**2 / 2.0 < outfall else (low, middle)
    return 1e3 * low


@pytest.mark.parametrize(("width_mm", "water_mm"), [(100.0, 50.0), (200.0, 70.0), (450.0, 30.0)])
def test_the_closed_form_keeps_the_momentum(width_mm, water_mm):
    flow = box_gutter_flow.level_gutter_l_s(width_mm, water_mm)
    assert upstream_mm(width_mm, flow) == pytest.approx(water_mm, rel=1e-9)


def test_it_lies_near_the_nominal_capacity_of_the_document():
    """EN 12056-3, from memory: 3.48e-5 A^1.25, for a gutter twice as wide as deep within 6 %."""
    ours = box_gutter_flow.level_gutter_l_s(100.0, 50.0)
    assert ours == pytest.approx(1.536, abs=0.001)
    assert ours == pytest.approx(en_12056_3.box_gutter_nominal_l_s(5_000.0), rel=0.06)


def test_an_outlet_is_an_orifice_with_the_usual_contraction():
    """Mechanics: 0.6 of the area times √(2 g h); the document from memory within 2 %."""
    diameter, head = 63.0, 45.0
    area = math.pi * (diameter / 1e3) ** 2 / 4.0
    free = 1e3 * 0.6 * area * math.sqrt(2.0 * GRAVITY_M_S2 * head / 1e3)
    assert en_12056_3.round_outlet_l_s(diameter, head) == pytest.approx(free, rel=0.02)


def test_weir_and_orifice_meet_at_half_the_diameter():
    below, above = (en_12056_3.round_outlet_l_s(80.0, 40.0 + more) for more in (0.0, 1e-9))
    assert below == pytest.approx(above, rel=1e-6)


def test_a_spill_weir_takes_less_than_critical_flow_over_its_crest():
    """Mechanics: (2/3)^1.5 √g b h^1.5 at most; the document from memory takes 77 % of it."""
    most = 1e3 * (2.0 / 3.0) ** 1.5 * math.sqrt(GRAVITY_M_S2) * 0.2 * 0.03**1.5
    assert 0.7 * 200.0 < en_12056_3.spill_weir_mm(most, 30.0) * 0.77 < 1.05 * 200.0


@pytest.mark.parametrize(
    ("depth_mm", "free_mm"), [(60.0, 25.0), (100.0, 30.0), (250.0, 75.0), (400.0, 75.0)]
)
def test_the_freeboard_grows_with_the_depth(depth_mm, free_mm):
    """From memory of the document."""
    assert en_12056_3.box_freeboard_mm(depth_mm) == pytest.approx(free_mm)


def test_two_outlets_carry_twice_as_much_and_each_half_the_way():
    one = BoxGutter(
        width_mm=200.0, depth_mm=100.0, freeboard_mm=30.0, length_mm=8_000.0, outlet_mm=80.0
    )
    two = BoxGutter(
        width_mm=200.0,
        depth_mm=100.0,
        freeboard_mm=30.0,
        length_mm=8_000.0,
        outlet_mm=80.0,
        outlets=2,
    )
    assert two.outlets_l_s == pytest.approx(2.0 * one.outlets_l_s)
    assert two.gutter_l_s > 2.0 * one.gutter_l_s
    assert one.carries_l_s == min(one.gutter_l_s, one.outlets_l_s)
