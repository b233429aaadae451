"""Corners near a click are found, what is missing is filled from its edges."""

import numpy as np

from roofmodel.photographs import vision


def board(shift=(0.0, 0.0)):
    """Return a dark field meeting a light one at a corner in (80, 60)."""
    made = np.full((160, 200, 3), 60, dtype=np.uint8)
    made[60:, 80:] = 210
    return made


def test_a_click_moves_to_the_corner_beside_it():
    x, y = vision.corner_near(board(), (86.0, 55.0), 12)

    assert abs(x - 79.5) < 1.0
    assert abs(y - 59.5) < 1.0


def test_a_click_on_a_plain_face_stays():
    assert vision.corner_near(board(), (140.0, 120.0), 12) == (140.0, 120.0)


def test_a_hole_is_filled_with_what_is_round_it():
    picture = np.full((60, 60, 3), 120, dtype=np.uint8)
    picture[20:30, 20:30] = 0
    holes = np.zeros((60, 60), dtype=bool)
    holes[20:30, 20:30] = True

    assert np.abs(vision.filled(picture, holes).astype(int) - 120).max() <= 2


def test_a_stroke_covers_its_width():
    mask = vision.painted((100, 50), [(((10.0, 25.0), (90.0, 25.0)), 10.0)])

    assert 9 <= mask[:, 50].sum() <= 12
    assert not mask[:10].any()
