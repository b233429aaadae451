"""Plain solids are closed, and as large as their closed forms; trimesh is the judge."""

import numpy as np
import pytest
import trimesh

from roofmodel.drawings.scenes.body import body, box, prism, rod
from roofmodel.drawings.scenes.finish import Part

SQUARE = np.array([[0, 0, 0], [100, 0, 0], [100, 50, 0], [0, 50, 0]], dtype=float)


def solid(triangles):
    made = trimesh.Trimesh(triangles.reshape(-1, 3), np.arange(3 * len(triangles)).reshape(-1, 3))
    made.merge_vertices()
    return made


def test_a_prism_is_closed_and_turned_outwards():
    made = solid(prism(SQUARE, (0.0, 0.0, 20.0)))

    assert made.is_watertight
    assert made.volume == pytest.approx(100 * 50 * 20)


@pytest.mark.parametrize("end", [(1000.0, 0.0, 0.0), (300.0, 400.0, 1200.0), (0.0, -700.0, 10.0)])
def test_a_rod_is_closed_along_any_line(end):
    made = solid(
        rod((5.0, 6.0, 7.0), np.add((5.0, 6.0, 7.0), end), (0.1, 0.2, 1.0), box(40.0, -30.0, 10.0))
    )

    assert made.is_watertight
    assert made.volume == pytest.approx(40.0 * 40.0 * np.linalg.norm(end))


def test_a_rod_stands_upright_about_its_line():
    corners = rod((0, 0, 0), (0, 1000, 0), (0, 0, 1), box(40.0, -30.0, 10.0)).reshape(-1, 3)

    assert corners.min(axis=0) == pytest.approx((-20.0, 0.0, -30.0))
    assert corners.max(axis=0) == pytest.approx((20.0, 1000.0, 10.0))


def test_every_triangle_knows_its_piece_and_its_shade():
    tile = prism(SQUARE, (0.0, 0.0, 20.0))
    made = body(Part.TILE, [tile, tile[:1]], [0.25, 1.0])

    assert made.piece.tolist() == [0] * len(tile) + [1]
    assert made.shade.tolist() == [0.25] * len(tile) + [1.0]


def test_no_pieces_are_an_empty_body():
    assert body(Part.TILE, []).triangles.shape == (0, 3, 3)
