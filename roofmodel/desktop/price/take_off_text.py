"""The lines of a priced take-off in words for the table of the window."""

from collections.abc import Sequence
from decimal import Decimal

from roofmodel.desktop.kit import number_text
from roofmodel.pricing.material_cost import ROUNDING, Costed, PricedLine
from roofmodel.quantities.bill import BillLine

HEADS = (
    "Group", "Code", "Material", "Counted", "Waste", "Quantity", "Packs", "Charged", "Price £",
    "Amount £",
)  # fmt: skip
WORDS = (0, 1, 2, 4, 7)
"""Columns that hold words."""

FIGURES = {3: "counted", 5: "quantity", 6: "packs", 8: "rate_gbp", 9: "amount_gbp"}
"""Columns that hold a figure of the line, by its name there."""

NOT_YET = "…"
"""Stands where a figure waits for a cutting plan; it is never guessed."""


def row(priced: PricedLine, *, first_of_group: bool) -> Sequence[str]:
    """Return the cells of a line, in the order of `HEADS`."""
    line = priced.line
    return (
        line.group if first_of_group else "",
        line.code,
        line.name,
        _figure(line.counted, line.unit),
        line.waste,
        _figure(line.quantity, line.unit),
        _packs(line),
        line.charge.value,
        NOT_YET if priced.rate is None else f"{priced.rate:,.2f}",
        NOT_YET if priced.amount is None else f"{priced.amount:,.2f}",
    )


def total(costed: Costed) -> str:
    """Return the total, or what keeps it from being one; never both and never neither."""
    found = costed.total()
    apart = sum((one.amount or Decimal(0) for one in costed.lines if one.apart), Decimal(0))
    if found is None:
        return costed.incomplete
    words = f"Materials and preliminaries £{found:,.2f} ex VAT"
    return f"{words}; shown separately £{apart:,.2f}" if apart else words


def about(priced: PricedLine) -> str:
    """Return formula, place and remarks of a line."""
    line = priced.line
    place = line.place.words
    parts = [
        f"{line.name}: {line.formula}." if line.formula else f"{line.name}.",
        f"Waste: {line.waste}." if line.waste else "",
        f"From {place}." if place else "",
        f"{line.note[0].upper()}{line.note[1:]}." if line.note else "",
        f"Near miss: {line.near_miss}." if line.near_miss else "",
        f"Missing: {priced.lacks}." if priced.lacks else "",
        "Shown separately from the materials." if priced.apart else "",
    ]
    return " ".join(part for part in parts if part)


def rule() -> str:
    """Return the rules every sum is made by."""
    return f"Money: {ROUNDING}. The prices in the supplied catalogue are placeholders."


def _figure(value: float | None, unit: str) -> str:
    if value is None:
        return NOT_YET
    whole = unit == "each" and abs(value - round(value)) < 1e-6
    return f"{number_text.spaced(value, decimals=0 if whole else 2)} {_UNITS.get(unit, unit)}"


def _packs(line: BillLine) -> str:
    if line.packs is None or line.material is None:
        return NOT_YET
    count = f"{line.packs:f}"
    if "." in count:
        count = f"{line.packs:.2f}"
    return f"{count} × {line.material.pack.name}"


_UNITS = {"m2": "m²"}
