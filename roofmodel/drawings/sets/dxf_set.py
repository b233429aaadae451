"""The DXF files of a job: sheets, parts, facets and plans, in R2010, and in R12 when asked."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
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

SHEETS, PARTS, MACHINE = "sheets", "parts", "machine"
"""Folders of a set: what is sawn first and the plans to find a piece on; pieces one by one; R12."""


@dataclass(frozen=True, slots=True)
class _Drawing:
    """A drawing of a set: its folder, its name, and what writes it in the new format or the old."""

    folder: str
    name: str
    new: Write
    old: Write


def files(whole: CuttingSet) -> Iterator[tuple[str, Write]]:
    """Give the name of every DXF file of a set with its folder, and what writes it."""
    for one in _drawings(whole):
        yield f"{one.folder}/{one.name}.dxf", one.new


def old_files(whole: CuttingSet) -> Iterator[tuple[str, Write]]:
    """Give the same drawings in R12, which every saw reads."""
    for one in _drawings(whole):
        yield f"{MACHINE}/{one.name}-r12.dxf", one.old


def cutting_files(whole: CuttingSet) -> Iterator[tuple[str, Write]]:
    """Give the files a saw needs and no more: every sheet, and the key plan to find a piece on."""
    for one in (*_sheets(whole), *(_key_plan(job) for job in whole.jobs)):
        yield f"{one.folder}/{one.name}.dxf", one.new


def _drawings(whole: CuttingSet) -> Iterator[_Drawing]:
    yield from _sheets(whole)
    for job in whole.jobs:
        yield from _parts(job)
        for layout in facet_layout.layouts(job.plans, job.roof, job.members):
            drawn = DrawnOnce(partial(facet_layout.draw, layout))
            short = layout.plan.short_in_files
            name = f"{job.heading.file_stem}-facet-{layout.facet.name}-{short}"
            yield _Drawing(
                SHEETS, name, partial(_write_facet, drawn, layout), partial(_write_old, drawn)
            )
        yield _key_plan(job)
        yield from _lengths(job)


def _sheets(whole: CuttingSet) -> Iterator[_Drawing]:
    for plan in whole.plans:
        for sheet in cutting_sheet.sheets(plan, whole.heading):
            drawn = DrawnOnce(partial(cutting_sheet.draw, sheet))
            outlines = [one.cut_loop_mm for one in sheet.placed]
            yield _Drawing(
                SHEETS,
                f"{whole.heading.file_stem}-{plan.short_in_files}-{sheet.stock.file_name}",
                partial(cutting_papers.write_sheet, sheet, drawn=drawn),
                partial(_write_r12, drawn, _contour(sheet), outlines),
            )


def _parts(job: PaperJob) -> Iterator[_Drawing]:
    for part in part_sheet.sheets(job.plans):
        drawn = DrawnOnce(partial(part_sheet.draw, part))
        yield _Drawing(
            PARTS,
            f"{job.heading.file_stem}-part-{part.placed.part.mark}",
            partial(_write_part, drawn, part),
            partial(_write_r12, drawn, _contour(part), [part.alone.cut_loop_mm]),
        )


def _lengths(job: PaperJob) -> Iterator[_Drawing]:
    """Give where the lengths of a job lie, how each is cut, and every new timber by itself."""
    stem = job.heading.file_stem
    plan = length_plan.of_job(job)
    if plan is not None:
        drawn = DrawnOnce(partial(length_plan.draw, plan))
        yield _looked_at(f"{stem}-length-plan", drawn, plan.extents_mm)
    for cut in job.lengths:
        sheet = length_sheet.sheet(job.heading, cut)
        on = layer.contour(length_sheet.CODE, live=job.heading.may_be_cut)
        drawn = DrawnOnce(sheet.draw)
        yield _Drawing(
            PARTS,
            f"{stem}-lengths-{_in_files(cut.name)}",
            partial(_write_lengths, drawn, sheet, on),
            partial(_write_r12, drawn, on, sheet.outlines_mm),
        )
    for cut, timbers in timber_sheet.sheets(job.heading, job.lengths):
        drawn = DrawnOnce(timbers.draw)
        yield _looked_at(f"{stem}-timbers-{_in_files(cut.name)}", drawn, timbers.extents_mm)


def _looked_at(name: str, drawn: DrawnOnce, extents_mm: tuple[Spot, Spot]) -> _Drawing:
    return _Drawing(
        PARTS,
        name,
        partial(_write_looked_at, drawn, extents_mm),
        partial(_write_old, drawn),
    )


def _in_files(words: str) -> str:
    return words.replace(" ", "-")


def _contour(sheet: CuttingSheet | PartSheet) -> DrawingLayer:
    return layer.contour(sheet.good.drawing_code, live=sheet.heading.may_be_cut)


def _key_plan(job: PaperJob) -> _Drawing:
    plan = key_plan.of_job(job)
    return _Drawing(
        SHEETS,
        f"{job.heading.file_stem}-key-plan",
        partial(cutting_papers.write_key_plan, plan),
        partial(_write_old, DrawnOnce(partial(key_plan.draw, plan))),
    )


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
