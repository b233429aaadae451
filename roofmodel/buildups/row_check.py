"""What a row of a catalogue must hold beyond its numbers, before anything is counted by it."""

import difflib
import re

from roofmodel.buildups.material import CATEGORIES, Material, WasteMode
from roofmodel.foundation import tolerance
from roofmodel.foundation.errors import Fault

_MAY_BE_BRIGHT = ("insulation", "lining", "panel", "foil", "membrane")
"""Categories with rows that have a face of bare foil."""

_CODE = re.compile(r"[A-Z0-9][A-Z0-9-]{0,23}")


def faults(row: Material) -> list[Fault]:
    """Return, all at once, what keeps a row out of a catalogue."""
    found = _name_faults(row)
    if row.category not in CATEGORIES:
        near = difflib.get_close_matches(row.category, CATEGORIES, n=1)
        hint = f"Did you mean “{near[0]}”? " if near else ""
        remedy = f"{hint}Choose one of {', '.join(CATEGORIES)}."
        found.append(Fault("category", f"“{row.category}” is not a category.", remedy))
    return found + _waste_faults(row) + _sheet_faults(row) + _face_faults(row)


def _name_faults(row: Material) -> list[Fault]:
    found = []
    if not _CODE.fullmatch(row.code):
        remedy = "Use capital letters, figures and hyphens, up to 24."
        found.append(Fault("code", f"“{row.code}” cannot be a code.", remedy))
    found += [
        Fault(column, "This field is empty.", f"Enter the {column}.")
        for column in ("short", "name", "unit")
        if not getattr(row, column).strip()
    ]
    if not row.source.document.strip():
        remedy = "Name the document it was taken from, or write “invented”."
        found.append(Fault("source.document", "The row has no source.", remedy))
    return found


def _waste_faults(row: Material) -> list[Fault]:
    if row.waste is WasteMode.PERCENT and row.waste_percent == 0.0:
        text = "Waste is by percentage, but no percentage is given."
        return [Fault("waste_percent", text, "Enter it, or set the waste to “none”.")]
    if row.waste is not WasteMode.PERCENT and row.waste_percent != 0.0:
        text = f"{row.waste_percent:g} % is given, but the waste is “{row.waste.value}”."
        return [
            Fault("waste_percent", text, "Allow for waste only once: leave the percentage out.")
        ]
    if row.waste is WasteMode.PLAN and row.sheet is None and not row.stock_lengths_mm:
        text = "Waste is by plan, but there is nothing to cut it from."
        return [Fault("waste", text, "Enter sheet sizes or stock lengths, or a percentage.")]
    return []


def _sheet_faults(row: Material) -> list[Fault]:
    if row.sheet is None:
        return []
    found = []
    if row.thickness_mm is None:
        remedy = "Enter it in mm."
        found.append(Fault("thickness_mm", "A sheet without a thickness cannot be cut.", remedy))
    if row.mass_kg is None:
        remedy = "Enter the mass of 1 m² in kg."
        found.append(Fault("mass_kg", "A sheet without a mass cannot be carried.", remedy))
    if row.unit != "m2":
        found.append(Fault("unit", "Sheets are counted in m².", "Write m2."))
    usual = row.sheet.sizes[0]
    area_m2 = usual.length_mm * usual.width_mm / 1e6
    differs_mm2 = abs(float(row.pack.holds) - area_m2) * 1e6
    if row.pack.name == "sheet" and differs_mm2 > tolerance.AREA_MM2:
        # A price of one sheet over another area would be wrong on every line.
        text = f"A sheet of {usual.length_mm:g} × {usual.width_mm:g} mm holds {area_m2:g} m²."
        found.append(Fault("pack.holds", text, f"Enter {area_m2:g}, or name the pack otherwise."))
    return found


def _face_faults(row: Material) -> list[Fault]:
    """Return why a bright face cannot be: it would make the roof look better than it is."""
    if not row.bright_face:
        return []
    if row.category not in _MAY_BE_BRIGHT:
        text = f"A row of “{row.category}” has no face of bare foil."
        remedy = f"Leave it out, or choose one of {', '.join(_MAY_BE_BRIGHT)}."
        return [Fault("bright_face", text, remedy)]
    if row.thickness_mm is None:
        text = "A bright face is calculated beside a layer with a thickness, and this has none."
        return [Fault("bright_face", text, "Enter the thickness in mm, or leave it out.")]
    return []
