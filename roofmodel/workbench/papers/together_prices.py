"""What jobs sell for: each by itself, and with its share of sheets cut for all of them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from roofmodel.cutting.plan import Plan
from roofmodel.pricing.price import Incomplete, Price, pence
from roofmodel.pricing.rates import Rates
from roofmodel.refit.method import Method
from roofmodel.workbench.job.options import Option
from roofmodel.workbench.job.reckoning import Drawn
from roofmodel.workbench.offer import bills, selling
from roofmodel.workbench.offer.bills import PricedBill
from roofmodel.workbench.papers.jobs_together import Together


@dataclass(frozen=True, slots=True, kw_only=True)
class TogetherPrice:
    """The price of one job by itself and cut together; both are None where ``incomplete`` says why.

    Cut together it pays its share by area of the sheets all jobs take, offcuts of the rack free.
    """

    job_code: str
    alone: Price | None
    together: Price | None
    incomplete: str = ""


def of_jobs(
    planned: Together, jobs: Sequence[Drawn], rates: Rates, *, method: Method | None = None
) -> tuple[TogetherPrice, ...]:
    """Return the prices of jobs that were planned together.

    Parameters
    ----------
    planned
        Their plans.
    jobs
        The jobs, as they were planned.
    rates
        The firm's rates.
    method
        The method that was cut; each job's own when left out.
    """
    found = []
    for drawn in jobs:
        option = drawn.option if method is None else drawn.option_of(method)
        plans = _alone(planned, drawn, option)
        bill = bills.priced(drawn, option, plans)
        price = selling.price(drawn, option, plans, rates, bill=bill)
        if isinstance(price, Incomplete):
            found.append(
                TogetherPrice(
                    job_code=drawn.job.code, alone=None, together=None, incomplete=price.text
                )
            )
            continue
        less = _saved(bill, _shares(planned, drawn.job.code))
        found.append(
            TogetherPrice(
                job_code=drawn.job.code,
                alone=price,
                together=replace(price, materials=price.materials - less),
            )
        )
    return tuple(found)


def _alone(planned: Together, drawn: Drawn, option: Option) -> dict[int, Plan]:
    """Return the plans of a job by itself, by the numbers of their layers."""
    made = [
        layer.plan
        for plan in planned.plans
        for layer in plan.layers
        if layer.job_code == drawn.job.code
    ]
    plans = {}
    for layer in option.sheets:
        mine = next((one for one in made if one.good == layer.good), None)
        if mine is not None:
            made.remove(mine)
            plans[layer.number] = mine
    return plans


def _shares(planned: Together, job_code: str) -> Mapping[str, Decimal]:
    """Return, for each material, what a job takes of sheets cut together for one cut alone."""
    alone: dict[str, int] = {}
    share: dict[str, float] = {}
    for plan in planned.plans:
        code = plan.made.good.code
        for one in plan.shares:
            if one.job_code == job_code:
                alone[code] = alone.get(code, 0) + one.alone
                share[code] = share.get(code, 0.0) + one.by_area * plan.sheets
    return {code: Decimal(repr(share[code])) / sheets for code, sheets in alone.items() if sheets}


def _saved(bill: PricedBill, shares: Mapping[str, Decimal]) -> Decimal:
    """Return what cutting together takes off the materials of a job; below 0 what it adds."""
    return sum(
        (
            line.amount - pence(line.amount * shares[line.line.code])
            for line in bill.costed.lines
            if line.amount and not line.apart and line.line.code in shares
        ),
        Decimal(0),
    )
