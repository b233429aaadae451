"""Pieces in bundles one man can carry, in the order they are fixed on the roof."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.parts.layout import Placed
from roofmodel.drawings.sheets.cut_on_facet import CutPlan

ONE_MAN_KG = 25.0
"""What one man lifts; heavier pieces take two (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bundle:
    """Pieces of one material for one facet, numbered in the order of fixing."""

    number: int
    facet: str
    good: SheetGood
    placed: tuple[Placed, ...]

    @property
    def mass_kg(self) -> float:
        """Mass of all pieces [kg]."""
        return sum(mass_kg(one, self.good) for one in self.placed)

    @property
    def men(self) -> int:
        """How many men the bundle takes."""
        return 1 if self.mass_kg <= ONE_MAN_KG else 2


def mass_kg(placed: Placed, good: SheetGood) -> float:
    """Return the mass of one piece [kg]."""
    return placed.part.area_mm2 / 1e6 * good.mass_kg_m2


def bundles(plans: Sequence[CutPlan]) -> tuple[Bundle, ...]:
    """Return a job's bundles: its plans from the room outwards, each facet by its courses."""
    loads: list[Bundle] = []
    for plan in plans:
        for facet in sorted({one.part.facet for one in plan.placed}, key=_number):
            mine = [one for one in plan.placed if one.part.facet == facet]
            for load in _loads(sorted(mine, key=_order), plan.good):
                loads.append(
                    Bundle(number=len(loads) + 1, facet=facet, good=plan.good, placed=load)
                )
    return tuple(loads)


def _number(facet: str) -> int:
    digits = "".join(letter for letter in facet if letter.isdigit())
    return int(digits or 0)


def _order(placed: Placed) -> tuple[float, float]:
    """Return where a piece comes in its facet: from the eaves up, then from the left."""
    return (round(placed.part.at_mm[1], 1), placed.part.at_mm[0])


def _loads(placed: Sequence[Placed], good: SheetGood) -> Iterator[tuple[Placed, ...]]:
    load: list[Placed] = []
    for one in placed:
        heavier = sum(mass_kg(other, good) for other in load) + mass_kg(one, good)
        if load and heavier > ONE_MAN_KG:
            yield tuple(load)
            load = []
        load.append(one)
    if load:
        yield tuple(load)
