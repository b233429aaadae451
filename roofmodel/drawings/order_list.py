"""What is ordered: packs by supplier's kind, with lead times, from a take-off."""

import csv
import io
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import ROUND_CEILING, Decimal
from functools import cache

from pydantic import ConfigDict, TypeAdapter, with_config

from roofmodel.drawings.heading import Heading
from roofmodel.drawings.take_off_list import ENCODING
from roofmodel.foundation import resources, toml_rows
from roofmodel.pricing.material_cost import Costed

__all__ = ["ENCODING", "HEADINGS", "rows", "text"]

HEADINGS = ("Supplier's kind", "Code", "Material", "Order", "Pack", "Lead time [working days]")


@with_config(ConfigDict(extra="forbid"))
@dataclass(frozen=True, slots=True)
class Supplier:
    """Kind of supplier, and the working days to order ahead."""

    supplier: str
    lead: str


@with_config(ConfigDict(extra="forbid"))
@dataclass(frozen=True, slots=True, kw_only=True)
class Suppliers:
    """Who delivers what: by category of the material where it is named, else by group."""

    not_ordered: tuple[str, ...]
    group: dict[str, Supplier]
    category: dict[str, Supplier]

    def of(self, group: str, category: str) -> Supplier:
        """Return who delivers a material; one nobody entered is said, never left out."""
        return self.category.get(category) or self.group.get(group) or _NOT_ENTERED


_NOT_ENTERED = Supplier("supplier not entered", "?")
_SUPPLIERS = TypeAdapter(Suppliers)


@cache
def shipped() -> Suppliers:
    """Return the shipped suppliers; they are invented.

    Raises
    ------
    ResourceError
        If the file is wrong; the text names the field.
    """
    return toml_rows.one(resources.folder() / "suppliers.toml", _SUPPLIERS)


def rows(costed: Costed) -> Iterator[tuple[str, ...]]:
    """Yield what to order, supplier by supplier; materials used by the metre in whole packs."""
    found, suppliers = [], shipped()
    for priced in costed.lines:
        line = priced.line
        packs = line.packs
        if line.group in suppliers.not_ordered or line.material is None or not packs or packs <= 0:
            continue
        who = suppliers.of(line.group, line.material.category)
        whole = packs.to_integral_value(rounding=ROUND_CEILING)
        found.append(
            (
                who.supplier,
                line.code,
                line.name,
                f"{Decimal(whole)}",
                line.material.pack.name,
                who.lead,
            )
        )
    yield from sorted(found)


def text(costed: Costed, heading: Heading) -> str:
    """Return the order lists as comma-separated text."""
    written = io.StringIO(newline="")
    writer = csv.writer(written)
    writer.writerow([f"{heading.words}: order lists"])
    writer.writerow(HEADINGS)
    writer.writerows(rows(costed))
    return written.getvalue()
