"""The bound over every parting: below any plan, whichever way its pieces are parted."""

import numpy as np
import pytest

from roofmodel.cutting.laying import from_pieces
from roofmodel.cutting.nesting.nest import Effort, nest
from roofmodel.cutting.parts.parting import FULL_FIRST, Parting
from roofmodel.cutting.parts.piece import Piece
from roofmodel.cutting.proof.parted import least_for_any_parting
from roofmodel.foundation.cancellation import Watch
from roofmodel.foundation.errors import CuttingError
from tests.cutting import made


def bays(*sizes, top_mm=None, **options):
    """Return bays of so many mm wide and high; with ``top_mm`` they narrow to that at the top."""
    found = []
    for number, (wide, high) in enumerate(sizes, start=1):
        top = wide if top_mm is None else top_mm
        corners = ((0.0, 0.0), (wide, 0.0), (top, high), (0.0, high))
        found.append(
            Piece(
                mark=f"J01-F1-B{number}",
                facet="F1",
                corners_mm=corners,
                may_split=True,
                **options,
            )
        )
    return found


def floor_of(pieces, good):
    problem, parts = from_pieces.problem_for(pieces, good, job_code="J01")
    return least_for_any_parting(problem, parts, good)


def test_a_part_longer_than_half_the_sheet_crosses_its_middle():
    """By hand: bays of 700, two abreast 1403 of 1200: five bays need five sheets, 3.51 by area.

    4000 in two parts: at least 2000 of 3000.
    """
    board = made.good("INS-PIR75", length_mm=3000.0)
    found = floor_of(bays(*[(700.0, 4000.0)] * 5), board)

    assert found.sheets == 5
    assert "wherever they are parted" in found.reason


def test_a_part_that_may_be_as_short_as_the_board_is_wide_may_lie_across():
    """2390 in two parts of 1195 each may lie across a board of 1200, beside one another."""
    board = made.good("INS-PIR75", length_mm=2300.0)

    assert floor_of(bays(*[(700.0, 2390.0)] * 5), board).sheets < 5


@pytest.mark.parametrize("seed", range(24))
def test_no_plan_of_any_parting_is_below_the_bound(seed):
    """Random bays, some raked, with random gaps and partings; the plan is nested anew each time."""
    generator = np.random.default_rng(seed)
    code = ("INS-PIR75", "BRD-PB12")[seed % 2]
    good = made.good(code, length_mm=float(generator.uniform(1300, 2600)))
    top = float(generator.uniform(60, 300)) if seed % 3 == 0 else None
    sizes = [
        (float(generator.uniform(300, 1100)), float(generator.uniform(800, 4000)))
        for _ in range(int(generator.integers(2, 9)))
    ]
    gap = float(generator.choice([0.0, 5.0]))
    pieces = bays(*sizes, top_mm=top, split_gap_mm=gap)
    try:
        floor = floor_of(pieces, good)
    except CuttingError as error:
        pytest.skip(str(error))
    for _ in range(4):
        partings = [
            Parting(rest_mm=float(generator.uniform(100, 2500)))
            if generator.random() < 0.7
            else FULL_FIRST
            for _ in pieces
        ]
        try:
            problem, _ = from_pieces.problem_for(pieces, good, job_code="J01", partings=partings)
        except CuttingError:
            continue
        layout = nest(problem, effort=Effort.QUICK, bound=1, watch=Watch())
        assert layout.sheets >= floor.sheets
