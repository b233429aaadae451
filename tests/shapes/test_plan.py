"""Plans of the trade over the general kernel, against closed forms and hand-checkable jobs."""

import itertools
import math
import re

import numpy as np
import pytest
import shapely
from hypothesis import given, settings

from roofmodel.foundation.errors import DimensionError
from roofmodel.geometry import trimesh_of
from roofmodel.shapes import plan, solid
from roofmodel.shapes.footprint import Footprint, FootprintSide, SideKind
from roofmodel.shapes.roof import LineKind
from tests import strategies
from tests.geometry import footprints
from tests.shapes import notched

LENGTH = {"abs": 0.5}
AREA = {"abs": 0.005}
ANGLE = {"abs": 0.02}


def built(footprint):
    return footprint.roof(eaves_height_mm=2100.0)


def measure(roof, kind):
    return sorted(round(line.length_mm, 1) for line in roof.lines_of(kind))


def assert_sound(roof):
    body = trimesh_of.body(solid.closed(roof))
    assert body.is_watertight
    assert body.is_winding_consistent
    assert trimesh_of.body(solid.skin(roof)).area / 1e6 == pytest.approx(roof.area_m2, abs=1e-5)


@settings(max_examples=60)
@given(shape=strategies.shapes)
def test_the_general_kernel_gives_every_shape_as_its_closed_form(shape):
    closed = shape.roof(eaves_height_mm=2100.0)
    general = built(shape.footprint())

    assert [f.name for f in general.facets] == [f.name for f in closed.facets]
    for one, other in zip(general.facets, closed.facets, strict=True):
        assert one.area_m2 == pytest.approx(other.area_m2, abs=1e-6)
        assert [e.kind for e in one.edges] == [e.kind for e in other.edges]
        for corner, twin in zip(one.corners, other.corners, strict=True):
            assert math.dist(corner, twin) < 0.1


def double_hip(projection_mm):
    return plan.polygonal_end(
        4000, projection_mm, end_facets=3, pitch_deg=22, rear=plan.box_gutter(22)
    )


def test_j05_three_facet_end_hipped_back_into_a_box_gutter():
    roof = built(double_hip(4800))
    front = [h for h in roof.lines_of(LineKind.HIP) if "F1" not in h.facets]
    rear = [h for h in roof.lines_of(LineKind.HIP) if "F1" in h.facets]

    assert roof.rise_mm == pytest.approx(808.05, **LENGTH)
    assert measure(roof, LineKind.EAVES) == pytest.approx([1656.9] * 3 + [3628.4] * 2, **LENGTH)
    assert measure(roof, LineKind.RIDGE) == pytest.approx([800.0], **LENGTH)
    assert measure(roof, LineKind.BOX_GUTTER) == pytest.approx([4000.0], **LENGTH)
    assert [h.length_mm for h in front] == pytest.approx([2310.7] * 4, **LENGTH)
    assert [h.pitch_deg for h in front] == pytest.approx([20.47] * 4, **ANGLE)
    assert [h.bevel_deg for h in front] == pytest.approx([8.24] * 4, **ANGLE)
    assert [h.length_mm for h in rear] == pytest.approx([2941.6] * 2, **LENGTH)
    assert [h.pitch_deg for h in rear] == pytest.approx([15.94] * 2, **ANGLE)
    assert [h.bevel_deg for h in rear] == pytest.approx([15.36] * 2, **ANGLE)
    areas = [f.area_m2 for f in roof.facets]
    assert areas == pytest.approx([4.314, 4.776, 1.787, 1.787, 1.787, 4.776], **AREA)
    assert roof.area_m2 == pytest.approx(19.227, **AREA)
    assert roof.plan_area_m2 == pytest.approx(17.827, **AREA)
    assert_sound(roof)


def test_j05_with_a_projection_of_4000_is_a_pyramid():
    roof = built(double_hip(4000))

    assert measure(roof, LineKind.RIDGE) == []
    tops = {corner for f in roof.facets for corner in f.corners if corner[2] > 1}
    assert len(tops) == 1
    assert_sound(roof)


def test_j05_with_a_projection_of_3800_says_by_how_much_the_hips_cross():
    with pytest.raises(DimensionError, match=r"cross 200\.0 mm before") as error:
        double_hip(3800)
    assert "valley" in error.value.faults[0].remedy
    assert "pitch" in error.value.faults[0].remedy


@pytest.mark.parametrize(("facets", "side"), [(3, 1656.9), (4, 1299.7), (5, 1071.8)])
def test_ends_of_three_four_and_five_facets(facets, side):
    """Check values G-44 to G-46 for a bay 4 m wide."""
    roof = built(plan.polygonal_end(4000, 4500, end_facets=facets, pitch_deg=25, rear=plan.WALL))

    assert measure(roof, LineKind.EAVES)[:facets] == pytest.approx([side] * facets, abs=0.06)
    assert len(roof.facets) == facets + 2
    assert_sound(roof)


def test_lantern_8_by_5_m_at_25_degrees():
    """Check values G-40, G-41: area 44.135117 m², ridge 3.000 m, hips 3.722770 m."""
    side = plan.eaves(25)
    roof = built(plan.rectangle(8000, 5000, rear=side, right=side, front=side, left=side))

    assert roof.area_m2 == pytest.approx(44.135117, abs=1e-6)
    assert roof.lines_of(LineKind.RIDGE)[0].length_mm == pytest.approx(3000, abs=0.001)
    hips = [h.length_mm for h in roof.lines_of(LineKind.HIP)]
    assert hips == pytest.approx([3722.770] * 4, abs=0.001)
    assert_sound(roof)


def test_a_lean_to_with_both_ends_hipped_back_to_the_wall():
    """Hips at 45° in plan: each end's foot lies as far along the wall as the roof is deep."""
    end = plan.eaves(20)
    roof = built(plan.rectangle(5000, 2000, rear=plan.WALL, right=end, front=end, left=end))

    assert measure(roof, LineKind.HOUSE_WALL) == pytest.approx(
        [1000.0, *[2000 / math.cos(math.radians(20))] * 2], **LENGTH
    )
    assert len(roof.lines_of(LineKind.HIP)) == 2
    assert_sound(roof)


def test_a_ridge_parallel_to_the_house_drains_into_a_box_gutter():
    """J02's other way: run 1500 each way at 20°, rise 546."""
    roof = built(
        plan.rectangle(
            3500,
            3000,
            rear=plan.box_gutter(20),
            right=plan.VERGE,
            front=plan.eaves(20),
            left=plan.VERGE,
        )
    )

    assert roof.rise_mm == pytest.approx(546, **LENGTH)
    assert measure(roof, LineKind.RIDGE) == pytest.approx([3500], **LENGTH)
    assert_sound(roof)


@pytest.mark.parametrize(
    ("from_right", "valleys", "corners"), [(0, 1, 6), (3000, 1, 6), (1500, 2, 8)]
)
def test_l_and_t_plans_have_valleys(from_right, valleys, corners):
    footprint = plan.with_wing(
        6000,
        2500,
        wing_width_mm=3000,
        wing_projection_mm=2500,
        from_right_mm=from_right,
        pitch_deg=25,
    )
    roof = built(footprint)

    assert len(footprint.corners_mm) == corners
    assert len(roof.lines_of(LineKind.VALLEY)) == valleys
    # Equal pitches: true area is plan area / cos(pitch), check value G-40.
    assert roof.area_m2 == pytest.approx(roof.plan_area_m2 / math.cos(math.radians(25)), abs=1e-6)
    assert_sound(roof)


def test_a_p_plan_is_a_polygonal_end_with_a_lean_to_beside_it():
    roof = built(
        plan.polygonal_end_with_lean_to(
            3500,
            3600,
            end_facets=3,
            lean_to_width_mm=2500,
            lean_to_projection_mm=2000,
            pitch_deg=25,
        )
    )

    assert len(roof.lines_of(LineKind.VALLEY)) == 1
    assert_sound(roof)


def test_a_box_gutter_along_part_of_the_wall():
    roof = built(
        notched.with_notch(
            5000,
            3500,
            notch=notched.Notch(from_right_mm=1500, width_mm=2000, depth_mm=400),
            sides=(plan.eaves(20), plan.eaves(20), plan.eaves(20)),
            gutter_pitch_deg=20,
        )
    )

    assert measure(roof, LineKind.BOX_GUTTER) == pytest.approx([400, 400, 2000], **LENGTH)
    assert len(roof.lines_of(LineKind.VALLEY)) == 2
    assert_sound(roof)


def stepped_lean_to():
    """A lean-to 2 m deep beside one 3 m deep, a verge on the step between them."""
    return Footprint(
        corners_mm=((5000, 0), (0, 0), (0, 2000), (2500, 2000), (2500, 3000), (5000, 3000)),
        sides=(plan.WALL, plan.VERGE, plan.eaves(20), plan.VERGE, plan.eaves(20), plan.VERGE),
    )


def test_at_an_inner_corner_beside_a_verge_the_deeper_lean_to_stands_over_the_other():
    """Closed form: both fall alike, so the cheek is 1 m × tan 20° high all along 2 m."""
    roof = built(stepped_lean_to())
    low, high = roof.facets
    slope = math.cos(math.radians(20))

    assert low.area_m2 == pytest.approx(2.5 * 2.0 / slope)
    assert high.area_m2 == pytest.approx(2.5 * 3.0 / slope)
    assert [edge.kind.value for edge in low.edges] == ["eaves", "verge", "house wall", "upstand"]
    # One verge from the front to the house, without a corner where the step ends.
    assert [edge.kind.value for edge in high.edges] == ["eaves", "verge", "house wall", "verge"]
    (cheek,) = solid.cheeks(roof)
    assert (cheek.upper, cheek.lower) == ("F2", "F1")
    assert cheek.length_mm == pytest.approx(2000.0)
    assert cheek.height_mm == pytest.approx(1000.0 * math.tan(math.radians(20)))
    assert_sound(roof)


def test_where_a_wall_ends_at_an_inner_corner_a_verge_goes_on():
    corners = ((5000, 0), (3500, 0), (3500, 400), (1500, 400), (1500, 0), (0, 0))
    roof = built(
        Footprint(
            corners_mm=(*corners, (0, 3500), (5000, 3500)),
            sides=(*[plan.WALL] * 2, plan.box_gutter(20), *[plan.WALL] * 2, *[plan.eaves(20)] * 3),
        )
    )

    assert measure(roof, LineKind.HOUSE_WALL) == pytest.approx([400] * 2 + [1596.3] * 2, **LENGTH)
    assert measure(roof, LineKind.VERGE) == pytest.approx([1500] * 2, **LENGTH)
    assert measure(roof, LineKind.UPSTAND) == pytest.approx([1596.3] * 2, **LENGTH)
    assert {(one.upper, one.lower) for one in solid.cheeks(roof)} == {("F2", "F1"), ("F4", "F1")}
    assert_sound(roof)


MIXED = ("rectilinear", "convex", "star", "concave")


@pytest.mark.parametrize("name", MIXED)
def test_random_plans_of_mixed_sides_are_built_or_told_which_side_and_what_to_do(name):
    hold_mixed(name, seed=5, number=12)


@pytest.mark.slow
@pytest.mark.parametrize("name", MIXED)
def test_many_random_plans_of_mixed_sides(name):
    hold_mixed(name, seed=6, number=160)


def hold_mixed(name, *, seed, number):
    """Volumes are measured by trimesh, and summed by hand over triangles of every facet."""
    cases = footprints.valid(footprints.CLASSES[name], seed=seed, most=10)
    for corners, rng in itertools.islice(cases, number):
        kinds = [str(one) for one in rng.choice(["eaves", "eaves", "verge", "house wall"], 10)]
        sides = tuple(
            plan.eaves(float(rng.choice(footprints.PITCHES_DEG)))
            if kind == "eaves"
            else FootprintSide(kind=SideKind(kind))
            for kind in ["eaves", *kinds][: len(corners)]
        )
        try:
            roof = built(Footprint(corners_mm=tuple(corners[::-1]), sides=sides))
        except DimensionError as error:
            (fault,) = error.faults
            assert re.search(r"side \d+ \(", fault.text), fault.text
            assert re.search(r"\. (Make|Give|Move|Leave|Set|Take) ", fault.text), fault.text
            continue
        assert roof.plan_area_m2 == pytest.approx(shapely.Polygon(corners).area / 1e6, abs=1e-4)
        body = trimesh_of.body(solid.closed(roof))
        assert body.is_watertight
        assert body.is_winding_consistent
        assert body.volume / 1e9 == pytest.approx(volume_m3(roof), rel=1e-6)


def volume_m3(roof):
    """Return what stands under every facet, down to the floor."""
    skin = solid.skin(roof)
    total = 0.0
    for a, b, c in skin.points[skin.triangles]:
        level_mm2 = np.cross(b - a, c - a)[2] / 2.0
        total += level_mm2 * ((a + b + c)[2] / 3.0 + roof.eaves_height_mm)
    return total / 1e9


def test_a_box_gutter_that_lies_higher_than_the_eaves_leaves_an_upstand():
    roof = built(
        plan.rectangle(
            4000,
            4000,
            rear=plan.box_gutter(22, level_mm=300),
            right=plan.eaves(22),
            front=plan.eaves(22),
            left=plan.eaves(22),
        )
    )
    upstands = roof.lines_of(LineKind.UPSTAND)

    assert len(upstands) == 2
    # The side facet climbs 300 mm along the wall face before it meets the gutter's facet.
    assert [max(u.start[2], u.end[2]) for u in upstands] == pytest.approx([300, 300], abs=0.01)
    assert_sound(roof)


def test_a_plan_out_of_square_keeps_its_corners():
    """J08's plan, its wrong diagonal corrected: plan area 11.938 m²."""
    corners = ((4200.0, 0.0), (0.0, 0.0), (-34.7, 2799.8), (4204.6, 2865.0))
    roof = built(
        Footprint(
            corners_mm=corners,
            sides=(plan.WALL, plan.VERGE, plan.eaves(15), plan.VERGE),
        )
    )

    assert {tuple(round(c, 1) for c in p[:2]) for p in roof.facets[0].corners} == {
        tuple(round(c, 1) for c in corner) for corner in corners
    }
    assert_sound(roof)


@pytest.mark.parametrize(
    ("sides", "field", "words"),
    [
        ((plan.WALL, plan.VERGE, plan.VERGE, plan.VERGE), "corners_mm", "No side of the"),
        ((plan.WALL, plan.VERGE, plan.eaves(95), plan.VERGE), "sides.2.pitch_deg", "95°"),
        (
            (plan.WALL, plan.VERGE, FootprintSide(kind=SideKind.EAVES), plan.VERGE),
            "sides.2.pitch_deg",
            "no pitch",
        ),
        (
            (FootprintSide(kind=SideKind.HOUSE_WALL, pitch_deg=9.0), *[plan.eaves(20)] * 3),
            "sides.0.pitch_deg",
            "has a pitch",
        ),
        ((plan.WALL, plan.eaves(20)), "sides", "4 corners and 2 sides"),
    ],
)
def test_a_footprint_that_cannot_be_built_names_the_side(sides, field, words):
    with pytest.raises(DimensionError, match=words) as error:
        Footprint(corners_mm=((4000, 0), (0, 0), (0, 3000), (4000, 3000)), sides=sides)
    assert error.value.faults[0].field == field


@pytest.mark.parametrize(
    ("corners", "words"),
    [
        (((4000, 0), (0, 3000), (0, 0), (4000, 3000)), r"side 1 \(eaves\) cross or touch\. Enter"),
        (((0, 0), (4000, 0), (4000, 3000), (0, 3000)), "anticlockwise as seen from above. Enter"),
    ],
)
def test_sides_in_the_wrong_order_are_told_so(corners, words):
    with pytest.raises(DimensionError, match=words):
        Footprint(corners_mm=corners, sides=tuple([plan.eaves(20)] * 4))


def test_a_part_that_no_slope_closes_is_named_by_its_sides():
    """The facet of side 3 covers the front arm only; nothing slopes over the other."""
    corners = ((-1000, 0), (-1000, 1000), (0, 1000), (0, 2000), (1000, 2000), (1000, 0))
    with pytest.raises(
        DimensionError, match=r"side 2 \(verge\) and side 1 \(house wall\) part of"
    ) as told:
        Footprint(
            corners_mm=corners,
            sides=(plan.WALL, plan.VERGE, plan.eaves(40), *[plan.VERGE] * 3),
        )
    assert "Make one of those sides an eaves" in str(told.value)


@pytest.mark.parametrize(
    ("cut", "pitches"),
    [
        ((0.114336, 2.786518), (55, 25, 10)),
        ((1.529670, 0.043556), (12, 22, 70)),
        ((0.105701, 2.235200), (71, 27, 11)),
        ((1.914795, 0.029515), (15, 22, 57)),
    ],
)
def test_a_facet_a_twentieth_of_a_millimetre_deep_is_built_beside_its_neighbours(cut, pitches):
    """Its top lies within the joining distance of its own eaves, but not of a corner of it.

    Found by drawing random corners cut off a rectangle; each was refused with two facets that do
    not meet, as a nine-sided star of a checking engineer was.
    """
    (back, along), (before, cut_off, after) = cut, pitches
    corners = ((4000.0, 0.0), (0.0, 0.0), (0.0, 3000.0 - back), (along, 3000.0), (4000.0, 3000.0))
    sides = tuple(plan.eaves(float(p)) for p in (20, before, cut_off, after, 20))

    roof = Footprint(corners_mm=corners, sides=sides).roof(eaves_height_mm=0.0)

    assert len(roof.facets) == 5
    assert roof.plan_area_m2 == pytest.approx(12.0, abs=1e-5)


def test_a_facet_that_is_a_mere_line_is_refused_by_its_side_and_with_a_remedy():
    corners = ((4000.0, 0.0), (0.0, 0.0), (0.0, 2996.98956), (0.0033023, 3000.0), (4000.0, 3000.0))
    sides = tuple(plan.eaves(float(p)) for p in (20, 12, 38, 22, 20))

    with pytest.raises(DimensionError, match=r"side 3 \(eaves\) would be a mere line. Take its"):
        Footprint(corners_mm=corners, sides=sides)


def test_raised_eaves_that_the_facets_beside_them_cover_are_told_so():
    sides = (
        plan.eaves(40.0),
        plan.eaves(40.0),
        plan.eaves(25.0, level_mm=1500.0),
        plan.eaves(40.0),
    )
    corners = ((2000.0, 0.0), (0.0, 0.0), (0.0, 3000.0), (2000.0, 3000.0))

    with pytest.raises(DimensionError, match=r"beside side 3 .* cover its eaves wholly"):
        Footprint(corners_mm=corners, sides=sides)


def test_an_end_too_wide_for_its_projection_is_told_so_without_a_length_below_nothing():
    """By hand: half the width less the first corner's turn of 45°, 4500 (1 - tan 22.5°) = 2636."""
    with pytest.raises(DimensionError) as error:
        plan.polygonal_end_with_lean_to(
            9000.0, 2000.0, end_facets=3, lean_to_width_mm=1800.0, lean_to_projection_mm=1000.0,
            pitch_deg=22.0,
        )  # fmt: skip

    (fault,) = error.value.faults
    assert fault.field == "projection_mm"
    assert fault.text.startswith("An end 9000 mm wide reaches 2636 mm back")
    assert fault.remedy == "Make the projection more than 2636 mm, or the end narrower."
    assert "-" not in fault.remedy
