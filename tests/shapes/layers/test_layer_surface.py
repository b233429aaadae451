"""Surfaces and edges of layers: closed forms by hand, laws, volumes measured by trimesh."""

import math

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from roofmodel.foundation.errors import DimensionError
from roofmodel.geometry import trimesh_of
from roofmodel.shapes import plan, solid
from roofmodel.shapes.flat_edge import flat_edges, line_of
from roofmodel.shapes.hipped import Hipped
from roofmodel.shapes.layers import layer_body
from roofmodel.shapes.layers.edge_cut import Lean, OpenCuts, edge_cuts, into
from roofmodel.shapes.layers.layer_surface import (
    LayerPlace,
    OpenCut,
    facet_of_each_side,
    layer_roof,
)
from roofmodel.shapes.lean_to import LeanTo
from roofmodel.shapes.polygonal_end import PolygonalEnd
from roofmodel.shapes.roof import LineKind
from tests import strategies

J01 = LeanTo(width_mm=4000, projection_mm=2800, pitch_deg=15).footprint()
J04 = PolygonalEnd(width_mm=3500, projection_mm=3600, pitch_deg=25, end_facets=3).footprint()
J06 = Hipped(
    width_mm=3000, projection_mm=3400, left_pitch_deg=25, front_pitch_deg=35, right_pitch_deg=25
).footprint()
WING = plan.with_wing(
    6000, 3000, wing_width_mm=2500, wing_projection_mm=2000, from_right_mm=1500, pitch_deg=25
)
offsets_mm = st.floats(-120, 160)
cuts = st.sampled_from(OpenCut)


def at(footprint, offset_mm, cut=OpenCut.PLUMB, **options):
    place = LayerPlace(offset_mm=offset_mm, eaves_cut=cut, **options)
    return layer_roof(footprint, place, eaves_height_mm=2000)


def sin_cos_tan(degrees):
    angle = math.radians(degrees)
    return math.sin(angle), math.cos(angle), math.tan(angle)


@pytest.mark.parametrize("footprint", [J01, J04, J06, WING])
def test_at_offset_0_a_layer_is_the_datum_roof(footprint):
    assert at(footprint, 0.0) == footprint.roof(eaves_height_mm=2000)
    assert at(footprint, 0.0, OpenCut.SQUARE) == footprint.roof(eaves_height_mm=2000)


def test_a_plumb_cut_lean_to_has_the_same_area_at_every_offset():
    area = 4.0 * 2.8 / math.cos(math.radians(15))

    assert [at(J01, t).area_m2 for t in (-93.0, 18.0)] == pytest.approx([area] * 2, abs=1e-9)


def test_a_square_cut_lean_to_grows_along_the_slope_by_offset_times_the_tangent_of_its_pitch():
    tangent = sin_cos_tan(15)[2]
    for offset in (-93.0, 18.0):
        facet = at(J01, offset, OpenCut.SQUARE).facet("F1")
        expected = 2800 / math.cos(math.radians(15)) + offset * tangent
        assert facet.slope_length_mm == pytest.approx(expected, abs=1e-6)


def test_overhangs_are_taped_down_the_slope_and_level_past_the_verge():
    facet = at(J01, 18.0, eaves_overhang_mm=50.0, verge_overhang_mm=40.0).facet("F1")
    slope = 2800 / math.cos(math.radians(15)) + 50.0

    assert facet.slope_length_mm == pytest.approx(slope, abs=1e-6)
    assert facet.outline_mm[:, 0].max() == pytest.approx(4080.0, abs=1e-6)


@pytest.mark.parametrize("offset", [-93.0, 18.0, 118.0])
def test_j04_a_square_cut_layer_has_the_area_of_a_half_octagon_grown_by_its_eaves(offset):
    """By hand: two sides of 1850 and half an octagon about a circle as wide as the roof.

    The circle's radius grows by offset · sin 25°, the ridge does not.
    """
    sine, cosine, _ = sin_cos_tan(25)
    radius = 1750 + offset * sine
    area = (2 * radius * 1850 + 4 * radius**2 * math.tan(math.pi / 8)) / cosine

    assert at(J04, offset, OpenCut.SQUARE).area_m2 == pytest.approx(area / 1e6, abs=1e-9)
    assert at(J04, offset).area_m2 == pytest.approx(at(J04, 0.0).area_m2, abs=1e-9)


@pytest.mark.parametrize("offset", [-93.0, 18.0])
def test_j06_the_ridge_of_a_plumb_cut_layer_ends_where_its_two_planes_are_as_high(offset):
    """By hand: 1500 tan 25 + t / cos 25 = run · tan 35 + t / cos 35."""
    _, cos25, tan25 = sin_cos_tan(25)
    _, cos35, tan35 = sin_cos_tan(35)
    run = (1500 * tan25 + offset / cos25 - offset / cos35) / tan35
    roof = at(J06, offset)

    assert roof.lines_of(LineKind.RIDGE)[0].length_mm == pytest.approx(3400 - run, abs=0.01)
    assert roof.plan_area_m2 == pytest.approx(10.2, abs=1e-9)


def test_neighbours_of_unequal_thickness_meet_at_the_eaves_in_a_short_upright():
    """By hand: plumb layers of 18 and 58 at 25°; the lower one climbs by 40 / cos 25°."""
    square_corners = Hipped(
        width_mm=3000, projection_mm=3400, left_pitch_deg=25, front_pitch_deg=25, right_pitch_deg=25
    ).footprint()
    roof = at(square_corners, 18.0, facet_offsets_mm={"F2": 58.0})
    climb = 40 / math.cos(math.radians(25))
    uprights = roof.lines_of(LineKind.UPSTAND)

    assert [line.facets for line in uprights] == [("F1",), ("F3",)]
    for line in uprights:
        assert line.end[2] - line.start[2] == pytest.approx(climb, abs=0.01)
        assert line.plan_length_mm == pytest.approx(climb / math.tan(math.radians(25)), abs=0.01)


def test_at_an_inner_corner_the_thinner_layer_ends_under_the_foot_of_the_thicker():
    roof = at(WING, 18.0, facet_offsets_mm={"F3": 58.0})
    lap = [line for line in roof.lines_of(LineKind.UPSTAND) if line.facets == ("F2",)]

    assert len(lap) == 1
    rise = 40 / math.cos(math.radians(25))
    assert lap[0].end[2] - lap[0].start[2] == pytest.approx(rise, abs=0.01)
    assert lap[0].start == pytest.approx((1500, 3000, 18 / math.cos(math.radians(25))), abs=0.01)
    assert roof.plan_area_m2 == pytest.approx(WING.roof(eaves_height_mm=0).plan_area_m2, abs=1e-9)


@settings(max_examples=60, deadline=None)
@given(shape=strategies.shapes, offset=offsets_mm, cut=cuts)
def test_every_facet_lies_parallel_to_the_datum_at_exactly_its_offset(shape, offset, cut):
    footprint = shape.footprint()
    datum = footprint.roof(eaves_height_mm=2000)
    try:
        layer = at(footprint, offset, cut)
    except DimensionError:
        assume(False)
    assert [facet.name for facet in layer.facets] == [facet.name for facet in datum.facets]
    for one, other in zip(layer.facets, datum.facets, strict=True):
        assert one.plane.normal == pytest.approx(other.plane.normal, abs=1e-12)
        for corner in one.corners:
            assert other.plane.distance_mm(corner) == pytest.approx(offset, abs=0.011)
    assert trimesh_of.body(solid.closed(layer)).is_watertight


@settings(max_examples=40, deadline=None)
@given(offset=offsets_mm, cut=cuts)
def test_equal_pitches_keep_hips_and_ridges_in_the_same_plan_line(offset, cut):
    datum, layer = at(WING, 0.0), at(WING, offset, cut)
    for kind in (LineKind.HIP, LineKind.VALLEY, LineKind.RIDGE):
        for one, other in zip(datum.lines_of(kind), layer.lines_of(kind), strict=True):
            start, end = (np.array(p[:2]) for p in (one.start, one.end))
            along = (end - start) / np.linalg.norm(end - start)
            for spot in (other.start, other.end):
                away = np.array(spot[:2]) - start
                assert along[0] * away[1] - along[1] * away[0] == pytest.approx(0, abs=0.01)


@pytest.mark.parametrize("cut", OpenCut)
def test_areas_grow_or_shrink_steadily_with_the_offset(cut):
    steps = [-120.0, -60.0, 0.0, 60.0, 120.0]
    for footprint in (J04, J06, WING):
        areas = np.array([[f.area_m2 for f in at(footprint, t, cut).facets] for t in steps])
        change = np.diff(areas, axis=0)
        assert ((change >= -1e-7).all(axis=0) | (change <= 1e-7).all(axis=0)).all()
        if cut is OpenCut.SQUARE:
            assert (change.sum(axis=1) > 0).all()


@settings(max_examples=40, deadline=None)
@given(
    footprint=st.sampled_from([J01, J04, J06, WING]),
    offset=st.floats(-100, 60),
    thickness=st.floats(5, 120),
    cut=cuts,
    overhang=st.sampled_from([0.0, 50.0]),
)
def test_the_body_of_a_layer_is_the_area_integral_over_its_thickness(
    footprint, offset, thickness, cut, overhang
):
    """Areas are quadratic in the offset, so Simpson's rule is exact; the volume is trimesh's."""
    low, middle, high = (
        at(footprint, offset + share * thickness, cut, eaves_overhang_mm=overhang)
        for share in (0.0, 0.5, 1.0)
    )
    body = trimesh_of.body(layer_body.between(low, high))
    expected = thickness * (low.area_m2 + 4 * middle.area_m2 + high.area_m2) / 6 / 1000

    assert body.is_watertight
    assert body.is_winding_consistent
    # Corners nearer than 0.05 mm are one corner, which may thin a layer by a micrometre.
    assert body.volume / 1e9 == pytest.approx(expected, rel=2e-5, abs=1e-6 * low.area_m2)


def test_what_cannot_be_built_is_refused_in_words():
    with pytest.raises(DimensionError, match=r"There is no facet F9 .*Choose one of F1"):
        at(J01, 18.0, facet_offsets_mm={"F9": 1.0})
    with pytest.raises(DimensionError, match="layer's offset of 18000 mm is not possible"):
        at(J01, 18000.0)
    with pytest.raises(DimensionError, match="offset of no number"):
        at(J01, math.nan)
    short_wing = plan.with_wing(
        6000, 3000, wing_width_mm=2500, wing_projection_mm=100, from_right_mm=1500, pitch_deg=25
    )
    with pytest.raises(DimensionError, match=r"Side . of the footprint is too short"):
        at(short_wing, 0.0, OpenCut.SQUARE, facet_offsets_mm={"F4": -900.0})
    with pytest.raises(DimensionError, match="cannot be built like the datum roof"):
        at(J06, 0.0, facet_offsets_mm={"F2": 999.0})


def test_the_place_is_printed_with_every_figure():
    place = LayerPlace(offset_mm=18, eaves_overhang_mm=50, facet_offsets_mm={"F2": -93})
    assert place.words == (
        "surface -93 and +18 mm from the datum (positive outwards), eaves plumb, eaves overhang 50"
    )


def test_every_sloping_side_knows_its_facet():
    roof = WING.roof(eaves_height_mm=2000)
    assert facet_of_each_side(WING, roof) == (None, "F1", "F2", "F3", "F4", "F5", "F2", "F6")


def leans(roof, name, **options):
    """Return lean and bevel by kind of edge; edges of one kind have one cut in these roofs."""
    found = edge_cuts(roof, roof.facet(name), **options)
    return {cut.kind: (cut.lean, round(cut.bevel_deg, 2)) for cut in found}


def test_j04_boards_are_bevelled_by_half_the_angle_between_the_facets():
    """Acceptance job J04: hips 9.31, ridge 25.00; the eaves are cut plumb, the wall runs up."""
    roof = J04.roof(eaves_height_mm=2000)

    assert leans(roof, "F1") == {
        LineKind.EAVES: (Lean.OUTWARD, 25.0),
        LineKind.HOUSE_WALL: (Lean.SQUARE, 0.0),
        LineKind.RIDGE: (Lean.INWARD, 25.0),
        LineKind.HIP: (Lean.INWARD, 9.31),
    }
    hips = [c for c in edge_cuts(roof, roof.facet("F2")) if c.kind is LineKind.HIP]
    # Half the apex angle of a cant, 20.58, is what a saw is swung for a board along the eaves.
    assert [cut.mitre_deg for cut in hips] == pytest.approx([20.58] * 2, abs=0.01)


def test_a_board_at_the_house_wall_is_cut_under_by_the_pitch_or_left_square():
    roof = J01.roof(eaves_height_mm=2000)

    assert leans(roof, "F1")[LineKind.HOUSE_WALL] == (Lean.INWARD, 15.0)
    square = OpenCuts(eaves=OpenCut.SQUARE, wall=OpenCut.SQUARE)
    assert set(leans(roof, "F1", cuts=square).values()) == {(Lean.SQUARE, 0.0)}


def test_a_valley_leans_outward():
    """By hand: at a square corner the normals turn by the angle whose cosine is cos² 25°."""
    assert leans(WING.roof(eaves_height_mm=2000), "F3")[LineKind.VALLEY] == (Lean.OUTWARD, 17.39)


@settings(max_examples=40, deadline=None)
@given(thick=st.floats(10, 120), ratio=st.floats(0.3, 2.0), footprint=st.sampled_from([J06, WING]))
def test_boards_of_unequal_thickness_meet_where_their_inside_faces_do(thick, ratio, footprint):
    """The lean follows from two surfaces built one under the other, corner by corner."""
    datum = footprint.roof(eaves_height_mm=2000)
    depths = {f.name: thick * (ratio if f.name == "F2" else 1.0) for f in datum.facets}
    inside = at(footprint, -thick, facet_offsets_mm={n: -d for n, d in depths.items()})
    for facet in datum.facets:
        found = edge_cuts(datum, facet, thickness_mm=depths)
        for edge, cut in zip(flat_edges(facet), found, strict=True):
            if cut.kind not in (LineKind.HIP, LineKind.VALLEY):
                continue
            pair = set(line_of(datum, facet, edge.number).facets)
            below = next(line for line in inside.lines if set(line.facets) == pair)
            away = np.array(below.end) - np.array(facet.corners[edge.number])
            step = float(away @ into(facet, edge.number))
            sign = {Lean.INWARD: 1, Lean.OUTWARD: -1, Lean.SQUARE: 0}[cut.lean]
            expected = sign * depths[facet.name] * math.tan(math.radians(cut.bevel_deg))
            assert step == pytest.approx(expected, abs=0.05)
