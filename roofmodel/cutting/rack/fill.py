"""Looks for the plan that buys fewest sheets, given a rack: several ways, and the best is kept."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial

from roofmodel.cutting.nesting.nest import Effort, nest
from roofmodel.cutting.parts.layout import Layout, Placed
from roofmodel.cutting.parts.part import Part
from roofmodel.cutting.parts.problem import Problem
from roofmodel.cutting.rack import nest as rack_nest
from roofmodel.cutting.rack.layout import RackLayout
from roofmodel.cutting.rack.nest import Worth
from roofmodel.cutting.rack.offcut import RackPiece
from roofmodel.foundation.cancellation import Watch

_MOST_SPARED = 8
"""Offcuts that are tried to be spared one by one; more would take longer than it is worth."""


def fewest(
    problem: Problem,
    plain: Layout,
    rack: Sequence[RackPiece],
    *,
    least: int,
    effort: Effort,
    watch: Watch,
) -> RackLayout:
    """Return the layout that buys fewest sheets; it takes from the rack only where that saves.

    Parameters
    ----------
    problem : Problem
        Sheet, saw and all parts.
    plain : Layout
        The best layout without the rack.
    rack : sequence of RackPiece
        Offcuts of the material, the oldest first.
    least : int
        Sheets that must be bought whatever is taken from the rack.
    effort : Effort
        How long the nesting of what is left over may take.
    watch : Watch
        Who may stop the work.

    Raises
    ------
    Cancelled
        If stopped.
    """
    best = RackLayout(new=plain)
    useful = [piece for piece in rack if _holds_any(piece, problem.parts)]
    if not useful or plain.sheets <= least:
        return best
    for layout in _ways(problem, plain, useful, least, effort, watch):
        best = min(best, layout, key=lambda one: one.rank)
        if best.sheets <= least and len(best.cuts) <= 1:
            return best
    if best.sheets < plain.sheets:
        best = _spared(problem, plain, best, watch)
    # An offcut cut up to no purpose is one thrown away.
    return best if best.sheets < plain.sheets else RackLayout(new=plain)


def _ways(
    problem: Problem,
    plain: Layout,
    rack: Sequence[RackPiece],
    least: int,
    effort: Effort,
    watch: Watch,
) -> Iterator[RackLayout]:
    """Yield plans with the rack, found in different ways."""
    widest = 2 if effort is Effort.QUICK else rack_nest.MOST_SEARCHES
    yield from watch.run(partial(_mixed, problem, rack, widest))
    yield from watch.run(partial(_emptied, problem, plain, rack))
    seen: set[frozenset[str]] = set()
    for worth in _worths(plain):
        layout = _filled_first(problem, rack, worth, least, effort, watch)
        marks = frozenset(part.mark for part in layout.on_rack)
        if marks and marks not in seen:
            seen.add(marks)
            yield layout


def _mixed(problem: Problem, rack: Sequence[RackPiece], widest: int) -> list[RackLayout]:
    return list(rack_nest.mixed(problem, rack, widest=widest))


def _filled_first(
    problem: Problem,
    rack: Sequence[RackPiece],
    worth: Worth,
    least: int,
    effort: Effort,
    watch: Watch,
) -> RackLayout:
    """Return offcuts filled with what is worth most, and the rest on new sheets."""
    cuts = watch.run(partial(rack_nest.filled, problem, rack, worth))
    marks = {placed.part.mark for cut in cuts for placed in cut.placed}
    rest = tuple(part for part in problem.parts if part.mark not in marks)
    new = Layout(placed=())
    if rest:
        new = nest(replace(problem, parts=rest), effort=effort, bound=least, watch=watch)
    return RackLayout(new=new, cuts=cuts)


def _emptied(problem: Problem, plain: Layout, rack: Sequence[RackPiece]) -> list[RackLayout]:
    """Return plans in which whole sheets of the plan without the rack move to the rack."""
    sheets = _emptiest_first(plain)
    layouts: list[RackLayout] = []
    moved: list[int] = []
    for number in range(len(sheets)):
        parts = [placed.part for i in (*moved, number) for placed in sheets[i]]
        area = sum(part.area_mm2 for part in parts)
        if area > sum(piece.area_mm2 for piece in rack):
            break
        cuts = rack_nest.on_rack_alone(replace(problem, parts=tuple(parts)), rack)
        if cuts is None:
            continue
        moved.append(number)
        rest = [one for i, one in enumerate(sheets) if i not in moved]
        layouts.append(RackLayout(new=rack_nest.on_sheets(rest), cuts=cuts))
    return layouts


def _worths(plain: Layout) -> list[Worth]:
    """Return what makes a part worth taking from the rack: size, or lying on an empty sheet."""
    rank = {
        placed.part.mark: number
        for number, sheet in enumerate(reversed(_emptiest_first(plain)))
        for placed in sheet
    }
    return [
        lambda part: part.area_mm2,
        lambda part: part.area_mm2**1.5 / 1e3,
        lambda part: part.area_mm2 * (1.0 + rank[part.mark]),
    ]


def _spared(problem: Problem, plain: Layout, best: RackLayout, watch: Watch) -> RackLayout:
    """Return a plan with as few sheets that leaves on the rack what it can, the youngest first."""
    if not 1 < len(best.cuts) <= _MOST_SPARED:
        return best
    largest = _worths(plain)[0]
    for cut in reversed(best.cuts):
        if cut.piece.label not in best.labels:
            continue
        rack = [one.piece for one in best.cuts if one.piece != cut.piece]
        if not rack:
            return best
        for layout in (
            *watch.run(partial(_mixed, problem, rack, 1)),
            _filled_first(problem, rack, largest, best.sheets, Effort.QUICK, watch),
        ):
            best = min(best, layout, key=lambda one: one.rank)
    return best


def _emptiest_first(layout: Layout) -> list[tuple[Placed, ...]]:
    sheets = [layout.on_sheet(number) for number in range(1, layout.sheets + 1)]
    return sorted(sheets, key=lambda sheet: sum(placed.part.area_mm2 for placed in sheet))


def _holds_any(piece: RackPiece, parts: Sequence[Part]) -> bool:
    """Return whether the box round an offcut holds the box round any part, as it may be turned."""
    _, _, long, wide = piece.shape.bounds
    return any(
        (part.may_lie_as_drawn and part.length_tenths <= long and part.width_tenths <= wide)
        or (part.may_lie_across and part.width_tenths <= long and part.length_tenths <= wide)
        for part in parts
    )
