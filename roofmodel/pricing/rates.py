"""What an hour costs, and what is put on top of direct cost."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_UP, Decimal
from enum import StrEnum
from functools import cache
from pathlib import Path
from typing import Any, Literal

from pydantic import ConfigDict, TypeAdapter, with_config

from roofmodel.foundation import in_range, resources, toml_rows
from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.quantities.labour import Trade

HUNDRED = Decimal(100)
PENNY = Decimal("0.01")


class ProfitIs(StrEnum):
    """What the percentage of profit is taken of."""

    MARK_UP = "mark-up"
    MARGIN = "margin"


class Rounding(StrEnum):
    """Which way a price goes to the next whole step."""

    NEAREST = "nearest"
    UP = "up"
    DOWN = "down"


@with_config(ConfigDict(extra="forbid"))
@dataclass(frozen=True, slots=True, kw_only=True)
class Rates:
    """The firm's rates [GBP ex VAT] and percentages.

    A mark-up is a share of cost, a margin a share of the price: 18 % mark-up is 15.25 % margin.
    ``price_step_gbp`` is what prices with VAT are rounded to, and ``price_rounded`` which way; a
    step of a penny leaves them as they come out.
    """

    dated: date
    source: str
    installer_gbp_h: Decimal
    electrician_gbp_h: Decimal
    plasterer_gbp_h: Decimal
    workshop_gbp_h: Decimal | None = None
    overhead_percent: Decimal
    profit_percent: Decimal
    profit_is: ProfitIs
    vat_percent: Decimal
    contingency_percent: Decimal = Decimal(0)
    hours_a_day: Decimal = Decimal(8)
    productive_hours_a_day: Decimal = Decimal(7)
    bank_holidays_of: Literal["England", "Wales", "Scotland", "Northern Ireland"] = "England"
    price_step_gbp: Decimal = PENNY
    price_rounded: Rounding = Rounding.NEAREST

    def __post_init__(self) -> None:
        """Refuse rates nobody charges, all at once."""
        faults = in_range.faults(self, _RANGES)
        if self.productive_hours_a_day > self.hours_a_day:
            text = f"{self.productive_hours_a_day:g} h of work do not fit into a day of "
            text += f"{self.hours_a_day:g} h."
            remedy = "Enter no more productive hours than hours in a day."
            faults.append(Fault("productive_hours_a_day", text, remedy))
        if self.profit_is is ProfitIs.MARGIN and not self.profit_percent < HUNDRED:
            text = "A margin of the whole price leaves nothing for the cost."
            faults.append(Fault("profit_percent", text, "Enter less than 100."))
        if not faults and self.price_step_gbp % PENNY:
            text = f"Prices in steps of £{self.price_step_gbp:f} are not whole pence."
            remedy = "Enter 0.01 to leave prices as they come out, or 1, 5, 10 …"
            faults.append(Fault("price_step_gbp", text, remedy))
        if faults:
            raise DimensionError(faults)

    def hour_of(self, trade: Trade) -> Decimal:
        """Return what an hour of a trade costs [GBP]."""
        return {
            Trade.INSTALLER: self.installer_gbp_h,
            Trade.ELECTRICIAN: self.electrician_gbp_h,
            Trade.PLASTERER: self.plasterer_gbp_h,
            # The firm's own installers stand in the workshop where no rate of its own is given.
            Trade.WORKSHOP: self.workshop_gbp_h or self.installer_gbp_h,
        }[trade]

    def profit_on(self, cost: Decimal) -> Decimal:
        """Return the profit on a cost [GBP], not rounded."""
        if self.profit_is is ProfitIs.MARK_UP:
            return cost * self.profit_percent / HUNDRED
        return cost * self.profit_percent / (HUNDRED - self.profit_percent)

    def rounded(self, amount: Decimal) -> Decimal:
        """Return an amount with VAT [GBP] as the firm prints it: a whole number of its steps."""
        steps = (amount / self.price_step_gbp).quantize(
            Decimal(1), rounding=_WAYS[self.price_rounded]
        )
        return (steps * self.price_step_gbp).quantize(PENNY)

    @property
    def rounds(self) -> bool:
        """Whether the firm rounds its prices at all."""
        return self.price_step_gbp != PENNY

    @property
    def profit_words(self) -> str:
        """The profit as it is printed, said both ways."""
        p = self.profit_percent
        if self.profit_is is ProfitIs.MARK_UP:
            other = p / (HUNDRED + p) * HUNDRED
            return f"profit {p:g} % mark-up ({other:.2f} % margin)"
        other = p / (HUNDRED - p) * HUNDRED
        return f"profit {p:g} % margin ({other:.2f} % mark-up)"


_WAYS = {
    Rounding.NEAREST: ROUND_HALF_UP,
    Rounding.UP: ROUND_CEILING,
    Rounding.DOWN: ROUND_FLOOR,
}

_RANGES = {
    "installer_gbp_h": (Decimal(1), Decimal(500)),
    "electrician_gbp_h": (Decimal(1), Decimal(500)),
    "plasterer_gbp_h": (Decimal(1), Decimal(500)),
    "workshop_gbp_h": (Decimal(1), Decimal(500)),
    "overhead_percent": (Decimal(0), Decimal(200)),
    "profit_percent": (Decimal(0), Decimal(200)),
    "vat_percent": (Decimal(0), Decimal(50)),
    "contingency_percent": (Decimal(0), Decimal(50)),
    "hours_a_day": (Decimal(1), Decimal(16)),
    "productive_hours_a_day": (Decimal(1), Decimal(16)),
    "price_step_gbp": (PENNY, Decimal(1000)),
}

_RATES: TypeAdapter[Rates] = TypeAdapter(Rates)


def read(path: Path | None) -> Rates:
    """Return the rates of a file, the shipped ones when none is given.

    Raises
    ------
    ResourceError
        If the file cannot be read, or a field is missing or wrong.
    """
    return shipped() if path is None else of_table(resources.read_toml(path), name=path.name)


def of_table(table: Mapping[str, Any], *, name: str) -> Rates:
    """Return the rates of a table; ``name`` is what errors call its file.

    Raises
    ------
    ResourceError
        If a field is missing or wrong.
    """
    return toml_rows.of_table(table, _RATES, name=name)


@cache
def shipped() -> Rates:
    """Return the shipped rates; they are invented.

    Raises
    ------
    ResourceError
        If the file is wrong.
    """
    return of_table(resources.read_toml(resources.folder() / "rates.toml"), name="rates.toml")
