"""What boards cover of a facet: up to walls and to one another's faces, in space."""

import math
from dataclasses import replace

import numpy as np
import pytest

from roofmodel.cutting.laying.covered import clear_of_mitres, covered
from roofmodel.cutting.laying.rule import rules_for
from roofmodel.shapes.gable import Gable
from tests.cutting import made

J01_SLOPE_MM = 2800 / math.cos(math.radians(15))


def height_mm(facet, good, **choices):
    return covered(facet, rules_for(good, **choices)).outline_mm[:, 1].max()


def test_a_deck_ends_ten_millimetres_from_the_wall_at_its_inside_corner():
    # The wall is upright and the board square: 18 mm down, the wall is 18 · tan 15° nearer.
    facet = made.roof("J01").facets[0]
    deck = made.good(wall_gap_mm=10.0, reach_mm=(18.0, 0.0))

    assert height_mm(facet, deck) == pytest.approx(
        J01_SLOPE_MM - 10.0 - 18.0 * math.tan(math.radians(15)), abs=0.01
    )
    # The acceptance figure is taken on the outside face, up to the wall.
    assert height_mm(facet, made.good()) == pytest.approx(J01_SLOPE_MM, abs=0.01)


def test_the_gap_at_walls_is_the_materials_and_a_way_of_laying_may_give_another():
    facet = made.roof("J01").facets[0]
    deck = made.good(wall_gap_mm=10.0)

    assert height_mm(facet, deck) == pytest.approx(J01_SLOPE_MM - 10.0, abs=0.01)
    assert height_mm(facet, deck, abutment_gap_mm=4.0) == pytest.approx(
        J01_SLOPE_MM - 4.0, abs=0.01
    )
    assert "10 mm along walls" in rules_for(deck).claim


def test_square_boards_stop_before_they_run_into_one_another_at_a_ridge():
    # Two facets of 30°: the halving plane leans 30° under each board, 50 · tan 30° at 50 mm.
    facet = Gable(
        width_mm=3800, projection_mm=4200, left_pitch_deg=30, right_pitch_deg=30
    ).roof(eaves_height_mm=2100.0).facets[0]  # fmt: skip
    square = made.good("INS-PIR50", reach_mm=(50.0, 0.0))
    whole = facet.outline_mm[:, 1].max()

    assert height_mm(facet, square) == pytest.approx(
        whole - 50.0 * math.tan(math.radians(30)), abs=0.01
    )
    # Measured on the room face, boards lean apart towards the outside; bevelled ones meet.
    assert height_mm(facet, replace(square, reach_mm=(0.0, 50.0))) == pytest.approx(whole)
    assert height_mm(facet, replace(square, hip_edges="bevelled")) == pytest.approx(whole)


def test_a_board_whose_joint_ends_beside_a_hip_gives_way_to_the_facet_beyond():
    # The hip's mitre leans under the face: 18 mm down it is 18 · tan(bevel) nearer. A board with a
    # side along the hip is bevelled; a square one that ends 3 mm short of it would run through.
    facet = made.roof("J04").facets[0]
    outline = np.asarray(facet.outline_mm)
    number = next(i for i, edge in enumerate(facet.edges) if edge.lean_deg > 1.0)
    start, end = outline[number], outline[(number + 1) % len(outline)]
    along = (end - start) / np.linalg.norm(end - start)
    inward = np.array([-along[1], along[0]])
    corner = (start + end) / 2 + 3.0 * inward
    bevel = facet.edges[number].lean_deg
    past = 18.0 * math.tan(math.radians(bevel))
    assert past > 4.0
    far = corner + 900.0 * inward
    square = [corner, far + 400.0 * along, far - 400.0 * along]
    board = tuple((float(u), float(v)) for u, v in square)

    left = clear_of_mitres(board, facet, (18.0, 0.0))

    near = min((np.asarray(spot) - start) @ inward for spot in left)
    assert near == pytest.approx(past, abs=0.01)
    # Measured on the room face the mitre leans away, and a bevelled board goes up to it.
    assert clear_of_mitres(board, facet, (0.0, 18.0)) == board
    along_it = tuple(map(tuple, [start, end, start + 500.0 * inward]))
    assert clear_of_mitres(along_it, facet, (18.0, 0.0)) == along_it
