"""The cut list: one line for each part, for a spreadsheet."""

from collections.abc import Iterator, Sequence

from roofmodel.cutting.parts.layout import Placed
from roofmodel.drawings.paper.heading import LIST_ENDING
from roofmodel.drawings.sheets import bevel_note
from roofmodel.drawings.sheets.cut_on_facet import CutPlan, Stock
from roofmodel.foundation import csv_text

HEADINGS = (
    "Mark",
    "Facet",
    "Material",
    "Hand",
    "Length [mm]",
    "Width up the slope [mm]",
    "Area [m2]",
    "Mass [kg]",
    "Sheet",
    "Turned on sheet [deg]",
    "Turned over",
    "From left of sheet [mm]",
    "From bottom of sheet [mm]",
    "Corners, outside face up, eaves at the bottom [no: right up mm]",
    "Bevels [side from corner no: deg off square]",
    *LIST_ENDING,
)

ENCODING = "utf-8-sig"
"""With the mark at the start by which spreadsheets know the encoding."""


def text(plans: Sequence[CutPlan]) -> str:
    """Return the list as comma-separated text with decimal points.

    Length and width are those of the rectangle round what is cut, the larger face of the part, as
    it lies on the roof, seen from outside with the eaves at the bottom; corners count from that
    rectangle's lower left corner.
    The sheet is a number, or the label of a offcut from the rack.
    """
    return csv_text.text([HEADINGS, *_rows(plans)])


def _rows(plans: Sequence[CutPlan]) -> Iterator[list[str]]:
    for plan in plans:
        for stock in plan.stocks:
            placed = sorted(stock.placed, key=lambda one: (one.x_mm, one.y_mm))
            yield from (_row(one, stock, plan) for one in placed)


def _row(placed: Placed, stock: Stock, plan: CutPlan) -> list[str]:
    good, part = plan.good, placed.part
    heading = plan.owner_of(part).heading
    area_m2 = part.area_mm2 / 1e6
    bevels = bevel_note.bevels(part)
    left, low = placed.cut_low_mm
    length, width = (tenths / 10 for tenths in part.cut_size_tenths)
    left_most, lowest = (min(row) for row in zip(*part.cut_corners, strict=True))
    corners = enumerate([(x - left_most, y - lowest) for x, y in part.cut_corners], start=1)
    return [
        part.mark,
        part.facet,
        good.name,
        part.hand,
        f"{length:.1f}",
        f"{width:.1f}",
        f"{area_m2:.4f}",
        f"{area_m2 * good.mass_kg_m2:.1f}",
        stock.short_name,
        f"{placed.turned_deg}",
        "yes" if placed.turned_over else "no",
        f"{left:.1f}",
        f"{low:.1f}",
        "; ".join(f"{number}: {x / 10:.1f} {y / 10:.1f}" for number, (x, y) in corners),
        "; ".join(bevel.for_list for bevel in bevels),
        *heading.list_ending,
    ]
