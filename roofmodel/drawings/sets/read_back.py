"""Reads drawings back as a stranger would and compares them with what was to be drawn."""

from collections.abc import Iterator, Sequence
from pathlib import Path

import numpy as np
import shapely

from roofmodel.drawings.dxf import dxf_pen
from roofmodel.drawings.dxf.dxf_pen import ReadBack
from roofmodel.drawings.paper import layer
from roofmodel.drawings.paper.layer import DrawingLayer
from roofmodel.drawings.paper.pen import Spot
from roofmodel.drawings.sheets.cutting_sheet import CuttingSheet
from roofmodel.drawings.sheets.key_plan import KeyPlan
from roofmodel.foundation import tolerance
from roofmodel.foundation.errors import DrawingError
from roofmodel.geometry import polygon
from roofmodel.geometry.polygon import Outline

_MILLIMETRES = 4
"""Code of the millimetre in the header of a DXF file."""

_R2010 = "AC1024"
_AREA_M2 = 0.001
_ROUNDING_MM = 0.11
"""An offcut's outline is rounded to tenths; so much may a part seem to stick out of it."""


def check_sheet(path: Path, sheet: CuttingSheet) -> None:
    """Compare a cutting sheet with its parts: count, outlines, areas, and place on the stock.

    Raises
    ------
    DrawingError
        If anything differs, naming the file and all differences.
    """
    read = dxf_pen.read_back(path)
    good = sheet.good
    on = layer.contour(good.drawing_code, live=sheet.heading.may_be_cut)
    loops = read.loops.get(on.name, ())
    faults = [*_format_faults(read), *_loop_faults(loops)]
    if len(loops) != len(sheet.placed):
        faults.append(f"{len(loops)} outlines are drawn for {len(sheet.placed)} parts")
    for loop, placed in zip(loops, sheet.placed, strict=False):
        ordered_m2 = polygon.signed_area_mm2(np.asarray(placed.cut_outline_mm)) / 1e6
        drawn_m2 = polygon.signed_area_mm2(loop) / 1e6
        if abs(drawn_m2 - ordered_m2) > _AREA_M2:
            faults.append(
                f"{placed.part.mark} is drawn {drawn_m2:.4f} m² instead of {ordered_m2:.4f} m²"
            )
    if not all(_on_stock(loop, sheet.stock.outline_mm) for loop in loops):
        faults.append("an outline leaves the stock sheet")
    _refuse(path, faults)


def check_loops(path: Path, on: DrawingLayer, wanted: Sequence[Sequence[Spot]]) -> None:
    """Compare the closed outlines of a file with those that were to be cut, corner by corner.

    Raises
    ------
    DrawingError
        If one is missing, or lies elsewhere, naming the file.
    """
    read = dxf_pen.read_back(path)
    loops = read.loops.get(on.name, ())
    faults = [*read.faults, *_loop_faults(loops)]
    if len(loops) != len(wanted):
        faults.append(f"{len(loops)} outlines are drawn for {len(wanted)} parts")
    for loop, outline in zip(loops, wanted, strict=False):
        apart = np.abs(loop - np.asarray(outline)).max() if len(loop) == len(outline) else np.inf
        if not apart <= tolerance.LENGTH_MM:
            faults.append("an outline is not the part's")
    _refuse(path, faults)


def check_key_plan(path: Path, plan: KeyPlan) -> None:
    """Compare the key plan's file with the boards laid: count, and outlines that are whole.

    Raises
    ------
    DrawingError
        If anything differs, naming the file and all differences.
    """
    read = dxf_pen.read_back(path)
    faults = list(_format_faults(read))
    ordered: dict[str, int] = {}
    for good, parts in plan.boards:
        name = layer.laid_board(good.drawing_code).name
        ordered[name] = ordered.get(name, 0) + len(parts)
    for name, count in ordered.items():
        loops = read.loops.get(name, ())
        faults += _loop_faults(loops)
        if len(loops) != count:
            faults.append(f"{len(loops)} boards are drawn on {name} instead of {count}")
    _refuse(path, faults)


def _format_faults(read: ReadBack) -> Iterator[str]:
    yield from read.faults
    if read.version != _R2010 or read.unit_code != _MILLIMETRES:
        yield f"it is {read.version} in unit {read.unit_code}, not {_R2010} in millimetres"
    if "0" in read.layers:
        yield "something lies on layer 0"


def _loop_faults(loops: Sequence[Outline]) -> Iterator[str]:
    for loop in loops:
        steps = np.linalg.norm(loop - np.roll(loop, 1, axis=0), axis=1)
        if steps.min() <= tolerance.LENGTH_MM:
            yield "an outline has a corner twice"
        if polygon.signed_area_mm2(loop) <= 0.0:
            yield "an outline does not run counter-clockwise"


def _on_stock(loop: Outline, stock: Sequence[Spot]) -> bool:
    """Return whether an outline lies on a sheet or offcut, a rack piece taken within rounding."""
    return bool(shapely.Polygon(stock).buffer(_ROUNDING_MM).covers(shapely.Polygon(loop)))


def _refuse(path: Path, faults: Sequence[str]) -> None:
    if faults:
        raise DrawingError(
            f"{path.name} is not what was to be drawn: {'; '.join(faults)}. "
            "No papers were changed. Please report this with the job file."
        )
