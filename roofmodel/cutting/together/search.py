"""Cuts the same material of several jobs together: pooled pieces first, pooled facets if needed."""

from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import replace

from roofmodel.cutting.nesting.nest import Effort, nest
from roofmodel.cutting.nesting.repair import repaired
from roofmodel.cutting.parts.layout import Layout
from roofmodel.cutting.parts.problem import Problem
from roofmodel.cutting.plan import Plan
from roofmodel.cutting.proof.bound import Bound
from roofmodel.cutting.proof.sharp_bound import sharpest
from roofmodel.cutting.rack import plan as rack_plan
from roofmodel.cutting.rack.offcut import RackPiece
from roofmodel.cutting.rack.plan import RackPlan
from roofmodel.cutting.together import pool as together_pool
from roofmodel.cutting.together.plan import JobLayer, TogetherPlan
from roofmodel.foundation.cancellation import Watch
from roofmodel.foundation.errors import CuttingError

_MOST_FACETS = 24
"""More are not laid anew together, only their pieces nested: it would take minutes."""


def plan_together(
    layers: Sequence[JobLayer],
    rack: Sequence[RackPiece] = (),
    *,
    effort: Effort = Effort.USUAL,
    watch: Watch | None = None,
) -> TogetherPlan:
    """Return the verified plan of one material for several jobs: never more than one by one.

    Parameters
    ----------
    layers : sequence of JobLayer
        One for each job and layer; all of one material, sheet size and saw.
    rack : sequence of RackPiece
        Offcuts of the material that may be taken, the oldest first.
    effort : Effort
        How long the search may take.
    watch : Watch, optional
        Who is told, and who may stop the work.

    Raises
    ------
    CuttingError
        If the layers cannot be cut from one kind of sheet, two jobs share a code, or the plan
        found has a fault.
    Cancelled
        If stopped.
    """
    watch = watch or Watch()
    _refuse_unlike(layers)
    pool = together_pool.pooled(layers)
    floor = None if pool is None else together_pool.floor(pool, layers)
    found: list[tuple[RackPlan, Bound, Mapping[str, str]]] = []
    for problem, layout, claim, job_of in _ways(layers, pool, floor, effort, watch):
        bound = sharpest(problem, most=layout.sheets, known=floor)
        made = rack_plan.planned(
            layers[0].plan.good,
            problem,
            layout,
            rack,
            bound=bound,
            claim=claim,
            effort=effort,
            watch=watch,
        )
        found.append((made, bound, job_of))
    best, bound, job_of = min(
        found, key=lambda one: (*one[0].layout.rank, len(one[0].problem.parts))
    )
    return TogetherPlan(
        made=best,
        bound=bound,
        floor=floor,
        layers=tuple(layers),
        job_of=job_of,
        notes=tuple(dict.fromkeys(note for layer in layers for note in layer.plan.notes)),
    )


def _ways(
    layers: Sequence[JobLayer],
    pool: together_pool.Pool | None,
    floor: Bound | None,
    effort: Effort,
    watch: Watch,
) -> Iterator[tuple[Problem, Layout, str, Mapping[str, str]]]:
    """Yield the pieces of all jobs nested together; then, if more may be had, all laid anew."""
    parts = tuple(part for layer in layers for part in layer.plan.problem.parts)
    problem = replace(layers[0].plan.problem, parts=parts)
    apart = _one_by_one(layers)
    least = sharpest(problem, most=apart.sheets, known=floor)
    layout = apart
    if apart.sheets > least.sheets:
        nested = nest(problem, effort=effort, bound=least.sheets, watch=watch)
        if nested.sheets < apart.sheets:
            layout = repaired(problem, nested)
    job_of = {part.mark: one.job_code for one in layers for part in one.plan.problem.parts}
    yield problem, layout, _claim(layers), job_of
    if pool is None or floor is None or layout.sheets <= floor.sheets:
        return
    if len(pool.facets) > _MOST_FACETS:
        return
    # What cannot be laid anew without a fault is no loss: the plan above stands.
    with suppress(CuttingError):
        anew, job_of = together_pool.laid(pool, layers, effort=effort, watch=watch)
        yield anew.problem, anew.layout, anew.claim, job_of


def _one_by_one(layers: Sequence[JobLayer]) -> Layout:
    """Return the plans of all jobs as one, no sheet shared."""
    placed = []
    sheets = 0
    for layer in layers:
        layout = layer.plan.layout
        placed += [replace(one, sheet_no=one.sheet_no + sheets) for one in layout.placed]
        sheets += layout.sheets
    return Layout(placed=tuple(placed))


def _claim(layers: Sequence[JobLayer]) -> str:
    claims = dict.fromkeys(layer.plan.claim for layer in layers)
    if len(claims) == 1:
        return next(iter(claims))
    return "; ".join(f"{layer.job_code}: {layer.plan.claim}" for layer in layers)


def _refuse_unlike(layers: Sequence[JobLayer]) -> None:
    """Refuse layers that no one sheet serves, or marks that could be anyone's."""
    if not layers:
        raise CuttingError("There is nothing to cut together. Name at least one job.")
    first = layers[0]
    for layer in layers[1:]:
        if _stock(layer.plan) != _stock(first.plan):
            raise CuttingError(
                f"{layer.job_code} cuts {_words(layer.plan)}, {first.job_code} "
                f"{_words(first.plan)}. Give both the same sheet, saw cut and trim, or cut "
                "them separately."
            )
    marks = [part.mark for layer in layers for part in layer.plan.problem.parts]
    if len(set(marks)) < len(marks):
        raise CuttingError(
            "Two jobs have the same code, so their pieces could not be told apart. Give each job "
            "its own code."
        )


def _stock(made: Plan) -> tuple[object, ...]:
    problem = made.problem
    size = (problem.sheet_length, problem.sheet_width, problem.kerf, problem.trim)
    return (made.good.code, *size)


def _words(made: Plan) -> str:
    good = made.good
    return (
        f"{good.code} {good.length_mm:g} × {good.width_mm:g} mm, saw cut {good.kerf_mm:g} mm, "
        f"trim {good.trim_mm:g} mm"
    )
