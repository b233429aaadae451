"""The selling price of one method of a job, from its cutting plans: one way for every command."""

from collections.abc import Mapping

from roofmodel.cutting.plan import Plan
from roofmodel.pricing import price as pricing
from roofmodel.pricing.price import Incomplete, Price
from roofmodel.pricing.rates import Rates
from roofmodel.workbench.job.options import Option
from roofmodel.workbench.job.reckoning import Drawn
from roofmodel.workbench.offer import bills, work
from roofmodel.workbench.offer.bills import PricedBill


def price(
    drawn: Drawn,
    option: Option,
    plans: Mapping[int, Plan],
    rates: Rates,
    *,
    bill: PricedBill | None = None,
    extra: tuple[Drawn, int] | None = None,
) -> Price | Incomplete:
    """Return what a method sells for, or what is missing.

    Parameters
    ----------
    drawn
        The reckoned job.
    option
        One of its methods.
    plans
        Its cutting plans.
    rates
        The firm's rates.
    bill
        Its take-off, where it is made already.
    extra
        The job with an extra of the offer built in, and the downlights that adds.

    Raises
    ------
    MethodRefusedError
        If the method makes no build-up here.
    """
    built, more_lights = extra or (drawn, 0)
    shown = option if extra is None else built.option
    made = bill or bills.priced(built, shown, plans, more_lights=more_lights)
    hours = work.hours(drawn, option, plans, refit=shown.refit, more_lights=more_lights)
    assert option.refit is not None
    return pricing.price(
        made.costed,
        hours,
        rates,
        area_m2=sum(facet.area_m2 for facet in option.refit.covered_facets),
        entry=drawn.job.estimate,
    )
