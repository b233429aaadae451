"""Pieces longer than the sheet are cut where neither part runs into the bar beside the other."""

import math

import pytest

from roofmodel.cutting.parts.piece import Piece, split
from tests.cutting import made


def bay(bevel_deg, side_from_mm=2405.0):
    """Return a bay with a hip over its head, which begins just above the end of a sheet."""
    return Piece(
        mark="T-F1-B1",
        facet="F1",
        corners_mm=((0.0, 0.0), (300.0, 0.0), (300.0, side_from_mm), (0.0, 2705.0)),
        bevels_deg=(0.0, 0.0, bevel_deg, 0.0),
        may_split=True,
    )


def test_a_joint_close_before_a_leaning_side_is_made_where_the_lower_part_is_clear_of_it():
    # 120 mm under its outside face the hip at 45° comes 120 · tan 20° nearer, square to itself.
    good = made.good("INS-PIR120")
    low, high = split(bay(20.0), good)
    reach = 120.0 * math.tan(math.radians(20.0)) / math.cos(math.radians(45.0))

    assert max(v for _, v in low) == pytest.approx(2405.0 - reach)
    assert min(v for _, v in high) == pytest.approx(2405.0 - reach)


@pytest.mark.parametrize("piece", [bay(0.0), bay(20.0, side_from_mm=2500.0)])
def test_elsewhere_a_part_is_as_long_as_the_sheet(piece):
    low, _ = split(piece, made.good("INS-PIR120"))

    assert max(v for _, v in low) == pytest.approx(2400.0)
