"""Lengths cut exactly: mixed stock, against counts by hand and against trying everything."""

from itertools import combinations_with_replacement

import numpy as np
import pytest

from roofmodel.cutting.lengths import plan as length_plan
from roofmodel.cutting.lengths.bound import LengthBound
from roofmodel.cutting.lengths.exact import exact
from roofmodel.cutting.lengths.nest import first_fit
from roofmodel.cutting.lengths.problem import (
    LengthPart,
    LengthPiece,
    LengthProblem,
    RackLength,
    StockLength,
)
from roofmodel.cutting.lengths.verify import faults

TIMBER = [StockLength(length=round(m * 10_000)) for m in (3.0, 3.6, 4.2, 4.8, 5.4)]


def problem(sizes_mm, stock=TIMBER, rack=()):
    parts = tuple(
        LengthPart(mark=f"P{n}", length=round(size * 10)) for n, size in enumerate(sizes_mm)
    )
    return LengthProblem(parts=parts, stock=tuple(stock), rack=tuple(rack), kerf=30)


def solved(given):
    return exact(given, first_fit(given), LengthBound(cost=0, reason="nothing known"))


def test_rafters_of_the_review_come_from_the_longest_length_two_by_two():
    """Seventeen of 2.41 m took seventeen of 4.8 m, 81.6 m; by hand 8 × 5.4 + 3.0 = 46.2 m."""
    pieces = [LengthPiece.of_mm("R", 2410.0, count=17)]
    found = length_plan.plan(pieces, TIMBER, material="C24", kerf_mm=3.0, keep_mm=600.0)

    assert found.bought == ((54_000, 8), (30_000, 1))
    assert found.cost == found.bound.cost == 462_000


def test_the_cheaper_length_is_taken_though_it_wastes_more():
    """Two of 2.0 m: one of 4.2 m at 9.00, though two of 2.1 m at 5.00 waste nothing."""
    stock = [
        StockLength(length=42_000, price_pence=900),
        StockLength(length=21_000, price_pence=500),
    ]
    layout, bound = solved(problem([2000.0, 2000.0], stock))

    assert [bar.length for bar in layout.bars] == [42_000]
    assert bound.cost == 900


def test_a_remnant_is_cut_only_where_it_saves_a_length():
    rack = [RackLength(label="R1", length=20_000), RackLength(label="R2", length=25_000)]
    layout, bound = solved(problem([2400.0, 2900.0], rack=rack))

    assert {bar.label for bar in layout.bars} == {"R2", None}
    assert bound.cost == 30_000


@pytest.mark.parametrize("seed", range(20))
def test_nothing_cheaper_is_found_by_trying_every_purchase(seed):
    """All purchases up to the cost found are tried, each filled by trying every order."""
    generator = np.random.default_rng(seed)
    sizes = [
        float(round(x)) for x in generator.uniform(700, 4000, size=int(generator.integers(2, 6)))
    ]
    given = problem(sizes, TIMBER[::2])
    layout, bound = solved(given)
    cheapest = min(
        sum(bought)
        for count in range(1, len(sizes) + 1)
        for bought in combinations_with_replacement([30_000, 42_000, 54_000], count)
        if _holds(
            sorted((round(s * 10) + 30 for s in sizes), reverse=True), [b + 30 for b in bought]
        )
    )

    assert faults(given, layout) == []
    assert layout.cost(given) == bound.cost == cheapest


def _holds(parts, rooms):
    if not parts:
        return True
    tried = set()
    for i, room in enumerate(rooms):
        if room >= parts[0] and room not in tried:
            tried.add(room)
            if _holds(parts[1:], [*rooms[:i], room - parts[0], *rooms[i + 1 :]]):
                return True
    return False
