"""The cut list: one line for each part, for a spreadsheet."""

import csv
import io
from collections.abc import Iterable, Sequence

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.layout import Placed
from roofmodel.drawings import bevel_note
from roofmodel.shapes.roof import Roof

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
)

ENCODING = "utf-8-sig"
"""With the mark at the start by which spreadsheets know the encoding."""


def text(roof: Roof, laid_out: Sequence[tuple[SheetGood, Sequence[Placed]]]) -> str:
    """Return the list as comma-separated text with decimal points.

    Length and width are those of the rectangle round the part as it lies on the roof, seen from
    outside with the eaves at the bottom; corners count from that rectangle's lower left corner.
    """
    written = io.StringIO(newline="")
    writer = csv.writer(written)
    writer.writerow(HEADINGS)
    for good, placed in laid_out:
        writer.writerows(_rows(roof, good, placed))
    return written.getvalue()


def _rows(roof: Roof, good: SheetGood, placed: Iterable[Placed]) -> list[list[str]]:
    return [_row(one, good, roof) for one in sorted(placed, key=_by_sheet_and_place)]


def _row(placed: Placed, good: SheetGood, roof: Roof) -> list[str]:
    part = placed.part
    area_m2 = part.area_mm2 / 1e6
    bevels = bevel_note.bevels(part, roof.facet(part.facet), thickness_mm=good.thickness_mm)
    corners = enumerate(part.corners, start=1)
    return [
        part.mark,
        part.facet,
        good.name,
        part.hand,
        f"{part.length_tenths / 10:.1f}",
        f"{part.width_tenths / 10:.1f}",
        f"{area_m2:.4f}",
        f"{area_m2 * good.mass_kg_m2:.1f}",
        f"{placed.sheet_no}",
        f"{placed.turned_deg}",
        "yes" if placed.turned_over else "no",
        f"{placed.x_mm:.1f}",
        f"{placed.y_mm:.1f}",
        "; ".join(f"{number}: {x / 10:.1f} {y / 10:.1f}" for number, (x, y) in corners),
        "; ".join(bevel.for_list for bevel in bevels),
    ]


def _by_sheet_and_place(placed: Placed) -> tuple[int, float, float]:
    return placed.sheet_no, placed.x_mm, placed.y_mm
