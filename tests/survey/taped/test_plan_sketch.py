"""A plan drawn corner by corner, as it is typed or pointed at."""

import math

import pytest

from roofmodel.shapes.footprint import SideKind
from roofmodel.survey.taped import plan_changes, plan_sketch
from roofmodel.survey.taped.free_plan import MOST_SIDES, FreePlanSurvey

L_SHAPE = [(5000.0, 0.0), (0.0, 0.0), (0.0, 2500.0), (2000.0, 2500.0), (2000.0, 4000.0)]
L_SHAPE += [(5000.0, 4000.0)]


def _snap(corners, pointer, **more):
    return plan_sketch.next_corner(corners, pointer, reach_mm=80.0, **more)


def test_a_corner_near_the_square_stands_square():
    found = _snap([(3000.0, 0.0), (0.0, 0.0)], (31.0, 2487.0))
    assert found.at == (0.0, 2490.0)
    assert found.notes == ("square",)


def test_half_the_square_is_suggested_too():
    found = _snap([(3000.0, 0.0), (0.0, 0.0)], (1010.0, 990.0))
    assert found.at[0] == pytest.approx(found.at[1])
    assert found.notes == ("45°",)


def test_nothing_draws_a_corner_where_it_may_go_anywhere():
    found = _snap([(3000.0, 0.0), (0.0, 0.0)], (31.0, 2487.0), free=True)
    assert found.at == (30.0, 2490.0)
    assert not found.notes


def test_a_typed_length_goes_the_way_that_is_pointed_at():
    found = _snap([(3000.0, 0.0), (0.0, 0.0)], (200.0, 900.0), length_mm=2512.0)
    assert found.at == (0.0, 2512.0)


def test_a_typed_length_that_reaches_the_first_corner_closes():
    found = _snap(
        [(3000.0, 0.0), (0.0, 0.0), (0.0, 2000.0), (3000.0, 2000.0)],
        (3005.0, 700.0),
        length_mm=2000.0,
    )
    assert found.closes


def test_the_corner_that_squares_the_last_side_is_found():
    found = _snap([(3000.0, 0.0), (0.0, 0.0), (0.0, 2000.0)], (2950.0, 2030.0))
    assert found.at == (3000.0, 2000.0)
    assert "in line, square to side 1" in found.notes
    assert found.along == (((3000.0, 0.0), (3000.0, 2000.0)),)


def test_a_side_as_long_as_another_is_told():
    found = _snap([(3000.0, 0.0), (0.0, 0.0), (0.0, 2000.0), (-800.0, 2000.0)], (-790.0, 4030.0))
    assert found.at == (-800.0, 4000.0)
    assert "as long as side 2" in found.notes


def test_sides_do_not_cross():
    corners = [(0.0, 0.0), (0.0, 2000.0), (2000.0, 2000.0), (2000.0, 1000.0)]
    assert "cross side 1" in plan_sketch.refusal(corners, (-500.0, 1000.0))
    assert not plan_sketch.refusal(corners, (500.0, 1000.0))
    assert not plan_sketch.refusal(corners, (0.0, 0.0))
    assert "back over" in plan_sketch.refusal(corners, (2000.0, 1500.0))


def test_ten_thousand_clicks_make_no_plan():
    corners = [(float(i), float(i * i)) for i in range(MOST_SIDES)]
    assert str(MOST_SIDES) in plan_sketch.refusal(corners, (9000.0, 9000.0))


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize("first", range(6))
def test_an_l_drawn_either_way_round_from_any_corner_is_the_same_plan(turned, first):
    corners = L_SHAPE[first:] + L_SHAPE[:first]
    sides = plan_sketch.closed(corners[::-1] if turned else corners, pitch_deg=20.0)
    assert [(side.x_mm, side.y_mm) for side in sides] == L_SHAPE
    assert [side.kind for side in sides] == ["house wall", *["eaves"] * 5]
    footprint = FreePlanSurvey(eaves_height_mm=2100.0, sides=sides).footprint()
    # 5.0 × 2.5 m and 3.0 × 1.5 m, every facet at 20°
    area_m2 = (5.0 * 2.5 + 3.0 * 1.5) / math.cos(math.radians(20.0))
    assert footprint.roof(eaves_height_mm=2100.0).area_m2 == pytest.approx(area_m2, rel=1e-6)


def test_a_plan_away_from_the_wall_is_turned_to_lie_along_it():
    # 3-4-5: a rectangle of 5000 × 2500 turned by atan(3/4)
    corners = [(4000.0, 1000.0), (0.0, 4000.0), (1500.0, 6000.0), (5500.0, 3000.0)]
    sides = plan_sketch.closed(corners)
    assert sorted((s.x_mm, s.y_mm) for s in sides) in (
        [(0.0, 0.0), (0.0, 2500.0), (5000.0, 0.0), (5000.0, 2500.0)],
        [(0.0, 0.0), (0.0, 5000.0), (2500.0, 0.0), (2500.0, 5000.0)],
    )
    assert sides[0].kind == "house wall"


def test_a_side_that_is_named_takes_the_pitch_of_the_others():
    sides = plan_sketch.closed(L_SHAPE, pitch_deg=20.0)
    verge = plan_changes.named(sides, 1, SideKind.VERGE)
    assert verge[1].pitch_deg is None
    assert plan_changes.named(verge, 1, SideKind.BOX_GUTTER)[1].pitch_deg == 20.0
    assert [s.pitch_deg for s in plan_changes.pitched(verge, None, 25.0)][:3] == [None, None, 25.0]
    assert [s.pitch_deg for s in plan_changes.pitched(verge, 2, 25.0)][2:4] == [25.0, 20.0]


def _corners(sides):
    return [(side.x_mm, side.y_mm) for side in sides]


def test_a_side_moves_out_and_its_neighbours_keep_their_directions():
    sides = plan_sketch.closed(L_SHAPE)
    assert _corners(plan_changes.side_moved(sides, 4, 500.0)) == [
        *L_SHAPE[:4],
        (2000.0, 4500.0),
        (5000.0, 4500.0),
    ]


def test_the_right_hand_end_of_the_wall_stays_the_origin():
    sides = plan_changes.side_moved(plan_sketch.closed(L_SHAPE), 1, 300.0)
    assert _corners(sides)[:3] == [(5300.0, 0.0), (0.0, 0.0), (0.0, 2500.0)]
    moved = plan_changes.corner_moved(plan_sketch.closed(L_SHAPE), 2, (-100.0, 2500.0))
    assert _corners(moved)[2] == (-100.0, 2500.0)


def test_a_length_typed_for_a_side_takes_the_next_side_along():
    sides = plan_changes.lengthened(plan_sketch.closed(L_SHAPE), 2, 2200.0)
    assert _corners(sides)[3:5] == [(2200.0, 2500.0), (2200.0, 4000.0)]
