"""The offer of the open job: three prices, three programmes, one comparison."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from roofmodel.comparison import compare
from roofmodel.comparison.compare import Column
from roofmodel.cutting.plan import Plan
from roofmodel.foundation.outcome import Outcome
from roofmodel.gates.answer import blocks
from roofmodel.gates.answer.blocks import Binding
from roofmodel.pricing import price as pricing
from roofmodel.pricing import rates as shipped_rates
from roofmodel.pricing.price import Incomplete, Price, Sensitivity
from roofmodel.pricing.rates import Rates
from roofmodel.programme.schedule import Crew, Schedule, schedule
from roofmodel.quantities import labour
from roofmodel.quantities.job_lines import LineKind
from roofmodel.refit import depth
from roofmodel.refit.method import Method
from roofmodel.survey.taped.standing import Glazing
from roofmodel.workbench.job.options import Option
from roofmodel.workbench.job.reckoning import Drawn
from roofmodel.workbench.offer import bills, extras, indications, selling, work
from roofmodel.workbench.offer.bills import PricedBill
from roofmodel.workbench.offer.extras import PricedExtra

Plans = Mapping[int, Plan]
Cut = Callable[[Option], Plans]
"""From a method to the cutting plans of its layers."""

_LARGE_GANG_M2 = 13.0
_GANGS = (2, 3, 4)
"""Sizes of gang whose days are told beside those of the one planned."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MethodOffer:
    """One method with its take-off, price and programme; these are None where it is refused."""

    option: Option
    column: Column
    bill: PricedBill | None
    hours: tuple[labour.TaskHours, ...]
    extras: tuple[PricedExtra, ...] = ()

    @property
    def price(self) -> Price | Incomplete | None:
        """The price, what it lacks, or None."""
        return self.column.price

    @property
    def sensitivities(self) -> tuple[Sensitivity, ...]:
        """What would move the price, where there is one."""
        if not isinstance(self.price, Price) or self.bill is None:
            return ()
        sheets = sum(
            (x.amount for x in self.bill.costed.lines if x.line.group == "sheets" and x.amount),
            Decimal(0),
        )
        return pricing.sensitivities(self.price, sheets=sheets)


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """All three methods on one roof."""

    drawn: Drawn
    methods: tuple[MethodOffer, ...]
    rates: Rates

    @property
    def columns(self) -> tuple[Column, ...]:
        """The columns of the comparison."""
        return tuple(one.column for one in self.methods)

    def of(self, method: Method) -> MethodOffer:
        """Return one method."""
        return next(one for one in self.methods if one.option.method is method)


def offer(
    drawn: Drawn, cut: Cut, *, rates: Rates | None = None, installers: int | None = None
) -> Offer:
    """Return the offer of a job.

    Parameters
    ----------
    drawn
        The reckoned job.
    cut
        Gives the cutting plans of a method.
    rates
        The firm's rates; the shipped, invented ones when left out.
    installers
        Men in the gang; two for a small roof without hips, else three, when left out.
    """
    known = rates or shipped_rates.shipped()
    methods = tuple(
        _method(drawn, drawn.option_of(method), cut, known, installers) for method in Method
    )
    return Offer(drawn=drawn, methods=methods, rates=known)


def _method(
    drawn: Drawn, option: Option, cut: Cut, rates: Rates, installers: int | None
) -> MethodOffer:
    refit = option.refit
    if refit is None or option.refused:
        column = Column(
            method=option.method,
            refused=option.refused,
            refused_because=_because(drawn, option),
            kept=refit.default.kept if refit else "-",
            replaced=refit.default.replaced if refit else "-",
            layers=(),
            depth_mm=None,
            headroom_lost_mm=None,
            price=None,
            programme=None,
            approvals=(),
        )
        return MethodOffer(option=option, column=column, bill=None, hours=())
    plans = cut(option)
    bill = bills.priced(drawn, option, plans)
    glass = drawn.job.standing.glazing is Glazing.GLASS
    hours = work.hours(drawn, option, plans)
    price = selling.price(drawn, option, plans, rates, bill=bill)
    known_hours = not any(one.lacks for one in hours)
    programme = _programme(drawn, option, hours, rates, installers) if known_hours else None

    def priced(changed: Drawn, more_lights: int) -> Price | Incomplete:
        return selling.price(drawn, option, plans, rates, extra=(changed, more_lights))

    return MethodOffer(
        option=option,
        bill=bill,
        hours=hours,
        extras=(
            extras.of_method(drawn.changed(option.method), price, priced)
            if isinstance(price, Price)
            else ()
        ),
        column=Column(
            method=option.method,
            refused="",
            kept=refit.default.kept,
            replaced=refit.default.replaced,
            layers=tuple(layer.material.name for layer in refit.layers),
            depth_mm=refit.depth_inside_mm + refit.depth_outside_mm,
            headroom_lost_mm=depth.headroom_lost_mm(refit),
            price=price,
            programme=programme,
            also=_also(drawn, option.method),
            failing=tuple(
                check.name for check in drawn.verdicts(option) if check.outcome is Outcome.FAIL
            ),
            not_firm=tuple(
                check.name
                for check in blocks.shipped().blocking(drawn.verdicts(option), Binding.PRICE)
            ),
            gangs=()
            if programme is None
            else tuple((men, _programme(drawn, option, hours, rates, men).days) for men in _GANGS),
            approvals=_approvals(option.method, glass=glass),
            indications=indications.of_refit(
                refit, drawn.catalogue, wall_glazing_m2=drawn.job.heat.wall_glazing_m2
            ),
        ),
    )


def _programme(
    drawn: Drawn,
    option: Option,
    hours: tuple[labour.TaskHours, ...],
    rates: Rates,
    installers: int | None,
) -> Schedule:
    assert option.refit is not None
    area_m2 = sum(facet.area_m2 for facet in option.refit.covered_facets)
    hips = any(line.kind.value == "hip" for line in drawn.roof.lines)
    usual = 2 if option.method is Method.PANEL_SWAP or not (hips or area_m2 > _LARGE_GANG_M2) else 3
    crew = Crew(
        installers=installers or usual,
        day_h=float(rates.hours_a_day),
        productive_h=float(rates.productive_hours_a_day),
        nation=rates.bank_holidays_of,
    )
    return schedule(hours, crew, area_m2=area_m2, facets=len(drawn.roof.facets))


def _because(drawn: Drawn, option: Option) -> str:
    """Return why the roof itself refuses a method: what fails, not what is still to be entered."""
    if option.refit is None:
        return ""
    stopping = blocks.shipped().blocking(drawn.verdicts(option), Binding.METHOD)
    return " ".join(check.reason for check in stopping if check.outcome is Outcome.FAIL)


def _also(drawn: Drawn, method: Method) -> tuple[str, ...]:
    """Return what this job has beside the usual, by the names its lines carry."""
    entry = drawn.job.estimate
    known = drawn.catalogue.materials
    named = [
        one.text or (known[one.material].name if one.material in known else one.material)
        for one in entry.lines
        if one.of_method(method) and one.kind not in (LineKind.OVERRIDE, LineKind.PROVISIONAL)
    ]
    if entry.discount_reason and (entry.discount_percent or entry.discount_gbp):
        named.append(f"discount: {entry.discount_reason}")
    return tuple(named)


def _approvals(method: Method, *, glass: bool) -> tuple[str, ...]:
    if method is Method.PANEL_SWAP:
        return ("check with building control; usually treated as like for like",)
    engineer = (
        "structural engineer, if the bars sag or have a long span"
        if glass
        else "structural engineer"
    )
    return ("building control", engineer)


def figures(made: Offer) -> dict[str, Any]:
    """Return an offer under the names that reports print."""
    return {
        "methods": [_figures(one) for one in made.methods],
        "rows": [
            {"label": row.label, "entries": list(row.entries)} for row in compare.rows(made.columns)
        ],
        "rates": {"dated": made.rates.dated.isoformat(), "source": made.rates.source},
    }


def _figures(one: MethodOffer) -> dict[str, Any]:
    price = one.price
    content: dict[str, Any] = {
        "method": one.option.method.value,
        "title": one.option.method.printed,
        "refused": one.option.refused,
        "not_firm": list(one.column.not_firm),
        "price": None,
        "incomplete": price.text if isinstance(price, Incomplete) else "",
    }
    programme = one.column.programme
    if programme is not None:
        content["days"] = programme.days
        content["programme"] = programme.explained
        content["days_by_installers"] = {f"{men}": days for men, days in one.column.gangs}
    if isinstance(price, Price):
        content["price"] = {
            "materials": str(price.materials),
            "preliminaries": str(price.preliminaries),
            "labour": {
                line.trade.value: {"hours": round(float(line.hours), 2), "gbp": str(line.amount)}
                for line in price.labour
            },
            "direct": str(price.direct),
            "contingency": str(price.contingency),
            "overhead": str(price.overhead),
            "profit": str(price.profit),
            "profit_words": price.rates.profit_words,
            "discount": str(price.discount),
            "rounding": str(price.rounding),
            "below_cost": price.below_cost,
            "ex_vat": str(price.ex_vat),
            "vat": str(price.vat),
            "total": str(price.total),
            "per_m2_ex_vat": str(price.per_m2),
            "floor_price": str(price.cost),
            "shown_apart": str(price.shown_apart),
            "all_in": str(price.all_in),
        }
        content["extras"] = [_extra(x) for x in one.extras]
        content["sensitivities"] = {x.words: str(x.more) for x in one.sensitivities}
    return content


def _extra(extra: PricedExtra) -> dict[str, Any]:
    return {
        "id": extra.id,
        "name": extra.name,
        "changes": extra.changes,
        "more_ex_vat": None if extra.more_ex_vat is None else str(extra.more_ex_vat),
        "more": None if extra.more is None else str(extra.more),
        "refused": extra.refused,
        "source": extra.source,
    }
