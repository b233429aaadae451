"""The materials of a take-off at the catalogue's prices."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from roofmodel.buildups.material import Charge
from roofmodel.foundation.figure import Figure
from roofmodel.foundation.source import COMPUTED, UNKNOWN, Source
from roofmodel.quantities.bill import Bill, BillLine

PENNY = Decimal("0.01")
ROUNDING = "each line to the penny, halves up; totals add the rounded lines"
"""The rule printed beside every total."""

APART = (Charge.PASS_THROUGH, Charge.PROVISIONAL)
"""Charged as they come, outside the materials."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PricedLine:
    """A line of the take-off with its price for a pack and its amount, ex VAT.

    Both are None where something is missing, which ``lacks`` names.
    """

    line: BillLine
    rate: Decimal | None
    amount: Decimal | None
    lacks: str = ""

    @property
    def figures(self) -> dict[str, Figure]:
        """The figures of its line, and the price and the amount that follow."""
        found, price = self.line.figures, self.line.price
        rate = Figure(
            name=f"{self.line.code} price of a pack",
            value=None if self.rate is None else float(self.rate),
            unit="GBP",
            source=UNKNOWN
            if price is None
            else Source(price.source, f"price of {price.dated.isoformat()}", verified=False),
        )
        amount = Figure(
            name=f"{self.line.code} amount",
            value=None if self.amount is None else float(self.amount),
            unit="GBP",
            source=COMPUTED,
            inputs=(found["packs"], rate),
        )
        return {**found, "rate_gbp": rate, "amount_gbp": amount}

    @property
    def apart(self) -> bool:
        """Whether it is shown apart from the materials: pass-through and provisional sums."""
        return self.line.charge in APART


@dataclass(frozen=True, slots=True, kw_only=True)
class Costed:
    """A take-off with prices; there is no total while an item that applies lacks something."""

    lines: tuple[PricedLine, ...]

    @property
    def lacking(self) -> tuple[PricedLine, ...]:
        """Lines that keep the total from being shown."""
        return tuple(line for line in self.lines if line.lacks)

    def total(self, groups: Mapping[str, bool] | None = None) -> Decimal | None:
        """Return the sum of the lines that are not shown apart, None while one is incomplete.

        Parameters
        ----------
        groups
            Which groups to add, by name; all of them when left out.
        """
        chosen = [
            line
            for line in self.lines
            if not line.apart and (groups is None or groups.get(line.line.group, False))
        ]
        if any(line.lacks for line in chosen):
            return None
        return sum((line.amount for line in chosen if line.amount is not None), Decimal(0))

    @property
    def figure(self) -> Figure:
        """The total with the amounts it is made of."""
        total = self.total()
        return Figure(
            name="materials and preliminaries",
            value=None if total is None else float(total),
            unit="GBP",
            source=COMPUTED,
            inputs=tuple(
                one.figures["amount_gbp"] for one in self.lines if one.amount and not one.apart
            ),
        )

    @property
    def incomplete(self) -> str:
        """What is said instead of a total; empty when nothing is missing."""
        missing = self.lacking
        if not missing:
            return ""
        items = "item" if len(missing) == 1 else "items"
        codes = ", ".join(dict.fromkeys(line.line.code for line in missing))
        return f"incomplete: {len(missing)} {items} ({codes})"


def cost(bill: Bill) -> Costed:
    """Return the lines of a take-off with their amounts."""
    return Costed(lines=tuple(_priced(line) for line in bill.lines))


def _priced(line: BillLine) -> PricedLine:
    rate = line.price.amount if line.price is not None else None
    if line.lacks:
        return PricedLine(line=line, rate=rate, amount=None, lacks=line.lacks)
    packs = line.packs
    if packs is not None and packs == 0:
        return PricedLine(line=line, rate=rate, amount=Decimal(0))
    if rate is None or packs is None:
        text = f"{line.code} has no price in the catalogue"
        return PricedLine(line=line, rate=None, amount=None, lacks=text)
    amount = (packs * rate).quantize(PENNY, rounding=ROUND_HALF_UP)
    return PricedLine(line=line, rate=rate, amount=amount)
