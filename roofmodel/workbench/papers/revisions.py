"""What changed from one revision of a job to the next: parts, sheets, price, labels to bin."""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from roofmodel.cutting.parts.part import Part
from roofmodel.cutting.plan import Plan
from roofmodel.pricing.price import Incomplete, Price
from roofmodel.pricing.rates import Rates
from roofmodel.quantities import lengths
from roofmodel.storage import job_file
from roofmodel.workbench.job import carried
from roofmodel.workbench.job.options import Option
from roofmodel.workbench.job.reckoning import Drawn
from roofmodel.workbench.offer import bills, selling


@dataclass(frozen=True, slots=True, kw_only=True)
class CutRevision:
    """One revision, cut: the job, its method, and the plans by the number of their layer."""

    drawn: Drawn
    option: Option
    plans: Mapping[int, Plan]
    rates: Rates

    @property
    def price(self) -> Price | Incomplete:
        """What the method sells for in this revision, or what is missing."""
        return selling.price(self.drawn, self.option, self.plans, self.rates)

    @property
    def parts(self) -> dict[str, Part]:
        """Every part by its mark."""
        return {part.mark: part for plan in self.plans.values() for part in plan.problem.parts}

    @property
    def places(self) -> dict[str, object]:
        """Sheet, place and turn of every part by its mark."""
        return {
            one.part.mark: (plan.material, one.sheet_no, one.x_mm, one.y_mm, one.turned_deg)
            for plan in self.plans.values()
            for one in plan.layout.placed
        }

    @property
    def lengths_mm(self) -> dict[str, float]:
        """Every piece cut from a length by its material and mark, and how long it is [mm]."""
        if self.option.refit is None:
            return {}
        made = lengths.cuts(self.option.refit, self.drawn.catalogue)
        return {
            f"{cut.plan.material} {part.mark}": part.length / 10
            for cut in made.values()
            if cut.plan is not None
            for part in cut.plan.problem.parts
        }

    @property
    def entries(self) -> dict[str, object]:
        """Every entry of the job under its path, but for the revision and its release."""
        fields = json.loads(job_file.dumps(self.drawn.job))
        return dict(_flat({k: v for k, v in fields.items() if k not in ("revision", "released")}))

    @property
    def sheets(self) -> dict[str, int]:
        """Sheets by material."""
        return {plan.material: plan.sheets for plan in self.plans.values()}

    @property
    def total(self) -> Decimal | None:
        """Materials and preliminaries [GBP ex VAT], None while something is missing."""
        return bills.priced(self.drawn, self.option, self.plans).costed.total()


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """What the newer revision has that the older has not, and the other way round."""

    old: CutRevision
    new: CutRevision

    @property
    def added(self) -> tuple[str, ...]:
        """Marks of parts that are new."""
        return tuple(sorted(self.new.parts.keys() - self.old.parts.keys()))

    @property
    def dropped(self) -> tuple[str, ...]:
        """Marks of parts that are no more."""
        return tuple(sorted(self.old.parts.keys() - self.new.parts.keys()))

    @property
    def altered(self) -> tuple[str, ...]:
        """Marks of parts that are cut to another shape or bevel."""
        old, new = self.old.parts, self.new.parts
        return tuple(
            sorted(
                mark
                for mark in old.keys() & new.keys()
                if (old[mark].corners, old[mark].bevels_deg)
                != (new[mark].corners, new[mark].bevels_deg)
            )
        )

    @property
    def sizes(self) -> dict[str, tuple[str, str]]:
        """Length and width of every altered part, before and now [mm]."""
        old, new = self.old.parts, self.new.parts
        return {mark: (_size(old[mark]), _size(new[mark])) for mark in self.altered}

    @property
    def may_stay(self) -> tuple[str, ...]:
        """Marks of parts that are as they were: one that is cut already is not cut again."""
        same = self.old.parts.keys() & self.new.parts.keys()
        return tuple(sorted(same - set(self.altered)))

    @property
    def lengths(self) -> dict[str, tuple[float | None, float | None]]:
        """Pieces of lengths that are new, gone or otherwise: before and now, None for none [mm]."""
        old, new = self.old.lengths_mm, self.new.lengths_mm
        both = {mark: (old.get(mark), new.get(mark)) for mark in sorted(old.keys() | new.keys())}
        return {mark: (before, now) for mark, (before, now) in both.items() if before != now}

    @property
    def entries(self) -> dict[str, tuple[object, object]]:
        """What was entered otherwise, by its path: before and now, None for nothing."""
        old, new = self.old.entries, self.new.entries
        both = {path: (old.get(path), new.get(path)) for path in sorted(old.keys() | new.keys())}
        return {path: (before, now) for path, (before, now) in both.items() if before != now}

    @property
    def labels_to_bin(self) -> tuple[str, ...]:
        """Marks whose printed labels are wrong now: of parts gone, cut otherwise, or moved."""
        return tuple(sorted({*self.dropped, *self.altered, *self._moved}))

    @property
    def labels_to_reprint(self) -> tuple[str, ...]:
        """Marks of parts that need a new label: new ones, those cut otherwise, and moved ones."""
        return tuple(sorted({*self.added, *self.altered, *self._moved}))

    @property
    def _moved(self) -> tuple[str, ...]:
        """Marks of parts that are as they were, on another sheet or elsewhere on it."""
        old, new = self.old.places, self.new.places
        return tuple(mark for mark in self.may_stay if old[mark] != new[mark])

    @property
    def sheets_that_stay(self) -> dict[str, tuple[int, ...]]:
        """Numbers of sheets that are as they were, part by part, by their material."""
        stay = {
            plan.material: tuple(
                number
                for number in range(1, plan.sheets + 1)
                if number <= old.sheets and _on_sheet(plan, number) == _on_sheet(old, number)
            )
            for layer, plan in self.new.plans.items()
            if (old := self.old.plans.get(layer)) is not None
        }
        return {material: numbers for material, numbers in stay.items() if numbers}

    @property
    def sheets(self) -> dict[str, int]:
        """Sheets more (or, below 0, fewer) by material; materials alike are left out."""
        codes = dict.fromkeys((*self.old.sheets, *self.new.sheets))
        more_by_code = {
            code: self.new.sheets.get(code, 0) - self.old.sheets.get(code, 0) for code in codes
        }
        return {code: more for code, more in more_by_code.items() if more}

    @property
    def materials(self) -> Decimal | None:
        """What materials and preliminaries cost more [GBP ex VAT], None while one is missing."""
        old, new = self.old.total, self.new.total
        return None if old is None or new is None else new - old

    @property
    def price(self) -> tuple[Decimal, Decimal] | None:
        """By how much the price changes, without and with VAT [GBP]; None while one is missing.

        It is what a change order asks for: materials, labour, overhead, profit and all.
        """
        old, new = self.old.price, self.new.price
        if isinstance(old, Incomplete) or isinstance(new, Incomplete):
            return None
        return new.ex_vat - old.ex_vat, new.total - old.total


def change(old: CutRevision, new: CutRevision) -> Change:
    """Return what changed between two revisions of one job.

    Raises
    ------
    JobFileError
        If they are not two revisions of one job.
    """
    carried.refuse_others(old.drawn, new.drawn)
    return Change(old=old, new=new)


def figures(revisions: Change) -> dict[str, Any]:
    """Return a change under the names that reports print."""
    return {
        "job": revisions.new.drawn.job.code,
        "from_revision": revisions.old.drawn.job.revision,
        "to_revision": revisions.new.drawn.job.revision,
        "method": revisions.new.option.method.value,
        "area_m2": round(revisions.new.drawn.roof.area_m2 - revisions.old.drawn.roof.area_m2, 4),
        "parts_added": list(revisions.added),
        "parts_dropped": list(revisions.dropped),
        "parts_altered": list(revisions.altered),
        "parts_that_may_stay": list(revisions.may_stay),
        "sizes_mm": {mark: list(sizes) for mark, sizes in revisions.sizes.items()},
        "lengths_mm": {mark: list(both) for mark, both in revisions.lengths.items()},
        "entries": {path: list(both) for path, both in revisions.entries.items()},
        "sheets_that_stay": {code: list(n) for code, n in revisions.sheets_that_stay.items()},
        "labels_to_bin": list(revisions.labels_to_bin),
        "labels_to_reprint": list(revisions.labels_to_reprint),
        "sheets": revisions.sheets,
        "materials_and_preliminaries_gbp": None
        if revisions.materials is None
        else str(revisions.materials),
        "price_ex_vat_gbp": None if revisions.price is None else str(revisions.price[0]),
        "price_gbp": None if revisions.price is None else str(revisions.price[1]),
    }


def _on_sheet(plan: Plan, number: int) -> set[object]:
    return {
        (one.part.mark, one.part.corners, one.part.bevels_deg, one.x_mm, one.y_mm, one.turned_deg)
        for one in plan.layout.on_sheet(number)
    }


def _size(part: Part) -> str:
    """Return length and width of what is cut, as papers print it."""
    return " x ".join(f"{tenths / 10:.1f}" for tenths in part.cut_size_tenths)


def _flat(fields: object, path: str = "") -> Iterator[tuple[str, object]]:
    """Yield every single entry with its path, such as ``bars.0.width_mm``."""
    if isinstance(fields, dict):
        for name, value in fields.items():
            yield from _flat(value, f"{path}.{name}" if path else str(name))
    elif isinstance(fields, list):
        for number, value in enumerate(fields):
            yield from _flat(value, f"{path}.{number}")
    else:
        yield path, fields
