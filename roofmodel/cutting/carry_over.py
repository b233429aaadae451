"""A revised plan that leaves what an older one cut: untouched facets, and sheets of theirs."""

import re
from collections.abc import Callable, Collection, Mapping
from dataclasses import replace

from roofmodel.cutting.nesting.final_check import refuse_faulty
from roofmodel.cutting.nesting.nest import Effort, nest
from roofmodel.cutting.nesting.repair import repaired
from roofmodel.cutting.nesting.straight import cut_up
from roofmodel.cutting.parts.layout import Layout, Placed
from roofmodel.cutting.parts.problem import Problem
from roofmodel.cutting.plan import Plan
from roofmodel.cutting.proof.sharp_bound import sharpest
from roofmodel.foundation.cancellation import Watch


def carried_over(
    old: Plan,
    new: Plan,
    untouched: Collection[str],
    *,
    effort: Effort,
    cancelled: Callable[[], bool] | None = None,
) -> Plan:
    """Return the new plan with what the old one has for untouched facets.

    Their boards stay as they were, and so does every sheet that holds no others. All else is
    nested anew, and takes the numbers that are left.

    Parameters
    ----------
    old, new
        Plans of one material before and after the change.
    untouched
        Names of facets whose shape, bars and rules are the same in both.
    effort
        How long the rest is nested.
    cancelled
        Asked now and then; True gives up.

    Raises
    ------
    CuttingError
        If what is left finds no place, or the plan fails its check.
    Cancelled
        If stopped.
    """
    stay = tuple(part for part in old.problem.parts if part.facet in untouched)
    if old.good != new.good or not stay:
        return new
    others = tuple(part for part in new.problem.parts if part.facet not in untouched)
    problem = replace(new.problem, parts=(*stay, *others))
    kept = _kept_sheets(old.layout, untouched)
    layout = _with_rest(problem, kept, effort, Watch(cancelled=cancelled))
    bound = sharpest(problem, most=layout.sheets, known=new.floor)
    # Facet by facet both plans have been checked on the roof; only the sheets are other ones.
    refuse_faulty(problem, layout, least=bound.sheets, more_faults=(), code=new.good.code)
    return replace(
        new,
        problem=problem,
        layout=layout,
        bound=bound,
        notes=(*_notes(old, new, untouched), _told(kept, untouched, layout, new)),
        cuts=cut_up(problem, layout, least_side_mm=new.good.minimum_piece_mm),
        near_misses=(),
    )


def _kept_sheets(layout: Layout, untouched: Collection[str]) -> dict[int, tuple[Placed, ...]]:
    """Return the sheets that hold nothing but boards of untouched facets."""
    sheets = {number: layout.on_sheet(number) for number in {one.sheet_no for one in layout.placed}}
    return {
        number: placed
        for number, placed in sorted(sheets.items())
        if all(one.part.facet in untouched for one in placed)
    }


def _with_rest(
    problem: Problem, kept: Mapping[int, tuple[Placed, ...]], effort: Effort, watch: Watch
) -> Layout:
    """Return the kept sheets, and all other parts nested on sheets with the numbers left."""
    there = {one.part for placed in kept.values() for one in placed}
    left = tuple(part for part in problem.parts if part not in there)
    rest: tuple[Placed, ...] = ()
    if left:
        alone = replace(problem, parts=left)
        found = nest(
            alone, effort=effort, bound=sharpest(alone, most=len(left)).sheets, watch=watch
        )
        rest = repaired(alone, found, effort).placed
    count = len(kept) + len({one.sheet_no for one in rest})
    # Where there are fewer sheets than before, those with the highest numbers take a lower one.
    stays = [number for number in kept if number <= count]
    free = [number for number in range(1, count + 1) if number not in stays]
    moved = [number for number in kept if number > count]
    numbers = dict(zip(moved, free, strict=False))
    new_numbers = iter(free[len(moved) :])
    of_rest = {number: next(new_numbers) for number in sorted({one.sheet_no for one in rest})}
    placed = [
        replace(one, sheet_no=numbers.get(number, number))
        for number, on_it in kept.items()
        for one in on_it
    ]
    placed += [replace(one, sheet_no=of_rest[one.sheet_no]) for one in rest]
    return Layout(placed=tuple(sorted(placed, key=lambda one: one.sheet_no)))


def _notes(old: Plan, new: Plan, untouched: Collection[str]) -> tuple[str, ...]:
    """Return the notes on rules not kept of the facets as they are now laid."""
    stay = re.compile(rf"\b({'|'.join(map(re.escape, sorted(untouched)))})\b")
    return (
        *(note for note in old.notes if stay.search(note)),
        *(note for note in new.notes if not stay.search(note)),
    )


def _told(kept: Mapping[int, object], untouched: Collection[str], layout: Layout, new: Plan) -> str:
    facets = ", ".join(sorted(untouched))
    sheets = f", {len(kept)} sheets with nothing else on them too" if kept else ""
    more = layout.sheets - new.sheets
    dearer = f" Laid anew, all would take {more} sheets fewer." if more > 0 else ""
    return f"{facets}: boards stay as the earlier revision cut them{sheets}.{dearer}"
