"""The estimate as it was made: lines, hours and rates, from which its prices come out again.

It needs neither catalogue nor cutting plans of today: years later the same sums follow from it.
"""

import json
from dataclasses import dataclass, replace
from datetime import date
from decimal import ROUND_HALF_UP, Decimal
from typing import Any

from pydantic import ConfigDict, TypeAdapter, ValidationError, with_config

from roofmodel.buildups.material import Charge
from roofmodel.foundation.errors import ResourceError
from roofmodel.pricing.material_cost import APART
from roofmodel.pricing.price import PRELIMINARIES, LabourLine, Price
from roofmodel.pricing.rates import PENNY, Rates
from roofmodel.quantities.labour import Trade
from roofmodel.refit.method import Method
from roofmodel.workbench.offer.offers import MethodOffer, Offer

SCHEMA = 1
SUFFIX = "-estimate.json"
_FORBID = ConfigDict(extra="forbid")


@with_config(_FORBID)
@dataclass(frozen=True, slots=True, kw_only=True)
class FrozenLine:
    """A line of the take-off: packs and the price of one [GBP ex VAT]."""

    group: str
    code: str
    name: str
    charge: Charge
    packs: Decimal
    rate: Decimal

    @property
    def amount(self) -> Decimal:
        """What it costs, to the penny."""
        return (self.packs * self.rate).quantize(PENNY, rounding=ROUND_HALF_UP)


@with_config(_FORBID)
@dataclass(frozen=True, slots=True, kw_only=True)
class FrozenMethod:
    """One method as it was priced: ``hours`` by trade, and the sums that were offered [GBP].

    A contingency of None is the firm's, as files before job lines have it.
    """

    method: Method
    area_m2: float
    lines: tuple[FrozenLine, ...]
    hours: dict[Trade, Decimal]
    contingency_percent: Decimal | None = None
    discount_percent: Decimal = Decimal(0)
    discount_gbp: Decimal = Decimal(0)
    offered: dict[str, Decimal]

    def price(self, rates: Rates) -> Price:
        """Return the price that follows from lines, hours and rates."""
        if self.contingency_percent is not None:
            rates = replace(rates, contingency_percent=self.contingency_percent)
        kept = [one for one in self.lines if one.charge not in APART]
        return Price(
            materials=_sum([one for one in kept if one.group != PRELIMINARIES]),
            preliminaries=_sum([one for one in kept if one.group == PRELIMINARIES]),
            labour=tuple(
                LabourLine(trade=trade, hours=self.hours[trade], rate=rates.hour_of(trade))
                for trade in Trade
                if trade in self.hours
            ),
            shown_apart=_sum([one for one in self.lines if one.charge in APART]),
            rates=rates,
            area_m2=self.area_m2,
            discount_percent=self.discount_percent,
            discount_gbp=self.discount_gbp,
        )


@with_config(_FORBID)
@dataclass(frozen=True, slots=True, kw_only=True)
class Estimate:
    """Everything an offer was priced from, and what it came to."""

    schema_version: int
    job_code: str
    revision: str
    made_on: date
    catalogue: str
    catalogue_version: int
    catalogue_from: date
    rates: Rates
    methods: tuple[FrozenMethod, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Recomputed:
    """One sum of one method: as it was offered, and as it follows from the file [GBP]."""

    method: Method
    name: str
    offered: Decimal
    again: Decimal

    @property
    def same(self) -> bool:
        """Whether both are equal to the penny."""
        return self.offered == self.again


_ESTIMATE: TypeAdapter[Estimate] = TypeAdapter(Estimate)


def dumps(offer: Offer, *, made_on: date) -> str:
    """Return the text of an estimate; methods without a price are left out."""
    catalogue = offer.drawn.catalogue
    estimate = Estimate(
        schema_version=SCHEMA,
        job_code=offer.drawn.job.code,
        revision=offer.drawn.job.revision,
        made_on=made_on,
        catalogue=catalogue.name,
        catalogue_version=catalogue.version,
        catalogue_from=catalogue.valid_from,
        rates=offer.rates,
        methods=tuple(
            _frozen(one, one.price) for one in offer.methods if isinstance(one.price, Price)
        ),
    )
    return json.dumps(_ESTIMATE.dump_python(estimate, mode="json"), indent=2) + "\n"


def loads(text: str) -> Estimate:
    """Return the estimate a text holds.

    Raises
    ------
    ResourceError
        If it is no estimate, or of a newer schema; the text names the field.
    """
    try:
        estimate = _ESTIMATE.validate_json(text)
    except ValidationError as error:
        fault = error.errors()[0]
        where = ".".join(str(part) for part in fault["loc"]) or "file"
        told = (
            f"This is not an estimate: {where}: {fault['msg']}. Choose a file ending in "
            f"{SUFFIX} from an offer."
        )
        raise ResourceError(told) from error
    if estimate.schema_version != SCHEMA:
        told = (
            f"The estimate is in format {estimate.schema_version}; this program reads format "
            f"{SCHEMA}."
        )
        raise ResourceError(f"{told} Open it with the version of the program that made it.")
    return estimate


def again(estimate: Estimate) -> tuple[Recomputed, ...]:
    """Return every sum as it was offered, beside what follows from lines, hours and rates."""
    return tuple(
        Recomputed(
            method=one.method,
            name=name,
            offered=one.offered.get(name, Decimal("NaN")),
            again=amount,
        )
        for one in estimate.methods
        for name, amount in _sums(one.price(estimate.rates)).items()
    )


def figures(estimate: Estimate) -> dict[str, Any]:
    """Return an estimate worked out again, under the names that reports print."""
    sums = again(estimate)
    return {
        "job": {"code": estimate.job_code, "revision": estimate.revision},
        "made_on": estimate.made_on.isoformat(),
        "catalogue": {
            "name": estimate.catalogue,
            "version": estimate.catalogue_version,
            "valid_from": estimate.catalogue_from.isoformat(),
        },
        "sums": [
            {
                "method": one.method.value,
                "sum": one.name,
                "offered": str(one.offered),
                "again": str(one.again),
            }
            for one in sums
        ],
        "same": all(one.same for one in sums),
    }


def _frozen(one: MethodOffer, price: Price) -> FrozenMethod:
    lines = one.bill.costed.lines if one.bill is not None else ()
    return FrozenMethod(
        method=one.option.method,
        area_m2=price.area_m2,
        lines=tuple(
            FrozenLine(
                group=priced.line.group,
                code=priced.line.code,
                name=priced.line.name,
                charge=priced.line.charge,
                packs=priced.line.packs,
                rate=priced.rate,
            )
            for priced in lines
            if priced.line.packs and priced.rate is not None
        ),
        contingency_percent=price.rates.contingency_percent,
        discount_percent=price.discount_percent,
        discount_gbp=price.discount_gbp,
        hours={line.trade: line.hours for line in price.labour},
        offered=_sums(price),
    )


def _sums(price: Price) -> dict[str, Decimal]:
    # Files from before firms rounded have no such sum, and need none.
    rounding = {"rounding": price.rounding} if price.rates.rounds else {}
    return {
        "materials": price.materials,
        "preliminaries": price.preliminaries,
        "direct": price.direct,
        "contingency": price.contingency,
        "overhead": price.overhead,
        "floor_price": price.cost,
        "profit": price.profit,
        "discount": price.discount,
        **rounding,
        "ex_vat": price.ex_vat,
        "vat": price.vat,
        "total": price.total,
        "shown_apart": price.shown_apart,
    }


def _sum(lines: list[FrozenLine]) -> Decimal:
    return sum((one.amount for one in lines), Decimal(0))
