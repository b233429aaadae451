"""Where pieces longer than the sheet are parted: cases of the review, and what must always hold."""

from itertools import pairwise

import numpy as np
import pytest

from roofmodel.cutting.parts.piece import Piece
from roofmodel.cutting.plan import plan_pieces
from tests.cutting import made

PIR = made.good("INS-PIR75")


def bays(count, width_mm, height_mm):
    return [
        Piece(
            mark=f"J01-F1-B{n}",
            facet="F1",
            corners_mm=(
                (n * 1300.0, 0.0),
                (n * 1300.0 + width_mm, 0.0),
                (n * 1300.0 + width_mm, height_mm),
                (n * 1300.0, height_mm),
            ),
            may_split=True,
        )
        for n in range(1, count + 1)
    ]


def sheets(count, width_mm, height_mm, good=PIR):
    return plan_pieces(bays(count, width_mm, height_mm), good, job_code="J01", effort="quick")


def test_ten_bays_hardly_longer_than_the_sheet_take_half_the_boards_they_did():
    """The lean-to 6150 × 2310 at 16.5° of the review: ten in equal halves, six by hand.

    By area ten bays of 545.0 × 2409.2 are 4.56 boards, so five cannot be beaten.
    """
    found = sheets(10, 545.0, 2409.2)

    assert found.sheets == 5
    assert found.proved
    assert "proved minimal under these rules (by area, wherever pieces are parted)" in (
        found.sentence
    )


@pytest.mark.parametrize(("slope_mm", "most"), [(2395.0, 5), (2409.2, 6), (2560.0, 6)])
def test_the_slopes_of_the_review_take_no_more_than_by_hand(slope_mm, most):
    assert sheets(10, 545.0, slope_mm).sheets <= most


@pytest.mark.parametrize("seed", range(8))
def test_shortening_the_slope_a_little_never_adds_more_than_one_sheet(seed):
    """A law, over random bays round the length of the sheet."""
    generator = np.random.default_rng(seed)
    count, width = int(generator.integers(3, 14)), float(generator.uniform(300, 1150))
    slope = 2400.0 + float(generator.uniform(-40, 60))
    counts = [sheets(count, width, slope - short).sheets for short in (0.0, 3.0, 9.0, 24.0)]

    for longer, shorter in pairwise(counts):
        assert shorter <= longer + 1


def test_a_count_that_may_not_be_the_least_is_not_called_proved():
    found = sheets(10, 545.0, 2560.0)

    assert found.floor.sheets < found.sheets
    assert "proved" not in found.sentence
    assert "no fewer" not in found.least_words
    assert "at least 5 under these rules" in found.sentence


def test_a_whole_length_stays_whole_where_that_takes_no_more():
    """J01: six bays of 596.67 × 2898.77 take four boards, full lengths first."""
    found = sheets(6, 596.67, 2898.77)

    assert found.sheets == 4
    assert {part.width_tenths for part in found.problem.parts} == {24000, 4988}
