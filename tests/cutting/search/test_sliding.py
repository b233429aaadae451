"""Corners as functions of joints and row edges, against boards that are clipped anew."""

import numpy as np
import pytest
import shapely

from roofmodel.cutting.laying.from_facets import boardings
from roofmodel.cutting.laying.rule import rules_for
from roofmodel.cutting.search.sliding import Sliding, turned, turned_over
from tests.cutting import made

NOTCHED = made.FlatFacet(
    "F1", ((0, 0), (5200, 0), (5200, 2600), (3400, 2600), (2600, 1700), (1800, 2600), (700, 2600))
)


def ways(facets, good=None, **rules):
    good = good or made.good()
    found = boardings(facets, good, rules_for(good, **rules), job_code="R")
    return found, tuple(way.fewest(way.divisions[0]) for way in found)


def roofs():
    return [made.roof(job).facets for job in ("J01", "J04", "J06", "J07")] + [[NOTCHED]]


def shapes(sliding, numbers):
    return {mark: shapely.Polygon(at @ numbers) for mark, at in sliding.corners.items()}


def boards(state):
    """Return the boards by the mark of their part; those of mirror images are mirrored here."""
    found = {}
    for rows in state:
        for row in rows:
            for board, part in zip(row.boards, row.parts, strict=True):
                found[part.mark] = shapely.Polygon(board.corners_mm)
    return found


@pytest.mark.parametrize("facets", roofs())
def test_corners_are_where_the_boards_are(facets):
    boardings_, state = ways(facets)
    sliding = Sliding(boardings_, state)

    for mark, shape in shapes(sliding, sliding.numbers).items():
        board = boards(state)[mark]
        # The mirror image of a facet has the same boards elsewhere along, mirrored.
        moved = [x - shape.bounds[0] + board.bounds[0] for x, _ in shape.exterior.coords]
        assert shapely.Polygon(
            list(zip(moved, [y for _, y in shape.exterior.coords], strict=True))
        ).symmetric_difference(board).area == pytest.approx(0.0, abs=20.0)


@pytest.mark.parametrize("facets", roofs())
@pytest.mark.parametrize("seed", range(5))
def test_corners_move_as_the_boards_do_that_are_clipped_anew(facets, seed):
    boardings_, state = ways(facets)
    sliding = Sliding(boardings_, state)
    generator = np.random.default_rng(seed)
    slid = sliding.numbers.copy()
    slid[:-1] += generator.uniform(-15, 15, len(slid) - 1).round(1)

    other = sliding.state_at(slid)

    assert other is not None
    parts = sliding.parts_in(other)
    wanted = boards(other)
    for mark, shape in shapes(sliding, slid).items():
        board = wanted[parts[mark].mark]
        assert shape.area == pytest.approx(board.area, rel=1e-6, abs=20.0)
        sides = [(q[2] - q[0], q[3] - q[1]) for q in (shape.bounds, board.bounds)]
        assert sides[0] == pytest.approx(sides[1], abs=0.02)


@pytest.mark.parametrize("facets", roofs())
def test_rules_hold_where_they_are_kept(facets):
    sliding = Sliding(*ways(facets))

    assert (sliding.rules() @ sliding.numbers).min() >= -1e-9


def test_rules_say_how_far_a_joint_may_go():
    # One row of 3,000 mm, jointed at 2,441.5 as whole boards first: the piece at the left is as
    # long as a board, the one at the right may become as short as 250 mm.
    strip = made.FlatFacet("F1", ((0, 0), (3000, 0), (3000, 1000), (0, 1000)))
    sliding = Sliding(*ways([strip]))
    assert len(sliding.numbers) == 2

    def broken(joint):
        return (sliding.rules() @ np.array([joint, 1.0])).min() < -1e-6

    assert not broken(2441.5)
    assert broken(2441.6)
    assert not broken(1000.0)
    assert not broken(558.5)
    assert broken(558.4)


def test_rows_and_joints_stay_where_the_rules_fix_them():
    facets = made.roof("J07").facets
    good = made.good()
    rules = rules_for(good, joints="supports", rows="whole")
    found = boardings(facets, good, rules, job_code="J07", supports_mm=made.SUPPORTS["J07"])
    sliding = Sliding(found, tuple(way.fewest(way.divisions[0]) for way in found))

    assert sliding.numbers.tolist() == [1.0]


def test_turning_keeps_the_area_and_its_sign():
    sliding = Sliding(*ways(made.roof("J06").facets))
    for corners in sliding.corners.values():
        before = shapely.Polygon(corners @ sliding.numbers)
        for degrees in (0, 90, 180, 270):
            for way in (turned(corners, degrees), turned(turned_over(corners), degrees)):
                after = shapely.Polygon(way @ sliding.numbers)
                assert after.area == pytest.approx(before.area)
                assert shapely.is_ccw(after.exterior) == shapely.is_ccw(before.exterior)
