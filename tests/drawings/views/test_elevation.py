import math

import numpy as np
import pytest

from roofmodel.drawings.views import elevation
from roofmodel.drawings.views.elevation import Edge, Side
from roofmodel.shapes import plan
from roofmodel.shapes.footprint import Footprint
from roofmodel.shapes.roof import LineKind
from tests.drawings import drawn

EAVES = drawn.EAVES_MM
LOOKING = {
    Side.FRONT: (0, -1, 0),
    Side.REAR: (0, 1, 0),
    Side.LEFT: (-1, 0, 0),
    Side.RIGHT: (1, 0, 0),
}


def wing_roof():
    return plan.with_wing(
        5000,
        2500,
        wing_width_mm=2400,
        wing_projection_mm=2000,
        from_right_mm=1000,
        pitch_deg=25,
    ).roof(eaves_height_mm=EAVES)


def lines(seen, kind):
    return [line for line in seen.lines if line.kind is kind]


def reach(line):
    """Return a line from left to right, rounded, whichever way it runs."""
    return sorted(tuple(round(value) for value in spot) for spot in (line.start, line.end))


def test_the_front_of_a_lean_to_shows_its_width_and_heights():
    roof = drawn.roof_of(drawn.SHAPES["lean-to"])
    seen = elevation.seen_from(roof, Side.FRONT)

    rise = 2800 * math.tan(math.radians(15))
    assert seen.width_mm == pytest.approx(4000)
    assert seen.height_mm == pytest.approx(EAVES + rise)
    assert [reach(line) for line in lines(seen, LineKind.EAVES)] == [[(0, 2100), (4000, 2100)]]
    (top,) = lines(seen, LineKind.HOUSE_WALL)
    assert reach(top) == [(0, round(EAVES + rise)), (4000, round(EAVES + rise))]
    assert [facet.area_m2 for facet in seen.facets] == [pytest.approx(4.0 * rise / 1000)]


def test_right_and_left_are_as_seen_from_where_one_stands():
    """From the left the house is at the left; F1, on the right-hand side, is not seen."""
    roof = drawn.roof_of()
    left, right = (elevation.seen_from(roof, side) for side in (Side.LEFT, Side.RIGHT))

    assert [f.name for f in left.facets] == ["F4", "F5"]
    assert [f.name for f in right.facets] == ["F1", "F2"]
    assert reach(lines(left, LineKind.RIDGE)[0])[0][0] == 0
    assert reach(lines(right, LineKind.RIDGE)[0])[-1][0] == 3600
    front = elevation.seen_from(roof, Side.FRONT)
    by_name = {f.name: np.mean([x for x, _ in f.outline]) for f in front.facets}
    assert by_name["F4"] < by_name["F3"] < by_name["F2"]


@pytest.mark.parametrize("side", Side)
@pytest.mark.parametrize("name", drawn.SHAPES)
def test_areas_are_as_projected_and_only_of_facets_turned_to_the_viewer(name, side):
    roof = drawn.roof_of(drawn.SHAPES[name])
    seen = {f.name: f.area_m2 for f in elevation.seen_from(roof, side).facets}

    for facet in roof.facets:
        towards = -float(np.dot(facet.plane.normal, LOOKING[side]))
        if towards > 1e-6:
            assert seen.pop(facet.name) == pytest.approx(facet.area_m2 * towards, rel=1e-6)
    assert seen == {}


@pytest.mark.parametrize("side", Side)
@pytest.mark.parametrize("name", [*drawn.SHAPES, "wing"])
def test_every_line_lies_on_the_drawing_and_the_floor_runs_from_end_to_end(name, side):
    roof = wing_roof() if name == "wing" else drawn.roof_of(drawn.SHAPES[name])
    seen = elevation.seen_from(roof, side)

    spots = np.array([spot for line in seen.lines for spot in (line.start, line.end)])
    assert spots.min(axis=0) == pytest.approx([0, 0], abs=1e-6)
    assert spots.max(axis=0) == pytest.approx([seen.width_mm, seen.height_mm], abs=1e-6)
    floor = sum(math.dist(line.start, line.end) for line in lines(seen, Edge.FLOOR))
    assert floor == pytest.approx(seen.width_mm, abs=0.1)
    assert len({(line.kind, *reach(line)) for line in seen.lines}) == len(seen.lines)


def test_a_wing_hides_the_eaves_behind_it():
    seen = elevation.seen_from(wing_roof(), Side.FRONT)

    # The wing stands 1000 to 3400 from the right-hand end: 1600 to 4000 from the left on paper.
    eaves = sorted((reach(line), line.facet) for line in lines(seen, LineKind.EAVES))
    assert eaves == [
        ([(0, 2100), (1600, 2100)], "F2"),
        ([(1600, 2100), (4000, 2100)], "F4"),
        ([(4000, 2100), (5000, 2100)], "F2"),
    ]
    # Its valleys lie right behind its hips: one line, and the hip is the nearer.
    assert lines(seen, LineKind.VALLEY) == []
    assert len(lines(seen, LineKind.HIP)) == 4


def test_a_line_partly_hidden_is_cut_where_it_is_covered():
    """Two wings, the right-hand one longer: from the left the other stands before its eaves."""
    range_and_wings = [(6000, 0), (0, 0), (0, 4500), (2000, 4500), (2000, 2000), (4000, 2000)]
    corners = (*range_and_wings, (4000, 3000), (6000, 3000))
    roof = Footprint(
        corners_mm=tuple((float(x), float(y)) for x, y in corners),
        sides=(plan.WALL, *[plan.eaves(25)] * 7),
    ).roof(eaves_height_mm=EAVES)
    seen = elevation.seen_from(roof, Side.LEFT)

    assert sorted(reach(line) for line in lines(seen, LineKind.EAVES)) == [
        [(0, 2100), (3000, 2100)],
        [(3000, 2100), (4500, 2100)],
    ]


def test_from_the_rear_only_the_closed_wall_against_the_house_is_seen():
    seen = elevation.seen_from(wing_roof(), Side.REAR)

    assert {line.kind for line in seen.lines} == {LineKind.HOUSE_WALL, Edge.FLOOR, Edge.CORNER}


def test_an_upright_face_beside_higher_eaves_closes_the_wall():
    roof = plan.rectangle(
        4000,
        4000,
        rear=plan.box_gutter(22, level_mm=300),
        right=plan.eaves(22),
        front=plan.eaves(22),
        left=plan.eaves(22),
    ).roof(eaves_height_mm=EAVES)
    seen = elevation.seen_from(roof, Side.REAR)

    assert len(lines(seen, LineKind.UPSTAND)) == 2
    floor = sum(math.dist(line.start, line.end) for line in lines(seen, Edge.FLOOR))
    assert floor == pytest.approx(4000, abs=0.1)
    # Three pieces of one wall: no upright between them, one at each end.
    assert sorted(reach(line)[0][0] for line in lines(seen, Edge.CORNER)) == [0, 4000]
