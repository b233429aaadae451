"""Laws of lights on every facet of random roofs; shapely measures beside the check."""

import math

import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from roofmodel.refit.light import BattenRows, Ceiling, Light, LightFitting, LightVoid
from roofmodel.refit.light_check import clashes
from roofmodel.refit.light_layout import checked, in_bays
from roofmodel.refit.light_room import clear_region
from roofmodel.shapes.bars.bar_layout import FacetCorner, equal_spacing
from roofmodel.shapes.bars.member_cut import BarWidths
from tests.strategies import shapes

VOID = LightVoid(depth_mm=38.0)


@st.composite
def ceilings(draw):
    facets = draw(shapes).roof(eaves_height_mm=2100.0).facets
    facet = facets[draw(st.integers(0, len(facets) - 1))]
    spacing_mm = draw(st.floats(450.0, 1_100.0))
    rows_mm = draw(st.floats(250.0, 600.0))
    rows = tuple(rows_mm * i for i in range(int(facet.slope_length_mm / rows_mm) + 1))
    return Ceiling.of(
        facet,
        equal_spacing(facet, spacing_mm, corner=FacetCorner.LEFT),
        BarWidths.alike(60.0),
        BattenRows(rows_mm=rows, width_mm=50.0),
    )


fittings = st.builds(
    LightFitting,
    body_mm=st.floats(50.0, 110.0),
    depth_mm=st.just(35.0),
    clearance_mm=st.floats(0.0, 25.0),
)


@st.composite
def wishes(draw):
    ceiling = draw(ceilings())
    left, low, right, high = ceiling.shape.bounds
    spots = draw(
        st.lists(
            st.tuples(st.floats(left - 200, right + 200), st.floats(low - 200, high + 200)),
            min_size=1,
            max_size=5,
        )
    )
    lights = [Light(mark=f"L{i}", u_mm=u, v_mm=v) for i, (u, v) in enumerate(spots)]
    return ceiling, draw(fittings), lights


def room_left(ceiling, fitting, spot):
    """How much more room than needed a spot has, measured on whole shapes."""
    point = shapely.Point(spot)
    reach = fitting.body_mm / 2.0 + fitting.clearance_mm
    left, low, right, high = ceiling.shape.bounds
    bars = [
        point.distance(shapely.box(bar - 30.0, low - 500, bar + 30.0, high + 500))
        for bar in ceiling.bars_mm
    ]
    battens = [
        point.distance(shapely.box(left - 500, row - 25.0, right + 500, row + 25.0))
        for row in ceiling.battens.rows_mm
    ]
    sides = [
        point.distance(shapely.LineString([edge.start, edge.end])) - half
        for edge, half in zip(ceiling.edges, ceiling.half_members_mm, strict=True)
    ]
    return min([*bars, *battens, *sides]) - reach if ceiling.shape.covers(point) else -1.0


@settings(deadline=None, max_examples=60)
@given(wish=wishes())
def test_what_is_offered_stands_clear_of_everything(wish):
    ceiling, fitting, lights = wish
    report = checked(ceiling, fitting, VOID, lights)

    assert clashes(ceiling, fitting, report.arranged) == ()
    for light in report.arranged:
        assert room_left(ceiling, fitting, light.spot) >= -0.02


@settings(deadline=None, max_examples=60)
@given(wish=wishes())
def test_a_light_clashes_if_and_only_if_a_member_is_too_near(wish):
    ceiling, fitting, lights = wish
    for light in lights:
        room = room_left(ceiling, fitting, light.spot)
        if abs(room) > 0.05:
            assert bool(clashes(ceiling, fitting, [light])) == (room < 0.0)


@settings(deadline=None, max_examples=60)
@given(wish=wishes())
def test_no_light_is_left_out_while_there_is_clear_ground(wish):
    ceiling, fitting, lights = wish
    (light, *_) = lights
    report = checked(ceiling, fitting, VOID, [light])
    region = clear_region(ceiling, fitting)

    assert bool(report.arranged) == (region.area > 0.0)


@settings(deadline=None, max_examples=60)
@given(wish=wishes())
def test_a_single_light_goes_straight_up_or_down_the_slope_where_it_can(wish):
    ceiling, fitting, (light, *_) = wish
    up = shapely.LineString([(light.u_mm, -1e4), (light.u_mm, 1e5)])
    clear = shapely.intersection(up, clear_region(ceiling, fitting))
    report = checked(ceiling, fitting, VOID, [light])
    if max((part.length for part in shapely.get_parts(clear)), default=0.0) > 10.0:
        (placed,) = report.arranged
        assert placed.u_mm == light.u_mm
        nearest = shapely.distance(clear, shapely.Point(light.spot))
        assert math.dist(placed.spot, light.spot) <= nearest + 10.0


@settings(deadline=None, max_examples=40)
@given(ceiling=ceilings())
def test_lights_laid_out_evenly_lie_on_the_facet(ceiling):
    for light in in_bays(ceiling, (0.25, 0.75)):
        assert shapely.distance(ceiling.shape, shapely.Point(light.spot)) < 0.01
