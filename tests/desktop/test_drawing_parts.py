"""The plain functions below drawings, dimensions and the exaggerated plan."""

import math

import pytest
import shapely

pytest.importorskip("PySide6", reason="the window's modules need Qt")

from PySide6.QtCore import QRectF

from roofmodel.desktop.flat import elevation_picture, out_of_square, plan_picture, section_picture
from roofmodel.desktop.job import dimension
from roofmodel.desktop.job.dimension import Dimension
from roofmodel.desktop.kit import flat_picture, word_places
from roofmodel.drawings.views.elevation import Side
from roofmodel.foundation.errors import DimensionError
from roofmodel.workbench.job.reckoning import reckon


@pytest.fixture
def roof(sample):
    return lambda name: reckon(sample(name)).roof


def test_a_dimension_tells_true_plan_and_upright_length_and_pitch():
    # A right-angled box 300 × 400 × 1 200: plan 500, true 1 300.
    found = Dimension(start=(0.0, 0.0, 0.0), end=(300.0, 400.0, 1200.0))

    assert found.plan_mm == pytest.approx(500.0)
    assert found.upright_mm == pytest.approx(1200.0)
    assert found.true_mm == pytest.approx(1300.0)
    assert found.pitch_deg == pytest.approx(math.degrees(math.atan(2.4)))
    assert "true 1300.0" in found.text


def test_a_dimension_straight_up_has_a_pitch_of_a_right_angle():
    assert Dimension(start=(1.0, 1.0, 0.0), end=(1.0, 1.0, 9.0)).pitch_deg == 90.0


def test_every_corner_of_a_roof_is_there_once(roof):
    # Six plan corners but two at the house wall, the ridge's two ends: eight in all.
    assert len(dimension.corners(roof("three-facet-end"))) == 8


@pytest.mark.parametrize(
    ("at", "expected"), [((0, 0), 0), ((11, 0), 0), ((100, 112), 1), ((100, 113), None)]
)
def test_a_click_means_the_corner_within_twelve_pixels(at, expected):
    assert dimension.snapped([(0.0, 0.0), (100.0, 100.0)], at) == expected


def test_the_nearer_of_two_corners_is_meant():
    assert dimension.snapped([(0.0, 0.0), (8.0, 0.0)], (5.0, 0.0)) == 1
    assert dimension.snapped([], (5.0, 0.0)) is None


def test_a_drawing_is_centred_to_scale_and_can_be_read_back():
    place = flat_picture.placed((-1000.0, 0.0, 3000.0, 1000.0), QRectF(0, 0, 400, 300))

    assert place.scale == pytest.approx(0.1)
    middle = place.at((1000.0, 500.0))
    assert (middle.x(), middle.y()) == pytest.approx((200.0, 150.0))
    low = place.at((-1000.0, 0.0))
    assert (low.x(), low.y()) == pytest.approx((0.0, 200.0))
    assert flat_picture.spot_at(place, (0.0, 200.0)) == pytest.approx((-1000.0, 0.0))


def test_the_plan_has_the_house_wall_at_the_top_and_is_not_mirrored(roof):
    plan = plan_picture.picture(roof("three-facet-end"))
    by_name = {patch.words[0]: patch for patch in plan.patches if patch.words}
    middle = {name: shapely.Polygon(p.corners).centroid for name, p in by_name.items()}

    # Facing the house, F1 is at the right; F3 is at the front, below on paper.
    assert middle["F1"].x > middle["F5"].x
    assert middle["F3"].y < middle["F1"].y
    assert shapely.Polygon(by_name["F1"].corners).exterior.is_ccw


def test_plan_words_give_true_lengths(roof):
    words = [s.words[0] for s in plan_picture.picture(roof("three-facet-end")).strokes if s.words]

    assert sum(word.startswith("hip 2062.5") for word in words) == 4


def test_overall_dimensions_of_an_elevation(roof):
    front = elevation_picture.picture(roof("three-facet-end"), Side.FRONT)
    found = {o.name: o.end - o.start for o in front.overalls}

    assert found["width"] == pytest.approx(3500.0)
    assert found["eaves height"] == pytest.approx(2100.0)
    # Half the width 1 750 at 25°.
    assert found["rise"] == pytest.approx(1750.0 * math.tan(math.radians(25.0)))
    side = elevation_picture.picture(roof("three-facet-end"), Side.LEFT)
    assert {o.name: o.end - o.start for o in side.overalls}["projection"] == pytest.approx(3600.0)


@pytest.mark.parametrize("side", list(Side))
@pytest.mark.parametrize("name", ["three-facet-end", "double-hip", "wing", "lean-to"])
def test_whatever_is_seen_of_the_roof_is_known_again(roof, name, side):
    drawing = elevation_picture.picture(roof(name), side)
    kinds = {"eaves", "hip", "ridge", "valley", "verge", "box gutter", "house wall"}

    unknown = [s.note for s in drawing.strokes if s.note in kinds]

    assert unknown == []


def test_the_first_section_of_a_lean_to_shows_its_pitch(roof):
    lean_to = roof("lean-to")
    line = section_picture.default_line(lean_to)

    drawing = section_picture.picture(lean_to, line)

    assert line == ((2000.0, 2800.0), (2000.0, 0.0))
    (cut,) = [s for s in drawing.strokes if s.words]
    assert cut.words[-1] == "15.0°"
    run = {o.name: o.end - o.start for o in drawing.overalls}
    assert run["rise"] == pytest.approx(2800.0 * math.tan(math.radians(15.0)))


def test_a_section_beside_the_roof_is_refused_in_words(roof):
    with pytest.raises(DimensionError, match="does not go over the roof"):
        section_picture.picture(roof("lean-to"), ((-500.0, 0.0), (-500.0, 900.0)))


def test_deviations_are_from_the_mean_rectangle_and_are_drawn_ten_times():
    # Mean width (4 000 + 4 020) / 2 and mean projection (3 000 + 3 040) / 2, by hand.
    corners = [(4000.0, 0.0), (0.0, 0.0), (0.0, 3000.0), (4020.0, 3040.0)]

    found = out_of_square.deviations(corners, "ABCD")

    assert [d.regular for d in found] == [
        pytest.approx(p) for p in ((4010, 0), (0, 0), (0, 3020), (4010, 3020))
    ]
    assert [d.off for d in found] == [
        pytest.approx(p) for p in ((-10, 0), (0, 0), (0, -20), (10, 20))
    ]
    assert found[3].drawn() == pytest.approx((4110.0, 3220.0))
    assert [d.text for d in found] == ["A: 10 right", "B: 0", "C: 20 in", "D: 10 left, 20 out"]


def test_deviations_follow_a_house_wall_that_is_turned():
    turn = math.radians(30.0)

    def turned(x, y):
        return (
            x * math.cos(turn) - y * math.sin(turn),
            x * math.sin(turn) + y * math.cos(turn),
        )

    square = [turned(*p) for p in ((4000, 0), (0, 0), (0, 3000), (4000, 3000))]

    found = out_of_square.deviations(square, "ABCD")

    assert max(abs(mm) for d in found for mm in d.off) < 1e-6


def test_why_a_plan_has_no_square_to_compare_with(sample):
    corners = reckon(sample("three-facet-end")).footprint.corners_mm

    assert "this one has 6" in out_of_square.why_not(corners)
    assert "askew" in out_of_square.why_not([(3000, 0), (0, 0), (800, 2000), (2200, 2000)])
    assert out_of_square.why_not([(3000, 0), (0, 0), (0, 2000), (3020, 2010)]) == ""


def test_words_stand_where_nothing_else_is():
    line, size = ((0.0, 0.0), (200.0, 0.0)), (60.0, 10.0)
    free = word_places.beside(line, [("hip 100", size)], [], off_px=9.0)
    assert free.middle == pytest.approx((100.0, 9.0))

    taken = [free.ground]
    other = word_places.beside(line, [("hip 100", size)], taken, off_px=9.0)
    assert other.middle == pytest.approx((100.0, -9.0))

    wall = [shapely.box(-10.0, -30.0, 210.0, 30.0)]
    assert word_places.beside(line, [("hip 100", size)], wall, off_px=9.0) is None


def test_the_shorter_text_is_taken_where_the_longer_has_no_room():
    area = [(0.0, 0.0), (50.0, 0.0), (50.0, 20.0), (0.0, 20.0)]

    found = word_places.within(area, [("F1\n25°", (30.0, 25.0)), ("F1", (20.0, 12.0))], [])

    assert found.text == "F1"
