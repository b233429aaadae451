"""What is ordered: packs by supplier's kind, with lead times, from a take-off."""

import csv
import io
from collections.abc import Iterator
from decimal import ROUND_CEILING, Decimal

from roofmodel.drawings.heading import Heading
from roofmodel.drawings.take_off_list import ENCODING
from roofmodel.pricing.material_cost import Costed

__all__ = ["ENCODING", "HEADINGS", "rows", "text"]

HEADINGS = ("Supplier's kind", "Code", "Material", "Order", "Pack", "Lead time [working days]")

_SUPPLIERS = {
    "sheets": ("timber and sheet merchant", "1-2"),
    "insulation": ("insulation merchant", "2-3"),
    "timber": ("timber and sheet merchant", "1-2"),
    "membrane": ("roofing merchant", "1-2"),
    "covering": ("roofing merchant", "3-5"),
    "flashing": ("roofing merchant", "1-2"),
    "box gutter": ("roofing merchant", "3-5"),
    "roofline": ("roofline merchant", "1-2"),
    "gutter": ("roofline merchant", "1-2"),
    "fixings": ("fixings merchant", "1-2"),
    "finish": ("plasterer's merchant", "1-2"),
    "electrics": ("electrical wholesaler", "1-2"),
    "openings": ("roofing merchant", "5-10"),
    "panels": ("panel maker", "10-15"),
}
"""Kind of supplier and lead time by group of the take-off (lead times are invented)."""
_COLOURED = ("panel maker", "10-15")


def rows(costed: Costed) -> Iterator[tuple[str, ...]]:
    """Yield what to order, supplier by supplier; materials used by the metre in whole packs."""
    found = []
    for priced in costed.lines:
        line = priced.line
        packs = line.packs
        if line.group not in _SUPPLIERS or packs is None or packs <= 0 or line.material is None:
            continue
        panel = line.material.category == "panel"
        supplier, lead = _COLOURED if panel else _SUPPLIERS[line.group]
        whole = packs.to_integral_value(rounding=ROUND_CEILING)
        found.append(
            (supplier, line.code, line.name, f"{Decimal(whole)}", line.material.pack.name, lead)
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
