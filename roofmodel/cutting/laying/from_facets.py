"""From facets and a sheet material to the ways of boarding them, and the parts of the plainest."""

from collections.abc import Mapping, Sequence

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.laying.boarding import Boarded, Boarding
from roofmodel.cutting.laying.covered import covered
from roofmodel.cutting.laying.mirror import pairs
from roofmodel.cutting.laying.part_of_board import problem_of
from roofmodel.cutting.laying.rule import LayingRules, rules_for
from roofmodel.cutting.parts.facet import BoardedFacet
from roofmodel.cutting.parts.part import Part
from roofmodel.cutting.parts.problem import Problem
from roofmodel.foundation.errors import CuttingError


def boardings(
    facets: Sequence[BoardedFacet],
    good: SheetGood,
    rules: LayingRules,
    *,
    job_code: str,
    supports_mm: Mapping[str, Sequence[float]] | None = None,
) -> tuple[Boarding, ...]:
    """Return the ways to board each facet, or each pair of mirror images.

    Raises
    ------
    CuttingError
        If bars are given for a facet that is not there.
    """
    supports = supports_mm or {}
    stray = sorted(set(supports) - {facet.name for facet in facets})
    if stray:
        raise CuttingError(f"Bars are given for {', '.join(stray)}, which this roof does not have.")
    boarded = [covered(facet, rules) for facet in facets]
    return tuple(
        Boarding(pair, good, rules, supports_mm=supports, job_code=job_code)
        for pair in pairs(boarded, supports)
    )


def problem_for(
    facets: Sequence[BoardedFacet],
    good: SheetGood,
    *,
    job_code: str,
    rules: LayingRules | None = None,
    supports_mm: Mapping[str, Sequence[float]] | None = None,
) -> tuple[Problem, tuple[str, ...]]:
    """Return the parts of all facets laid in the fewest pieces, and notes on rules not kept.

    Raises
    ------
    CuttingError
        If there is no facet, or a part fits no sheet.
    """
    ways = boardings(
        facets, good, rules or rules_for(good), job_code=job_code, supports_mm=supports_mm
    )
    plain = [way.fewest(way.divisions[0]) for way in ways]
    notes = [note for way, boarded in zip(ways, plain, strict=True) for note in way.notes(boarded)]
    return problem_of(parts_of(plain, facets), good), tuple(notes)


def parts_of(boarded: Sequence[Boarded], facets: Sequence[BoardedFacet]) -> list[Part]:
    """Return all parts in the order of facets, courses and pieces."""
    place = {facet.name: number for number, facet in enumerate(facets)}
    parts = [
        (place[board.facet], board.course, board.position, part)
        for rows in boarded
        for row in rows
        for board, part in zip(row.boards, row.parts, strict=True)
    ]
    return [part for *_, part in sorted(parts, key=lambda one: one[:3])]
