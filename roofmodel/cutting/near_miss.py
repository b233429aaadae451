"""What a small change would save: found by trying it, never by a rule of thumb."""

import math
from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.laying.rule import LayingRules
from roofmodel.cutting.parts.problem import Problem
from roofmodel.cutting.plan import Plan
from roofmodel.foundation.errors import CuttingError, DimensionError

_CLOSE_MM = 25.0
"""Pieces that would fit once more across a sheet were they narrower by this in all are told of."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """A change in words, such as ``8 mm fitting gap instead of 5 mm``, and how to plan it.

    ``sheet_price`` is that of the sheet then used, where it is another one.
    """

    change: str
    attempt: Callable[[], Plan]
    sheet_price: Decimal | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class NearMiss:
    """A change that saves sheets or money: how many sheets it takes, and what it saves.

    ``saved`` is None where a price is missing. Sheets of another size are not counted as saved.
    """

    change: str
    sheets: int
    instead_of: int
    saved: Decimal | None

    @property
    def sentence(self) -> str:
        """The change and its worth in words."""
        worth = "" if self.saved is None else f", £{self.saved:.2f} saved before VAT"
        return f"{self.sheets} sheets instead of {self.instead_of} with {self.change}{worth}."


def near_misses(
    found: Plan, trials: Iterable[Trial], *, sheet_price: Decimal | None = None
) -> tuple[NearMiss, ...]:
    """Return the changes that save, the most worth first.

    Parameters
    ----------
    found : Plan
        The plan as it stands.
    trials : iterable of Trial
        What to try. One whose pieces cannot be cut is no saving and is left out.
    sheet_price : Decimal, optional
        Price of one sheet of the plan; without it nothing is said in money.
    """
    saving = []
    for trial in trials:
        try:
            tried = trial.attempt()
        except (CuttingError, DimensionError):
            continue
        price = trial.sheet_price if trial.sheet_price is not None else sheet_price
        saved = None
        if sheet_price is not None and price is not None:
            saved = found.sheets * sheet_price - tried.sheets * price
        if (saved is None and tried.sheets < found.sheets) or (saved is not None and saved > 0):
            saving.append(
                NearMiss(
                    change=trial.change,
                    sheets=tried.sheets,
                    instead_of=found.sheets,
                    saved=saved,
                )
            )
    return tuple(sorted(saving, key=lambda miss: (-(miss.saved or Decimal(0)), miss.sheets)))


def other_gaps(
    plan_at: Callable[[float], Plan], *, now_mm: float, gaps_mm: Iterable[float]
) -> tuple[Trial, ...]:
    """Return trials of other fitting gaps; ``plan_at`` plans the pieces for a gap [mm]."""

    def attempt(gap_mm: float) -> Callable[[], Plan]:
        return lambda: plan_at(gap_mm)

    return tuple(
        Trial(
            change=f"a fitting gap of {gap_mm:g} mm instead of {now_mm:g} mm",
            attempt=attempt(gap_mm),
        )
        for gap_mm in gaps_mm
        if gap_mm != now_mm
    )


def other_stock(
    plan_with: Callable[[SheetGood], Plan],
    good: SheetGood,
    sizes: Mapping[tuple[float, float], Decimal | None],
) -> tuple[Trial, ...]:
    """Return trials of other stock sizes.

    Parameters
    ----------
    plan_with : callable
        Plans the same roof or pieces with a sheet material.
    good : SheetGood
        The material as it is.
    sizes : mapping
        Length and width of a stock sheet [mm] to its price, None where not known.
    """

    def attempt(length_mm: float, width_mm: float) -> Callable[[], Plan]:
        return lambda: plan_with(replace(good, length_mm=length_mm, width_mm=width_mm))

    return tuple(
        Trial(
            change=f"{length:g} × {width:g} mm stock instead of "
            f"{good.length_mm:g} × {good.width_mm:g} mm",
            attempt=attempt(length, width),
            sheet_price=price,
        )
        for (length, width), price in sizes.items()
        if (length, width) != (good.length_mm, good.width_mm)
    )


def more_cuts(plan_by: Callable[[LayingRules], Plan], rules: LayingRules) -> tuple[Trial, ...]:
    """Return trials of rules that allow more, shorter pieces than the ruled ones.

    ``plan_by`` plans the same facets by other rules.
    """

    def attempt(eased: LayingRules) -> Callable[[], Plan]:
        return lambda: plan_by(eased)

    bays = rules.bays_spanned_least
    eased = []
    if rules.joints == "supports" and bays > 1:
        text = f"pieces over at least {bays - 1} instead of {bays} bays"
        eased.append((text, replace(rules, bays_spanned_least=bays - 1)))
    if rules.joints == "supports":
        text = "joints on noggings between the bars as well"
        eased.append((text, replace(rules, joints="free", bays_spanned_least=1)))
    if rules.rows == "whole":
        eased.append(("rows ripped where that saves", replace(rules, rows="ripped")))
    return tuple(Trial(change=text, attempt=attempt(other)) for text, other in eased)


def too_wide(problem: Problem) -> tuple[str, ...]:
    """Return a sentence for every size of piece that just misses lying once more on a sheet."""
    found = []
    kerf, length, width = (
        tenths / 10 for tenths in (problem.kerf, problem.usable_length, problem.usable_width)
    )
    sizes: Counter[tuple[float, float]] = Counter()
    for part in problem.parts:
        drawn = (part.length_tenths / 10, part.width_tenths / 10)
        ways = [drawn] * part.may_lie_as_drawn + [drawn[::-1]] * part.may_lie_across
        sizes[max(way for way in ways if way[0] <= length and way[1] <= width)] += 1
    for (along, across), count in sorted(sizes.items()):
        for size, room, words in ((across, width, "abreast"), (along, length, "in line")):
            fitting = math.floor((room + kerf) / (size + kerf) + 1e-9)
            over = (fitting + 1) * (size + kerf) - (room + kerf)
            if count > fitting >= 1 and 0 < over <= _CLOSE_MM:
                found.append(
                    f"{count} pieces of {along:g} × {across:g} mm are {over / (fitting + 1):.1f} "
                    f"mm each too wide for {fitting + 1} {words}."
                )
    return tuple(found)
