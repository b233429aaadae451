"""The priced take-off of a method on the open job."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from typing import Any

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.cutting.plan import Plan
from roofmodel.foundation.errors import RoofModelError
from roofmodel.foundation.figure import Figure
from roofmodel.pricing import material_cost
from roofmodel.pricing.material_cost import Costed, PricedLine
from roofmodel.quantities import job_lines, take_off
from roofmodel.quantities.bill import Bill, BillLine
from roofmodel.refit.refit import Refit
from roofmodel.workbench.job import provenance, reckoning
from roofmodel.workbench.job.neighbours import Neighbour
from roofmodel.workbench.job.options import Option
from roofmodel.workbench.job.planner import Cut
from roofmodel.workbench.job.provenance import SHAPE, Moves, Report
from roofmodel.workbench.job.reckoning import Drawn, MethodRefusedError


@dataclass(frozen=True, slots=True, kw_only=True)
class PricedBill:
    """The take-off of one method and what it costs."""

    bill: Bill
    costed: Costed


def priced(
    drawn: Drawn, option: Option, plans: Mapping[int, Plan], *, more_lights: int = 0
) -> PricedBill:
    """Return the take-off of a method with prices.

    Parameters
    ----------
    drawn
        The reckoned job.
    option
        One of its three methods.
    plans
        Cutting plans by the number of their layer; sheets without one stay unknown.
    more_lights
        Downlights beyond those of the job, for the price of an option.

    Raises
    ------
    MethodRefusedError
        If the method makes no build-up on this roof.
    """
    if option.refit is None:
        raise MethodRefusedError(option.refusal)
    bill = take_off.take_off(
        option.refit,
        drawn.catalogue,
        plans,
        lights=option.light_count + more_lights,
        facts=drawn.job.site,
        recipes=drawn.tables.recipes,
    )
    bill = job_lines.applied(bill, drawn.job.estimate.lines, drawn.catalogue)
    return PricedBill(bill=bill, costed=material_cost.cost(bill))


def sourced(made: PricedBill, drawn: Drawn, option: Option) -> PricedBill:
    """Return a take-off whose lines say what moves them and by how much.

    Each line is counted anew on the roofs beside the job's, before anything is sawn; what a plan
    makes of it goes in whole lengths and sheets and has no error of its own.
    """
    refit = option.refit
    if refit is None:
        return made
    known = drawn.asked
    here = _counts(drawn, option, refit)
    moves = Moves(checked=known.checked)
    for near in known.neighbours.of(lambda _: True):

        def there(near: Neighbour = near) -> Report:
            return _counts(drawn, option, known.beside(refit, near))

        moves.add(near.moved, here, there)
    lines = tuple(_resting(line, moves) for line in made.bill.lines)
    bill = replace(made.bill, lines=lines)
    return PricedBill(bill=bill, costed=material_cost.cost(bill))


def _counts(drawn: Drawn, option: Option, refit: Refit) -> Report:
    """Return what a roof asks for of every material, by its code."""
    bill = take_off.uncut(
        refit,
        drawn.catalogue,
        lights=option.light_count,
        facts=drawn.job.site,
        recipes=drawn.tables.recipes,
    )
    sheets = {
        layer.material.code: refit.area_m2(layer)
        for layer in refit.layers
        if layer.material.sheet is not None
    }
    return {**{line.code: line.counted for line in bill.lines if line.counted}, **sheets}


def _resting(line: BillLine, moves: Moves) -> BillLine:
    if line.source.document == job_lines.ENTERED:
        return line
    figure = moves.figure(line.code, line.counted or 0.0, line.source)
    # Whole lengths are bought, which no error of the tape changes by a little.
    error = None if line.cut is not None else figure.error
    return replace(line, error=error, rests=figure.inputs or (SHAPE,))


def stale(drawn: Drawn, bill: Bill, today: date) -> tuple[str, ...]:
    """Return the codes of the bill's materials whose price is old on a day."""
    used = {line.code for line in bill.lines if line.applies}
    return tuple(one.code for one in drawn.catalogue.stale(today) if one.code in used)


def plans_that_can_be(
    drawn: Drawn,
    option: Option,
    *,
    effort: Effort = Effort.USUAL,
    progress: Callable[[SheetGood, int, int], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
    cut: Cut = reckoning.cut,
) -> tuple[dict[int, Plan], list[str]]:
    """Return the cutting plans of a method, and why a layer has none; the others are not hurt.

    ``cut`` searches for them, here or in a process of its own.
    """
    plans: dict[int, Plan] = {}
    failed: list[str] = []
    for layer in option.sheets:
        try:
            plans |= cut(
                drawn,
                method=option.method,
                only=[layer.number],
                effort=effort,
                progress=progress,
                cancelled=cancelled,
            )
        except RoofModelError as error:
            failed.append(str(error))
    return plans, failed


def figures(made: PricedBill) -> dict[str, Any]:
    """Return a take-off under the names and in the units that reports print."""
    total = made.costed.total()
    return {
        "method": made.bill.method.value,
        "title": made.bill.method.printed,
        "lines": [_line(line) for line in made.costed.lines],
        "materials_and_preliminaries_gbp": None if total is None else str(total),
        "incomplete": made.costed.incomplete,
        "rounding": material_cost.ROUNDING,
        "provenance": provenance.table(_figures(made.costed)),
    }


def _figures(costed: Costed) -> dict[str, Figure]:
    """Return every figure of a take-off by its path among the figures that are printed."""
    return {
        **{
            f"lines[{i}].{name}": figure
            for i, line in enumerate(costed.lines)
            for name, figure in line.figures.items()
            if figure.value is not None
        },
        **({} if costed.total() is None else {"materials_and_preliminaries_gbp": costed.figure}),
    }


def _line(priced_line: PricedLine) -> dict[str, Any]:
    line = priced_line.line
    return {
        "group": line.group,
        "code": line.code,
        "name": line.name,
        "counted": None if line.counted is None else round(line.counted, 4),
        "waste": line.waste,
        "quantity": None if line.quantity is None else round(line.quantity, 4),
        "unit": line.unit,
        "packs": None if line.packs is None else str(round(line.packs, 4)),
        "pack": line.material.pack.name if line.material else None,
        "charge": line.charge.value,
        "rate_gbp": None if priced_line.rate is None else str(priced_line.rate),
        "amount_gbp": None if priced_line.amount is None else str(priced_line.amount),
        "shown_apart": priced_line.apart,
        "formula": line.formula,
        "where": line.place.words,
        "note": line.note,
        "near_miss": line.near_miss,
        "lacks": priced_line.lacks,
    }
