"""The cutting drawings of a sheet and of the whole roof as DXF files, each checked when written."""

from collections.abc import Sequence
from functools import partial
from pathlib import Path

from roofmodel.drawings.dxf.dxf_pen import DxfDrawing
from roofmodel.drawings.paper import page, title_rows
from roofmodel.drawings.paper.page import TitleBlock
from roofmodel.drawings.paper.recorded_drawing import DrawnOnce
from roofmodel.drawings.paper.title_rows import Titled
from roofmodel.drawings.sets import read_back
from roofmodel.drawings.sheets import bevel_note, cutting_sheet, key_plan
from roofmodel.drawings.sheets.cut_on_facet import CutPlan
from roofmodel.drawings.sheets.cutting_sheet import CuttingSheet
from roofmodel.drawings.sheets.key_plan import KeyPlan
from roofmodel.foundation.errors import DrawingError
from roofmodel.shapes.roof import DATUM

_KIND = "workshop drawing"


def refuse_unclear(plans: Sequence[CutPlan]) -> None:
    """Raise a `DrawingError` where there is nothing to draw, or marks would be the same."""
    if not plans:
        raise DrawingError("There is no cutting plan to draw. Choose at least one sheet material.")
    _refuse_twins([plan.good.short for plan in plans])


def _refuse_twins(shorts: Sequence[str]) -> None:
    """Raise a `DrawingError` where two sheet materials have one short name."""
    twice = [short for short in shorts if shorts.count(short) > 1]
    if twice:
        raise DrawingError(
            f"Two sheet materials both have the short name {twice[0]}, so their marks and files "
            "would be the same. Give each its own short name."
        )


def write_sheet(sheet: CuttingSheet, path: Path, *, drawn: DrawnOnce | None = None) -> None:
    """Write a cutting sheet, and compare what was written with it.

    ``drawn`` is the sheet already laid out, where other formats are written of it as well.
    """
    drawing = DxfDrawing()
    (drawn or DrawnOnce(partial(cutting_sheet.draw, sheet))).onto(drawing.model)
    size = sheet.stock.size_mm
    scale = page.scale_for(size)
    titled = Titled(
        heading=sheet.heading,
        title=f"{sheet.good.short} cutting {sheet.stock.name}",
        kind=_KIND,
        number=path.stem,
        scale=f"1 : {scale:g}",
        own=(
            ("Material", sheet.good.name),
            ("Stock", " x ".join(f"{extent:.1f}" for extent in size)),
            *((("Place", sheet.stock.place),) if sheet.stock.place else ()),
            ("Saw cut", f"{sheet.good.kerf_mm:.1f}, outside the part's line"),
        ),
    )
    notes = (*sheet.heading.status_notes, sheet.plan.sentence, *sheet.key, bevel_note.BENCH_RULES)
    page.draw(TitleBlock(title_rows.rows(titled), notes), drawing.page)
    drawing.look_at((0.0, 0.0), size)
    drawing.show_on_page((0.0, 0.0), size, scale=scale)
    drawing.save(path)
    read_back.check_sheet(path, sheet)


def write_key_plan(plan: KeyPlan, path: Path) -> None:
    """Write the key plan, and compare what was written with it."""
    drawing = DxfDrawing()
    key_plan.draw(plan, drawing.model)
    low, high = plan.extents_mm
    scale = page.scale_for((high[0] - low[0], high[1] - low[1]))
    titled = Titled(
        heading=plan.heading,
        title="Key plan, seen from above",
        kind=_KIND,
        number=path.stem,
        scale=f"1 : {scale:g}",
        own=(
            ("Facets", f"{len(plan.roof.facets)}"),
            (
                "Area",
                f"{plan.roof.area_m2:.3f} m2",
                "In plan",
                f"{plan.roof.plan_area_m2:.3f} m2",
            ),
        ),
    )
    notes = (*plan.heading.status_notes, f"Datum: {DATUM}.")
    page.draw(TitleBlock(title_rows.rows(titled), notes), drawing.page)
    drawing.look_at(low, high)
    drawing.show_on_page(low, high, scale=scale)
    drawing.save(path)
    read_back.check_key_plan(path, plan)
