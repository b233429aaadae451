"""Laws every roof keeps, on random shapes; areas and watertightness measured by trimesh."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given

from roofmodel.geometry import trimesh_of
from roofmodel.shapes import solid
from roofmodel.shapes.gable import Gable
from roofmodel.shapes.hipped import Hipped
from roofmodel.shapes.lean_to import LeanTo
from roofmodel.shapes.polygonal_end import PolygonalEnd
from roofmodel.shapes.roof import LineKind
from tests import strategies


def built(shape):
    return shape.roof(eaves_height_mm=2100.0)


@given(shape=strategies.shapes)
def test_facet_areas_seen_from_above_add_up_to_the_plan(shape):
    roof = built(shape)
    plan = shapely.union_all([shapely.Polygon([c[:2] for c in f.corners]) for f in roof.facets])

    assert roof.plan_area_m2 == pytest.approx(plan.area / 1e6, abs=1e-6)
    for facet in roof.facets:
        flattened = facet.area_m2 * math.cos(math.radians(facet.pitch_deg))
        assert flattened == pytest.approx(facet.plan_area_m2, abs=1e-6)


@given(shape=strategies.shapes)
def test_every_corner_lies_in_the_plane_of_its_facet_to_a_hundredth_of_a_millimetre(shape):
    for facet in built(shape).facets:
        assert max(abs(facet.plane.distance_mm(c)) for c in facet.corners) < 0.01
        flat = facet.outline_mm
        assert facet.frame.raise_up(flat) == pytest.approx(np.array(facet.corners), abs=1e-6)
        assert shapely.Polygon(flat).exterior.is_ccw
        assert shapely.Polygon(flat).area / 1e6 == pytest.approx(facet.area_m2, abs=1e-6)


@given(shape=strategies.shapes)
def test_with_walls_and_floor_the_roof_is_watertight(shape):
    roof = built(shape)
    body = trimesh_of.body(solid.closed(roof))

    assert body.is_watertight
    assert body.is_winding_consistent
    assert body.euler_number == 2
    assert trimesh_of.body(solid.skin(roof)).area / 1e6 == pytest.approx(roof.area_m2, abs=1e-6)
    prism_m3 = roof.plan_area_m2 * roof.eaves_height_mm / 1000
    assert prism_m3 < body.volume / 1e9 < prism_m3 + roof.plan_area_m2 * roof.rise_mm / 1000


@given(shape=strategies.shapes)
def test_every_side_of_a_facet_is_a_line_of_the_roof(shape):
    roof = built(shape)
    sides = sum(len(f.edges) for f in roof.facets)
    shared = [line for line in roof.lines if line.kind.shared]

    assert sides == len(roof.lines) + len(shared)
    assert all(len(line.facets) == (2 if line.kind.shared else 1) for line in roof.lines)
    assert all(line.length_mm > 0 for line in roof.lines)


@given(shape=strategies.shapes)
def test_building_a_shape_twice_gives_the_same_roof(shape):
    assert built(shape) == built(shape)


@given(shape=strategies.shapes)
def test_a_facet_is_seen_from_outside_with_its_slope_upwards(shape):
    for facet in built(shape).facets:
        frame = facet.frame
        outward = np.cross(frame.right, frame.up)
        assert outward == pytest.approx(np.array(facet.plane.normal), abs=1e-9)
        assert frame.up[2] > 0
        assert facet.outline_mm[:2, 1] == pytest.approx([0, 0], abs=1e-6)
        assert facet.outline_mm.min(axis=0) == pytest.approx([0, 0], abs=1e-6)


def test_a_mirrored_hipped_roof_has_the_same_areas_the_other_way_round():
    fields = {"width_mm": 3600, "projection_mm": 3900, "front_pitch_deg": 32}
    one = built(Hipped(**fields, left_pitch_deg=20, right_pitch_deg=28))
    other = built(Hipped(**fields, left_pitch_deg=28, right_pitch_deg=20))

    areas = [facet.area_m2 for facet in one.facets]
    assert [f.area_m2 for f in other.facets] == pytest.approx(areas[::-1], abs=1e-9)


def test_facets_are_numbered_clockwise_from_above_beginning_at_the_right_hand_side():
    """Seen looking at the house, x = 0 is the right-hand end of its wall."""
    roof = built(PolygonalEnd(width_mm=3500, projection_mm=3600, pitch_deg=25, end_facets=3))
    centres = [facet.centre for facet in roof.facets]
    inside = (1750.0, 1850.0)
    bearings = [math.atan2(x - inside[0], y - inside[1]) for x, y, _ in centres]

    assert centres[0][0] < inside[0] < centres[-1][0]
    assert bearings == sorted(bearings)
    assert [f.name for f in roof.facets] == ["F1", "F2", "F3", "F4", "F5"]


def test_a_lean_to_is_seen_with_the_house_wall_at_the_top():
    facet = built(LeanTo(width_mm=4000, projection_mm=2800, pitch_deg=15)).facet("F1")

    assert [edge.kind for edge in facet.edges] == [
        LineKind.EAVES,
        LineKind.VERGE,
        LineKind.HOUSE_WALL,
        LineKind.VERGE,
    ]
    # Looking up the slope from outside, right is towards x = 0.
    assert facet.frame.right == (-1.0, 0.0, 0.0)


def test_the_wall_end_of_a_right_hand_facet_lies_on_its_right():
    facet = built(
        Gable(width_mm=3800, projection_mm=4200, left_pitch_deg=30, right_pitch_deg=30)
    ).facet("F1")

    assert facet.edges[1].kind is LineKind.HOUSE_WALL
    assert facet.frame.right == (0.0, -1.0, 0.0)
