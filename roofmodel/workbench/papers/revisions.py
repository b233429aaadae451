"""What changed from one revision of a job to the next: parts, sheets, price, labels to bin."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from roofmodel.cutting.parts.part import Part
from roofmodel.cutting.plan import Plan
from roofmodel.foundation.errors import JobFileError
from roofmodel.pricing.price import Incomplete, Price
from roofmodel.pricing.rates import Rates
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
    def labels_to_bin(self) -> tuple[str, ...]:
        """Marks whose printed labels must not be used any more."""
        return tuple(sorted((*self.dropped, *self.altered)))

    @property
    def sheets(self) -> dict[str, int]:
        """Sheets more (or, below 0, fewer) by material; materials alike are left out."""
        codes = dict.fromkeys((*self.old.sheets, *self.new.sheets))
        found = {
            code: self.new.sheets.get(code, 0) - self.old.sheets.get(code, 0) for code in codes
        }
        return {code: more for code, more in found.items() if more}

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
    before, after = old.drawn.job, new.drawn.job
    if before.code != after.code:
        raise JobFileError(
            f"{before.code} and {after.code} are two jobs, not two revisions of one. "
            "Name two files of the same job."
        )
    if before.revision == after.revision and before != after:
        raise JobFileError(
            f"Both files are revision {before.revision} and they differ. Give the newer one the "
            "next letter, so that nobody cuts from the wrong papers."
        )
    return Change(old=old, new=new)


def figures(found: Change) -> dict[str, Any]:
    """Return a change under the names that reports print."""
    return {
        "job": found.new.drawn.job.code,
        "from_revision": found.old.drawn.job.revision,
        "to_revision": found.new.drawn.job.revision,
        "method": found.new.option.method.value,
        "area_m2": round(found.new.drawn.roof.area_m2 - found.old.drawn.roof.area_m2, 4),
        "parts_added": list(found.added),
        "parts_dropped": list(found.dropped),
        "parts_altered": list(found.altered),
        "labels_to_bin": list(found.labels_to_bin),
        "sheets": found.sheets,
        "materials_gbp": None if found.materials is None else str(found.materials),
        "price_ex_vat_gbp": None if found.price is None else str(found.price[0]),
        "price_gbp": None if found.price is None else str(found.price[1]),
    }
