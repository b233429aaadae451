"""What one job has beside the recipes: extra lines, overrides, choices, alternatives, sums.

Each says what it is and why; a take-off shows it as such. Nothing is taken away in silence: a line
that is overridden keeps what was counted, and the reason.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from enum import StrEnum
from typing import Annotated, Literal

from pydantic import Field

from roofmodel.buildups.catalogue import Catalogue
from roofmodel.buildups.material import MOST_GBP, Charge, Material, Pack, Price, WasteMode
from roofmodel.foundation import in_range
from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.foundation.source import Source
from roofmodel.quantities.bill import Bill, BillLine
from roofmodel.quantities.driver import Place
from roofmodel.quantities.labour import Stage, Task, TaskHours, Trade
from roofmodel.refit.method import Method

GROUP = "job lines"
ENTERED = "entered on the job"


class LineKind(StrEnum):
    """What a line of the job does to the take-off."""

    EXTRA = "extra"
    OVERRIDE = "override"
    CHOSEN = "chosen"
    ALTERNATIVE = "alternative"
    PROVISIONAL = "provisional sum"


@dataclass(frozen=True, slots=True, kw_only=True)
class JobLine:
    """One line of a job.

    An extra is a material of the catalogue, or a text with a rate; it may bring hours. An override
    gives a line of the take-off another quantity, and a choice switches on one that stands at zero.
    An alternative takes another material in the same quantity. A provisional sum is paid as it
    comes, outside the price. No methods mean all of them.
    """

    kind: Annotated[LineKind, Field(description="What the line does", strict=False)]
    text: Annotated[str, Field(description="What it is, as papers show it", max_length=120)] = ""
    material: Annotated[str, Field(description="Code of the catalogue", max_length=40)] = ""
    instead_of: Annotated[
        str, Field(description="Code of the line an alternative replaces", max_length=40)
    ] = ""
    quantity: Annotated[
        float | None, Field(description="How much, in the unit of the material or the line")
    ] = None
    unit: Annotated[str, Field(description="Unit of a text's quantity", max_length=20)] = "each"
    rate_gbp: Annotated[
        Decimal | None,
        Field(description="Price of one unit of a text, or the sum [GBP ex VAT]", strict=False),
    ] = None
    hours: Annotated[float, Field(description="Man-hours an extra adds")] = 0.0
    trade: Annotated[Trade, Field(description="Who works them", strict=False)] = Trade.INSTALLER
    reason: Annotated[str, Field(description="Why a quantity is overridden", max_length=200)] = ""
    methods: Annotated[
        tuple[Method, ...], Field(description="Methods it belongs to; empty for all", strict=False)
    ] = ()

    def __post_init__(self) -> None:
        """Refuse, all at once, what no line of a job can be."""
        faults = in_range.faults(self, _RANGES)
        faults += [Fault(field, text, remedy) for field, text, remedy in self._missing()]
        if faults:
            raise DimensionError(faults)

    def _missing(self) -> list[tuple[str, str, str]]:
        """Return field, fault and remedy of what its kind needs and does not have."""
        name = self.text or self.material or self.kind.value
        whose = self.material and self.quantity is not None
        worth = self.rate_gbp is not None or self.hours > 0
        needs = {
            LineKind.OVERRIDE: ("material", bool(whose), "does not say which line, or how much"),
            LineKind.CHOSEN: ("material", bool(whose), "does not say which line, or how much"),
            LineKind.ALTERNATIVE: (
                "instead_of",
                bool(self.material and self.instead_of),
                "does not say what replaces what",
            ),
            LineKind.PROVISIONAL: (
                "rate_gbp",
                bool(self.text) and self.rate_gbp is not None,
                "is no provisional sum",
            ),
            LineKind.EXTRA: (
                "text",
                self.quantity is not None and bool(self.material or (self.text and worth)),
                "does not say what is added",
            ),
        }
        field, given, fault = needs[self.kind]
        faults = [] if given else [(field, f"“{name}” {fault}.", _REMEDIES[self.kind])]
        if self.kind is LineKind.OVERRIDE and not self.reason.strip():
            faults.append(("reason", f"“{name}” is overridden without a reason.", "Say why."))
        return faults

    def of_method(self, method: Method) -> bool:
        """Return whether the line belongs to a method."""
        return not self.methods or method in self.methods


_REMEDIES = {
    LineKind.OVERRIDE: "Give the code of a line of the take-off and a quantity.",
    LineKind.CHOSEN: "Give the code of a line of the take-off and a quantity.",
    LineKind.ALTERNATIVE: "Give both codes: the one replaced and the one taken.",
    LineKind.PROVISIONAL: "Say what the sum is for, and how much it is.",
    LineKind.EXTRA: "Give a code and a quantity, or a text with quantity and rate or hours.",
}
_RANGES: in_range.Ranges = {
    "quantity": (0.0, 100_000.0),
    "rate_gbp": (Decimal(0), Decimal(MOST_GBP)),
    "hours": (0.0, 1_000.0),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class JobEstimate:
    """What the estimator adds to one job: its lines, a discount, a contingency of its own.

    Until it is said where boards are cut, hours are those of boards that come cut, and nobody in
    the workshop is charged.
    """

    lines: Annotated[
        tuple[JobLine, ...], Field(description="Lines added to those of the recipes")
    ] = ()
    discount_percent: Annotated[
        Decimal, Field(description="Taken off the price without VAT [%]", strict=False)
    ] = Decimal(0)
    discount_gbp: Annotated[
        Decimal, Field(description="Taken off the price without VAT [GBP]", strict=False)
    ] = Decimal(0)
    discount_reason: Annotated[
        str, Field(description="What the discount is for, as the offer says it", max_length=120)
    ] = ""
    contingency_percent: Annotated[
        Decimal | None,
        Field(description="Contingency of this job, in place of the firm's [%]", strict=False),
    ] = None
    boards_cut: Annotated[
        Literal["workshop", "site"] | None,
        Field(description="Where the boards are cut, workshop or site; the hours depend on it"),
    ] = None

    def __post_init__(self) -> None:
        """Refuse a discount or a contingency nobody gives."""
        faults = in_range.faults(
            self,
            {
                "discount_percent": (Decimal(0), Decimal(50)),
                "discount_gbp": (Decimal(0), Decimal(MOST_GBP)),
                "contingency_percent": (Decimal(0), Decimal(50)),
            },
        )
        if faults:
            raise DimensionError(faults)


def applied(bill: Bill, lines: Sequence[JobLine], catalogue: Catalogue) -> Bill:
    """Return a take-off with the lines of the job in it.

    A line that names a material nobody knows lacks it, so that there is no total.
    """
    bill_lines = list(bill.lines)
    for number, line in enumerate(lines, start=1):
        if not line.of_method(bill.method):
            continue
        match line.kind:
            case LineKind.OVERRIDE | LineKind.CHOSEN:
                bill_lines = _with_quantity(bill_lines, line, catalogue)
            case LineKind.ALTERNATIVE:
                bill_lines = _with_alternative(bill_lines, line, catalogue)
            case LineKind.EXTRA | LineKind.PROVISIONAL:
                bill_lines += _extra(line, number, catalogue)
    return replace(bill, lines=tuple(bill_lines))


def hours(lines: Sequence[JobLine], method: Method) -> tuple[TaskHours, ...]:
    """Return the tasks that lines of the job bring to a method."""
    return tuple(
        TaskHours(
            task=Task(
                id=f"job-line-{number}",
                name=line.text or line.material,
                trade=line.trade,
                stage=Stage.FIXED,
                methods=(method,),
                terms=(),
                after=("set-up",),
            ),
            hours=line.hours,
            formula=ENTERED,
        )
        for number, line in enumerate(lines, start=1)
        if line.hours and line.of_method(method)
    )


def _with_quantity(
    lines: Sequence[BillLine], line: JobLine, catalogue: Catalogue
) -> list[BillLine]:
    """Return the lines with one at another quantity; a choice the recipes lack becomes a line."""
    at = [i for i, one in enumerate(lines) if one.code == line.material]
    if not at:
        return [*lines, *(_of_material(line, catalogue) if line.kind is LineKind.CHOSEN else ())]
    changed = list(lines)
    for i in at:
        old = changed[i]
        was = "not known" if old.quantity is None else f"{old.quantity:.2f} {old.unit}"
        why = f"overridden: {line.reason}; was {was}"
        changed[i] = replace(
            old,
            counted=line.quantity,
            quantity=line.quantity if i == at[0] else 0.0,
            formula=ENTERED,
            waste="none",
            waste_percent=0.0,
            step=None,
            lacks="" if old.material is not None else old.lacks,
            note="chosen for this job" if line.kind is LineKind.CHOSEN else why,
            cut=None,
            sheets=None,
            near_miss="",
        )
    return changed


def _with_alternative(
    lines: Sequence[BillLine], line: JobLine, catalogue: Catalogue
) -> list[BillLine]:
    """Return the lines with one material instead of another, in the quantity that was counted."""
    changed: list[BillLine] = []
    other = catalogue.materials.get(line.material)
    for one in lines:
        if one.code == line.material and not one.applies:
            continue
        if one.code != line.instead_of or not one.applies:
            changed.append(one)
            continue
        note = f"instead of {line.instead_of}{f': {line.reason}' if line.reason else ''}"
        lacks = one.lacks
        if other is None:
            lacks = f"there is no material “{line.material}” in the catalogue"
        elif other.unit != one.unit:
            lacks = f"{line.material} is counted in {other.unit}, {line.instead_of} in {one.unit}"
        changed.append(
            replace(
                one,
                code=line.material,
                material=other,
                price=other.price if other is not None else None,
                note=note,
                lacks=lacks,
                cut=None,
                sheets=None,
                near_miss="",
            )
        )
    return changed


def _extra(line: JobLine, number: int, catalogue: Catalogue) -> list[BillLine]:
    if line.material:
        return _of_material(line, catalogue)
    if line.rate_gbp is None:
        return []
    provisional = line.kind is LineKind.PROVISIONAL
    material = Material(
        code=f"JOB-{number}",
        short=f"J{number}",
        name=line.text,
        category="preliminaries",
        unit=line.unit,
        pack=Pack(name=line.unit),
        charge=Charge.PROVISIONAL if provisional else Charge.BY_USE,
        waste=WasteMode.NONE,
        source=Source(ENTERED, "", verified=False),
        price=Price(amount=line.rate_gbp, dated=catalogue.valid_from, source=ENTERED),
    )
    quantity = 1.0 if provisional else line.quantity
    return [_line(material.code, material, quantity, line.kind.value)]


def _of_material(line: JobLine, catalogue: Catalogue) -> list[BillLine]:
    material = catalogue.materials.get(line.material)
    lacks = "" if material else f"there is no material “{line.material}” in the catalogue"
    note = f"{line.kind.value}{f': {line.text}' if line.text else ''}"
    return [_line(line.material, material, line.quantity, note, lacks=lacks)]


def _line(
    code: str, material: Material | None, quantity: float | None, note: str, *, lacks: str = ""
) -> BillLine:
    return BillLine(
        code=code,
        material=material,
        price=material.price if material else None,
        group=GROUP,
        counted=quantity,
        quantity=quantity,
        formula=ENTERED,
        waste="none",
        place=Place(),
        note=note,
        lacks=lacks,
    )
