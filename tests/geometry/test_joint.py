"""The angles of hips, valleys and ridges, worked beside the program with tan and cos alone.

Source of the rules: common carpentry, no document. In plan a hip or valley over a right-angled
corner leaves the eaves of plane a at atan(tan b / tan a): level steps on both planes rise alike.
"""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roofmodel.foundation.errors import GeometryError
from roofmodel.geometry.joint import jack_side_cut_deg, joint
from roofmodel.geometry.plane import sloping_from

HERE = (0.0, 0.0, 0.0)
pitches = st.floats(5.0, 60.0)


def tan(angle_deg):
    return math.tan(math.radians(angle_deg))


def sloping(pitch_a, pitch_b, corner_deg=90.0, *, valley):
    """Return the planes over a corner of the eaves, measured inside the roof beside a hip."""
    angle = math.radians(corner_deg)
    along, away = (1.0, 0.0, 0.0), (math.cos(angle), math.sin(angle), 0.0)
    if valley:
        return sloping_from(along, HERE, pitch_a), sloping_from(HERE, away, pitch_b)
    return sloping_from(HERE, along, pitch_a), sloping_from(away, HERE, pitch_b)


def corner(pitch_a, pitch_b, corner_deg=90.0, *, valley):
    """Return the joint of these planes."""
    return joint(*sloping(pitch_a, pitch_b, corner_deg, valley=valley), valley=valley)


@pytest.mark.parametrize("valley", [False, True])
def test_equal_pitches_over_a_right_angle_meet_at_45_degrees_in_plan(valley):
    found = corner(30.0, 30.0, valley=valley)

    assert found.plan_angles_deg == pytest.approx((45.0, 45.0))
    assert tan(found.pitch_deg) == pytest.approx(tan(30.0) / math.sqrt(2.0))
    assert found.bevel_deg == pytest.approx(0.5 * math.degrees(math.acos(0.75)))


@pytest.mark.parametrize("valley", [False, True])
def test_beside_a_steeper_neighbour_the_plan_angle_grows(valley):
    # tan 40° / tan 20° = 2.3054: 66.55° on the flat side, what is left of 90° on the steep one.
    found = corner(20.0, 40.0, valley=valley)

    assert found.plan_angles_deg == pytest.approx((66.55, 23.45), abs=0.005)


@given(a=pitches, b=pitches, valley=st.booleans())
def test_plan_angles_over_a_right_angle_are_those_of_the_rule(a, b, valley):
    found = corner(a, b, valley=valley)

    assert tan(found.plan_angles_deg[0]) == pytest.approx(tan(b) / tan(a), rel=1e-6)
    assert sum(found.plan_angles_deg) == pytest.approx(90.0)
    # The joint rises as fast as plane a over the square distance from its eaves.
    rise = tan(a) * math.sin(math.radians(found.plan_angles_deg[0]))
    assert tan(found.pitch_deg) == pytest.approx(rise, rel=1e-6)


@given(a=pitches, b=pitches, angle=st.floats(70.0, 170.0))
def test_a_valley_of_the_same_planes_has_the_angles_of_the_hip_and_its_dihedral_turned(a, b, angle):
    hip, valley = (corner(a, b, angle, valley=one) for one in (False, True))

    assert valley.plan_angles_deg == pytest.approx(hip.plan_angles_deg, abs=1e-6)
    assert valley.pitch_deg == pytest.approx(hip.pitch_deg, abs=1e-6)
    assert valley.dihedral_deg == pytest.approx(360.0 - hip.dihedral_deg, abs=1e-6)
    assert valley.backings_deg == pytest.approx(hip.backings_deg, abs=1e-6)


@given(a=pitches, b=pitches, angle=st.floats(70.0, 170.0), valley=st.booleans())
def test_planes_that_change_places_change_their_angles_and_nothing_else(a, b, angle, valley):
    one, other = sloping(a, b, angle, valley=valley)
    found, turned = joint(one, other, valley=valley), joint(other, one, valley=valley)

    assert turned.plan_angles_deg == pytest.approx(found.plan_angles_deg[::-1])
    assert turned.backings_deg == pytest.approx(found.backings_deg[::-1])
    assert turned.pitch_deg == pytest.approx(found.pitch_deg)
    assert turned.dihedral_deg == pytest.approx(found.dihedral_deg)


def test_plan_angles_pass_90_degrees_on_a_blunt_corner_of_unequal_pitches():
    found = corner(20.0, 50.0, 150.0, valley=False)

    assert found.plan_angles_deg[0] > 90.0
    assert sum(found.plan_angles_deg) == pytest.approx(150.0)
    assert found.backings_deg[0] < 0.0


def test_a_ridge_is_level_and_its_dihedral_is_what_both_pitches_leave_of_180():
    left, right = (
        sloping_from((0, 0, 0), (1, 0, 0), 30.0),
        sloping_from((1, 4, 0), (0, 4, 0), 40.0),
    )
    found = joint(left, right, valley=False)

    assert found.pitch_deg == pytest.approx(0.0, abs=1e-9)
    assert found.plan_angles_deg == (0.0, 0.0)
    assert found.dihedral_deg == pytest.approx(110.0)
    assert found.bevel_deg == pytest.approx(35.0)
    assert found.backings_deg == pytest.approx((30.0, 40.0))


def test_planes_that_run_in_parallel_have_no_line_in_common():
    one = sloping_from((0, 0, 0), (1, 0, 0), 30.0)

    with pytest.raises(GeometryError, match="parallel"):
        joint(one, sloping_from((0, 1, 0), (1, 1, 0), 30.0), valley=False)


def test_a_side_cut_is_the_plan_angle_laid_on_the_slope():
    # On a level roof the cut is the plan's: 45°. At 60° the length across halves: atan 0.5.
    assert jack_side_cut_deg(0.0, 45.0) == pytest.approx(45.0)
    assert tan(jack_side_cut_deg(60.0, 45.0)) == pytest.approx(0.5)
    assert jack_side_cut_deg(30.0, 90.0) == pytest.approx(0.0, abs=1e-9)
    assert jack_side_cut_deg(30.0, 120.0) < 0.0
