"""The DXF files of a job: sheets, parts, facets and the key plan, in R2010 and R12."""

import re
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from pathlib import Path

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.layout import SheetCorners
from roofmodel.cutting.plan import Plan
from roofmodel.drawings import cutting_sheet, facet_layout, papers, part_sheet, proof
from roofmodel.drawings.cutting_sheet import CuttingSheet
from roofmodel.drawings.dxf_pen import DxfDrawing
from roofmodel.drawings.dxf_r12 import R12Drawing
from roofmodel.drawings.facet_layout import FacetLayout
from roofmodel.drawings.key_plan import KeyPlan
from roofmodel.drawings.paper_job import PaperJob
from roofmodel.drawings.part_sheet import PartSheet
from roofmodel.drawings.strokes import DrawnOnce
from roofmodel.shapes.roof import Roof

Write = Callable[[Path], None]


def files(job: PaperJob) -> Iterator[tuple[str, Write]]:
    """Give the name of every DXF file of a job, and what writes it."""
    stem = job.heading.file_stem
    for plan, surface in job.plans:
        short = re.sub(r"[^A-Za-z0-9]+", "-", plan.good.short)
        for sheet in sheets(plan, surface, job):
            drawn = DrawnOnce(partial(cutting_sheet.draw, sheet))
            name = f"{stem}-{short}-sheet-{sheet.number:02d}"
            yield f"{name}.dxf", partial(papers.write_sheet, sheet, plan.sentence, drawn=drawn)
            outlines = [one.outline_mm for one in sheet.placed]
            yield f"{name}-r12.dxf", partial(_write_r12, drawn, sheet.good, outlines)
        for placed in plan.layout.placed:
            facet = surface.facet(placed.part.facet)
            part = PartSheet(heading=job.heading, good=plan.good, facet=facet, placed=placed)
            drawn = DrawnOnce(partial(part_sheet.draw, part))
            name = f"{stem}-part-{placed.part.mark}"
            yield f"{name}.dxf", partial(_write_part, drawn, part)
            yield f"{name}-r12.dxf", partial(_write_r12, drawn, part.good, [part.alone.outline_mm])
    for layout in facet_layout.layouts(job.plans, job.roof, job.members):
        short = re.sub(r"[^A-Za-z0-9]+", "-", layout.good.short)
        yield f"{stem}-facet-{layout.facet.name}-{short}.dxf", partial(_write_facet, layout)
    yield f"{stem}-key-plan.dxf", partial(papers.write_key_plan, key_plan_of(job))


def sheets(plan: Plan, surface: Roof, job: PaperJob) -> Iterator[CuttingSheet]:
    """Give every sheet of a plan as it is drawn."""
    for number in sorted({placed.sheet_no for placed in plan.layout.placed}):
        yield CuttingSheet(
            heading=job.heading,
            good=plan.good,
            roof=surface,
            placed=plan.layout.on_sheet(number),
            number=number,
            count=plan.sheets,
            cuts=plan.cuts_of(number),
        )


def key_plan_of(job: PaperJob) -> KeyPlan:
    """Return the key plan of a job, every layer's parts on the layer's own surface."""
    return KeyPlan(
        heading=job.heading,
        roof=job.roof,
        boards=tuple((plan.good, plan.problem.parts) for plan, _ in job.plans),
        surfaces=tuple(surface for _, surface in job.plans),
    )


def _write_part(drawn: DrawnOnce, sheet: PartSheet, path: Path) -> None:
    drawing = DxfDrawing()
    drawn.onto(drawing.model)
    drawing.look_at(*part_sheet.extents_mm(sheet))
    drawing.save(path)
    proof.check_loops(path, sheet.good.drawing_code, [sheet.alone.outline_mm])


def _write_r12(
    drawn: DrawnOnce, good: SheetGood, outlines: Sequence[SheetCorners], path: Path
) -> None:
    drawing = R12Drawing()
    drawn.onto(drawing)
    drawing.save(path)
    proof.check_loops(path, good.drawing_code, outlines)


def _write_facet(layout: FacetLayout, path: Path) -> None:
    drawing = DxfDrawing()
    facet_layout.draw(layout, drawing.model)
    drawing.look_at(*layout.extents_mm)
    drawing.save(path)
