"""The DXF files of a job: sheets, parts, facets and the key plan, in R2010 and R12."""

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from pathlib import Path

from roofmodel.cutting.parts.layout import SheetCorners
from roofmodel.drawings.dxf.dxf_pen import DxfDrawing
from roofmodel.drawings.dxf.dxf_r12 import R12Drawing
from roofmodel.drawings.paper import layer
from roofmodel.drawings.paper.layer import DrawingLayer
from roofmodel.drawings.paper.pen import Spot
from roofmodel.drawings.paper.recorded_drawing import DrawnOnce
from roofmodel.drawings.sets import cutting_papers, read_back
from roofmodel.drawings.sheets import (
    cutting_sheet,
    facet_layout,
    key_plan,
    length_plan,
    length_sheet,
    part_sheet,
    timber_sheet,
)
from roofmodel.drawings.sheets.cutting_sheet import CuttingSheet
from roofmodel.drawings.sheets.facet_layout import FacetLayout
from roofmodel.drawings.sheets.length_sheet import LengthSheet
from roofmodel.drawings.sheets.paper_job import CuttingSet, PaperJob
from roofmodel.drawings.sheets.part_sheet import PartSheet

Write = Callable[[Path], None]


def files(whole: CuttingSet) -> Iterator[tuple[str, Write]]:
    """Give the name of every DXF file of a set, and what writes it."""
    for name, sheet in _sheets(whole):
        drawn = DrawnOnce(partial(cutting_sheet.draw, sheet))
        yield f"{name}.dxf", partial(cutting_papers.write_sheet, sheet, drawn=drawn)
        outlines = [one.cut_loop_mm for one in sheet.placed]
        yield f"{name}-r12.dxf", partial(_write_r12, drawn, _contour(sheet), outlines)
    for job in whole.jobs:
        yield from _parts(job)
        for layout in facet_layout.layouts(job.plans, job.roof, job.members):
            short = layout.plan.short_in_files
            drawn = DrawnOnce(partial(facet_layout.draw, layout))
            name = f"{job.heading.file_stem}-facet-{layout.facet.name}-{short}"
            yield f"{name}.dxf", partial(_write_facet, drawn, layout)
            yield f"{name}-r12.dxf", partial(_write_old, drawn)
        yield from _key_plans(job)
        yield from _lengths(job)


def cutting_files(whole: CuttingSet) -> Iterator[tuple[str, Write]]:
    """Give the files a saw needs and no more: every sheet, and the key plan to find a piece on."""
    for name, sheet in _sheets(whole):
        yield f"{name}.dxf", partial(cutting_papers.write_sheet, sheet)
    for job in whole.jobs:
        yield _key_plan(job)


def _sheets(whole: CuttingSet) -> Iterator[tuple[str, CuttingSheet]]:
    for plan in whole.plans:
        for sheet in cutting_sheet.sheets(plan, whole.heading):
            stem = whole.heading.file_stem
            yield f"{stem}-{plan.short_in_files}-{sheet.stock.file_name}", sheet


def _parts(job: PaperJob) -> Iterator[tuple[str, Write]]:
    for part in part_sheet.sheets(job.plans):
        drawn = DrawnOnce(partial(part_sheet.draw, part))
        name = f"{job.heading.file_stem}-part-{part.placed.part.mark}"
        yield f"{name}.dxf", partial(_write_part, drawn, part)
        yield (
            f"{name}-r12.dxf",
            partial(_write_r12, drawn, _contour(part), [part.alone.cut_loop_mm]),
        )


def _lengths(job: PaperJob) -> Iterator[tuple[str, Write]]:
    """Give where the lengths of a job lie, how each is cut, and every new timber by itself."""
    stem = job.heading.file_stem
    plan = length_plan.of_job(job)
    if plan is not None:
        drawn = DrawnOnce(partial(length_plan.draw, plan))
        yield from _both(f"{stem}-length-plan", drawn, plan.extents_mm)
    for cut in job.lengths:
        sheet = length_sheet.sheet(job.heading, cut)
        on = layer.contour(length_sheet.CODE, live=job.heading.may_be_cut)
        drawn = DrawnOnce(sheet.draw)
        name = f"{stem}-lengths-{_in_files(cut.name)}"
        yield f"{name}.dxf", partial(_write_lengths, drawn, sheet, on)
        yield f"{name}-r12.dxf", partial(_write_r12, drawn, on, sheet.outlines_mm)
    for cut, timbers in timber_sheet.sheets(job.heading, job.lengths):
        drawn = DrawnOnce(timbers.draw)
        yield from _both(f"{stem}-timbers-{_in_files(cut.name)}", drawn, timbers.extents_mm)


def _both(
    name: str, drawn: DrawnOnce, extents_mm: tuple[Spot, Spot]
) -> Iterator[tuple[str, Write]]:
    yield f"{name}.dxf", partial(_write_looked_at, drawn, extents_mm)
    yield f"{name}-r12.dxf", partial(_write_old, drawn)


def _in_files(words: str) -> str:
    return words.replace(" ", "-")


def _contour(sheet: CuttingSheet | PartSheet) -> DrawingLayer:
    return layer.contour(sheet.good.drawing_code, live=sheet.heading.may_be_cut)


def _key_plans(job: PaperJob) -> Iterator[tuple[str, Write]]:
    yield _key_plan(job)
    drawn = DrawnOnce(partial(key_plan.draw, key_plan.of_job(job)))
    yield f"{job.heading.file_stem}-key-plan-r12.dxf", partial(_write_old, drawn)


def _key_plan(job: PaperJob) -> tuple[str, Write]:
    write = partial(cutting_papers.write_key_plan, key_plan.of_job(job))
    return f"{job.heading.file_stem}-key-plan.dxf", write


def _write_part(drawn: DrawnOnce, sheet: PartSheet, path: Path) -> None:
    drawing = DxfDrawing()
    drawn.onto(drawing.model)
    drawing.look_at(*part_sheet.extents_mm(sheet))
    drawing.save(path)
    read_back.check_loops(path, _contour(sheet), [sheet.alone.cut_loop_mm])


def _write_r12(
    drawn: DrawnOnce, on: DrawingLayer, outlines: Sequence[SheetCorners], path: Path
) -> None:
    drawing = R12Drawing()
    drawn.onto(drawing)
    drawing.save(path)
    read_back.check_loops(path, on, outlines)


def _write_old(drawn: DrawnOnce, path: Path) -> None:
    drawing = R12Drawing()
    drawn.onto(drawing)
    drawing.save(path)


def _write_looked_at(drawn: DrawnOnce, extents_mm: tuple[Spot, Spot], path: Path) -> None:
    drawing = DxfDrawing()
    drawn.onto(drawing.model)
    drawing.look_at(*extents_mm)
    drawing.save(path)


def _write_lengths(drawn: DrawnOnce, sheet: LengthSheet, on: DrawingLayer, path: Path) -> None:
    _write_looked_at(drawn, sheet.extents_mm, path)
    read_back.check_loops(path, on, sheet.outlines_mm)


def _write_facet(drawn: DrawnOnce, layout: FacetLayout, path: Path) -> None:
    _write_looked_at(drawn, layout.extents_mm, path)
