"""The price of a method: materials, labour, preliminaries, overhead, profit, VAT.

Money is decimal. Every line is rounded to the penny, halves up, and sums add the rounded lines.
There is no price while anything lacks a quantity or a price. Last of all the price with VAT goes to
whole steps, where the firm rounds; what that adds or takes off is a line of its own without VAT.
"""

from dataclasses import dataclass, replace
from decimal import ROUND_HALF_UP, Decimal

from roofmodel.pricing.material_cost import Costed
from roofmodel.pricing.rates import HUNDRED, PENNY, Rates
from roofmodel.quantities.job_lines import JobEstimate
from roofmodel.quantities.labour import TaskHours, Trade, total_h

PRELIMINARIES = "preliminaries"
_ZERO = Decimal(0)


def pence(amount: Decimal) -> Decimal:
    """Return an amount to the penny, halves up."""
    return amount.quantize(PENNY, rounding=ROUND_HALF_UP)


@dataclass(frozen=True, slots=True, kw_only=True)
class LabourLine:
    """The hours of one trade and what they cost [GBP]."""

    trade: Trade
    hours: Decimal
    rate: Decimal

    @property
    def amount(self) -> Decimal:
        """What they cost, to the penny."""
        return pence(self.hours * self.rate)


@dataclass(frozen=True, slots=True, kw_only=True)
class Price:
    """A complete price [GBP]; every sum follows from the lines."""

    materials: Decimal
    preliminaries: Decimal
    labour: tuple[LabourLine, ...]
    shown_apart: Decimal
    rates: Rates
    area_m2: float
    discount_percent: Decimal = _ZERO
    discount_gbp: Decimal = _ZERO

    @property
    def direct(self) -> Decimal:
        """Direct cost."""
        labour = sum((line.amount for line in self.labour), _ZERO)
        return self.materials + self.preliminaries + labour

    @property
    def contingency(self) -> Decimal:
        """Contingency, a line of its own."""
        return pence(self.direct * self.rates.contingency_percent / HUNDRED)

    @property
    def overhead(self) -> Decimal:
        """Overhead on direct cost and contingency."""
        return pence((self.direct + self.contingency) * self.rates.overhead_percent / HUNDRED)

    @property
    def cost(self) -> Decimal:
        """Direct cost with contingency and overhead: below it the job loses money."""
        return self.direct + self.contingency + self.overhead

    @property
    def profit(self) -> Decimal:
        """Profit."""
        return pence(self.rates.profit_on(self.cost))

    @property
    def discount(self) -> Decimal:
        """What is taken off for this job: the percentage of cost and profit, and the sum."""
        whole = self.cost + self.profit
        return pence(whole * self.discount_percent / HUNDRED) + self.discount_gbp

    @property
    def below_cost(self) -> bool:
        """Whether the discount takes the price below what the job costs."""
        return self.ex_vat < self.cost

    @property
    def worked_ex_vat(self) -> Decimal:
        """Price ex VAT as it comes out, the discount taken off and nothing rounded to steps."""
        return self.cost + self.profit - self.discount

    @property
    def worked_total(self) -> Decimal:
        """Price including VAT as it comes out."""
        worked = self.worked_ex_vat
        return worked + pence(worked * self.rates.vat_percent / HUNDRED)

    @property
    def rounding(self) -> Decimal:
        """What the firm's rule of rounding adds to the price ex VAT, below 0 what it takes off."""
        return self.ex_vat - self.worked_ex_vat

    @property
    def ex_vat(self) -> Decimal:
        """Price ex VAT: what is left of the price with VAT, so that both and VAT add up."""
        total = self.total
        if total == self.worked_total:
            return self.worked_ex_vat
        return pence(total * HUNDRED / (HUNDRED + self.rates.vat_percent))

    @property
    def vat(self) -> Decimal:
        """VAT."""
        return self.total - self.ex_vat

    @property
    def total(self) -> Decimal:
        """Price including VAT, in whole steps where the firm rounds."""
        return self.rates.rounded(self.worked_total)

    @property
    def all_in(self) -> Decimal:
        """Price and what is paid apart, both including VAT: what the customer has to find.

        Taken to carry VAT like the work; a fee that does not is then cheaper, never dearer.
        """
        apart = self.shown_apart * (HUNDRED + self.rates.vat_percent) / HUNDRED
        return self.total + pence(apart)

    @property
    def per_m2(self) -> Decimal:
        """Price ex VAT for a square metre of roof: a check on sanity."""
        return pence(self.ex_vat / Decimal(repr(self.area_m2)))

    @property
    def hours(self) -> Decimal:
        """Man-hours of the firm's own installers."""
        return sum((x.hours for x in self.labour if x.trade is Trade.INSTALLER), _ZERO)


@dataclass(frozen=True, slots=True, kw_only=True)
class Incomplete:
    """No price, and what is missing."""

    text: str


def price(
    costed: Costed,
    tasks: tuple[TaskHours, ...],
    rates: Rates,
    *,
    area_m2: float,
    entry: JobEstimate | None = None,
) -> Price | Incomplete:
    """Return the price of a take-off and its tasks; what is missing where one cannot be given.

    Parameters
    ----------
    costed
        The take-off with prices.
    tasks
        Man-hours of every task.
    rates
        The firm's rates.
    area_m2
        Area of the roof the price is divided by [m²].
    entry
        What the job has of its own: a discount, a contingency.
    """
    own = entry or JobEstimate()
    if own.contingency_percent is not None:
        rates = replace(rates, contingency_percent=own.contingency_percent)
    if costed.incomplete:
        return Incomplete(text=costed.incomplete)
    # Hours that are not known stand at zero; a price with them would be too low, so there is none.
    lacking = next((one for one in tasks if one.lacks), None)
    if lacking is not None:
        return Incomplete(text=f"incomplete: hours for “{lacking.task.name}” ({lacking.lacks})")
    # Two sums that leave nothing out and count nothing twice: everything but the preliminaries, and
    # the preliminaries alone.
    groups = {line.line.group: True for line in costed.lines}
    materials = costed.total(groups | {PRELIMINARIES: False})
    preliminaries = costed.total({PRELIMINARIES: True})
    if materials is None or preliminaries is None:
        return Incomplete(text=costed.incomplete)
    apart = sum((one.amount for one in costed.lines if one.apart and one.amount), _ZERO)
    return Price(
        materials=materials,
        preliminaries=preliminaries,
        labour=tuple(
            LabourLine(trade=trade, hours=total_h(tasks, trade), rate=rates.hour_of(trade))
            for trade in Trade
            # The workshop has a line only where its hours are charged.
            if trade is not Trade.WORKSHOP or total_h(tasks, trade)
        ),
        shown_apart=apart,
        rates=rates,
        area_m2=area_m2,
        discount_percent=own.discount_percent,
        discount_gbp=own.discount_gbp,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Sensitivity:
    """By how much the price ex VAT moves when one thing is otherwise [GBP]."""

    words: str
    more: Decimal


def sensitivities(base: Price, *, sheets: Decimal) -> tuple[Sensitivity, ...]:
    """Return what dearer labour, an extra day and dearer sheets do to the price.

    Parameters
    ----------
    base
        The price.
    sheets
        What its sheets cost [GBP].
    """
    day = base.rates.productive_hours_a_day * 2
    changes = (
        ("labour 10 % up", replace(base, labour=_hours(base, Decimal("1.1"), _ZERO))),
        ("labour 10 % down", replace(base, labour=_hours(base, Decimal("0.9"), _ZERO))),
        ("one more day for two installers", replace(base, labour=_hours(base, Decimal(1), day))),
        (
            "sheets 10 % up",
            replace(base, materials=base.materials + pence(sheets * Decimal("0.1"))),
        ),
    )
    return tuple(
        # Before rounding: a step of the firm's would hide what moves less than it.
        Sensitivity(words=words, more=other.worked_ex_vat - base.worked_ex_vat)
        for words, other in changes
    )


def _hours(base: Price, times: Decimal, more: Decimal) -> tuple[LabourLine, ...]:
    return tuple(
        replace(line, hours=line.hours * times + more) if line.trade is Trade.INSTALLER else line
        for line in base.labour
    )
