import itertools
import math

import pytest
import shapely

from roofmodel.drawings.views import cross_section
from roofmodel.foundation.errors import DimensionError
from roofmodel.geometry.plane import Plane
from roofmodel.shapes import plan
from roofmodel.shapes.roof import Facet, LineKind, Roof
from tests.drawings import drawn

LEAN_TO = drawn.roof_of(drawn.SHAPES["lean-to"])  # 4000 along the wall, 2800 out, 15°
LEAN_TO_RISE = 2800 * math.tan(math.radians(15))
EAVES = drawn.EAVES_MM


def wing_roof():
    footprint = plan.with_wing(
        5000,
        2500,
        wing_width_mm=2400,
        wing_projection_mm=2000,
        from_right_mm=1200,
        pitch_deg=25,
    )
    return footprint.roof(eaves_height_mm=EAVES)


def spots(*expected):
    return [pytest.approx(spot, abs=0.01) for spot in expected]


def test_a_lean_to_cut_square_to_the_wall_shows_its_true_pitch():
    section = cross_section.cut(LEAN_TO, (1500, 2800), (1500, 0))

    (stretch,) = section.stretches
    assert stretch.facets == ("F1",)
    assert stretch.pitch_deg == pytest.approx(15.0, abs=1e-6)
    assert list(section.profiles[0]) == spots((0, EAVES), (2800, EAVES + LEAN_TO_RISE))
    assert [c.kind for c in section.crossings] == [LineKind.EAVES, LineKind.HOUSE_WALL]
    assert [(w.kinds, w.foot) for w in section.walls] == [
        ((LineKind.EAVES,), (0.0, 0.0)),
        ((LineKind.HOUSE_WALL,), pytest.approx((2800.0, 0.0))),
    ]
    assert section.ground == ((0.0, 0.0), (2800.0, 0.0))


def test_the_other_way_round_it_falls():
    section = cross_section.cut(LEAN_TO, (1500, 0), (1500, 2800))

    assert section.stretches[0].pitch_deg == pytest.approx(-15.0, abs=1e-6)


def test_a_lean_to_cut_parallel_to_the_wall_is_level():
    section = cross_section.cut(LEAN_TO, (-500, 700), (5000, 700))

    height = EAVES + 2100 * math.tan(math.radians(15))
    assert list(section.profiles[0]) == spots((500, height), (4500, height))
    assert section.stretches[0].pitch_deg == pytest.approx(0.0, abs=1e-9)
    assert [w.kinds for w in section.walls] == [(LineKind.VERGE,)] * 2


def test_a_slanting_cut_is_flatter_than_the_facet():
    section = cross_section.cut(LEAN_TO, (0, 2800), (2800, 0))

    flatter = math.degrees(math.atan(math.tan(math.radians(15)) / math.sqrt(2)))
    assert section.stretches[0].pitch_deg == pytest.approx(flatter, abs=1e-6)


def test_a_cut_over_a_hip_shows_the_facets_on_both_sides():
    roof = drawn.roof_of(drawn.SHAPES["hipped"])  # 25° sides, 35° front
    section = cross_section.cut(roof, (400, -100), (400, 4000))

    assert [s.facets for s in section.stretches] == [("F1",), ("F2",)]
    (hip,) = [c for c in section.crossings if c.kind is LineKind.HIP]
    assert sorted(hip.facets) == ["F1", "F2"]
    high = EAVES + 400 * math.tan(math.radians(25))
    # The front is steeper, so that its facet is as high nearer to its eaves than 400 mm.
    out = 3400 - 400 * math.tan(math.radians(25)) / math.tan(math.radians(35))
    assert hip.at == pytest.approx((out + 100, high), abs=0.01)
    assert section.stretches[0].pitch_deg == pytest.approx(0.0, abs=1e-6)
    assert section.stretches[1].pitch_deg == pytest.approx(-35.0, abs=1e-6)
    assert list(section.profiles[0]) == spots((100, high), (out + 100, high), (3500, EAVES))


def test_a_cut_along_the_ridge_names_both_facets_and_goes_on_down_the_end():
    roof = drawn.roof_of()
    section = cross_section.cut(roof, (1750, 0), (1750, 3600))

    assert [s.facets for s in section.stretches] == [("F1", "F5"), ("F3",)]
    assert section.stretches[0].pitch_deg == pytest.approx(0.0, abs=1e-6)
    assert section.stretches[1].pitch_deg == pytest.approx(-25.0, abs=1e-6)
    assert {c.kind for c in section.crossings if c.kind.shared} == {LineKind.HIP}


def test_a_cut_along_a_verge_or_the_eaves_follows_it():
    verge = cross_section.cut(LEAN_TO, (0, -300), (0, 3100))
    eaves = cross_section.cut(LEAN_TO, (0, 2800), (4000, 2800))

    assert list(verge.profiles[0]) == spots((300, EAVES + LEAN_TO_RISE), (3100, EAVES))
    assert [w.kinds for w in verge.walls] == [(LineKind.HOUSE_WALL,), (LineKind.EAVES,)]
    assert list(eaves.profiles[0]) == spots((0, EAVES), (4000, EAVES))


def test_a_cut_that_starts_on_the_roof_starts_there_without_a_wall():
    section = cross_section.cut(LEAN_TO, (2000, 1400), (2000, 2900))

    assert section.profiles[0][0] == pytest.approx((0.0, EAVES + LEAN_TO_RISE / 2), abs=0.01)
    assert [w.kinds for w in section.walls] == [(LineKind.EAVES,)]


def test_a_cut_that_leaves_the_roof_and_comes_back_has_two_profiles():
    roof = wing_roof()
    # Slanting over an inner corner: off the range, through open air, over the wing.
    section = cross_section.cut(roof, (-200, 2200), (1800, 4800))

    assert len(section.profiles) == 2
    assert [w.kinds for w in section.walls] == [(LineKind.EAVES,)] * 4
    for profile in section.profiles:
        assert profile[0][1] == pytest.approx(EAVES, abs=0.01)
        assert profile[-1][1] == pytest.approx(EAVES, abs=0.01)


def test_a_cut_over_a_valley_dips_there():
    roof = wing_roof()
    section = cross_section.cut(roof, (0, 2000), (5000, 2000))

    valleys = [c.at for c in section.crossings if c.kind is LineKind.VALLEY]
    heights = [spot[1] for spot in section.profiles[0]]
    assert len(valleys) == 2
    assert all(at[1] == pytest.approx(EAVES + 500 * math.tan(math.radians(25))) for at in valleys)
    assert max(heights) > valleys[0][1] + 50


@pytest.mark.parametrize("name", drawn.SHAPES)
def test_profiles_are_as_long_as_the_line_lies_over_the_plan_and_lie_on_their_facets(name):
    roof = drawn.roof_of(drawn.SHAPES[name])
    footprint = shapely.union_all(
        [shapely.Polygon([c[:2] for c in f.corners]) for f in roof.facets], grid_size=0.001
    )
    for start, end in itertools.product([(-300, 500), (900, -50)], [(5000, 2100), (1700, 6000)]):
        section = cross_section.cut(roof, start, end)
        length = sum(s.end[0] - s.start[0] for s in section.stretches)
        inside = shapely.LineString([start, end]).intersection(footprint).length
        assert length == pytest.approx(inside, abs=0.05)
        for stretch, (distance, height) in (
            (s, spot) for s in section.stretches for spot in (s.start, s.end)
        ):
            share = distance / section.length_mm
            x, y = (a + share * (b - a) for a, b in zip(start, end, strict=True))
            for facet in stretch.facets:
                plane = roof.facet(facet).plane
                assert plane.distance_mm((x, y, height - EAVES)) == pytest.approx(0.0, abs=0.02)


def test_eaves_above_another_facet_make_a_step():
    upper = drawn.roof_of(drawn.SHAPES["lean-to"]).facets[0]
    raised = tuple((x + 4000, y, z + 250) for x, y, z in upper.corners)
    beside = Facet(
        name="F2",
        plane=Plane(upper.plane.normal, upper.plane.offset_mm + 250 * upper.plane.normal[2]),
        corners=raised,
        edges=upper.edges,
    )
    roof = Roof(facets=(upper, beside), lines=LEAN_TO.lines, eaves_height_mm=EAVES)
    section = cross_section.cut(roof, (0, 2800), (8000, 2800))

    assert section.profiles == (
        tuple(spots((0, EAVES), (4000, EAVES), (4000, EAVES + 250), (8000, EAVES + 250))),
    )


@pytest.mark.parametrize(
    ("start", "end", "words"),
    [
        ((-10, -500), (4000, -500), "does not cross the roof"),
        ((-1000, 0), (0, -1000), "does not cross the roof"),
        ((-10, 10), (10, -10), "does not cross the roof"),
        ((500, 500), (500, 500), "starts and ends at the same point"),
        ((math.nan, 0), (500, 500), "no position on the plan"),
    ],
)
def test_a_line_that_misses_the_roof_is_refused_in_words(start, end, words):
    with pytest.raises(DimensionError, match=words) as refused:
        cross_section.cut(LEAN_TO, start, end)

    assert refused.value.faults[0].field == "section"
    assert refused.value.faults[0].remedy
