"""Says why a plan with offcuts could not be cut; it has never seen a solver."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import combinations

import shapely

from roofmodel.cutting.nesting import verify
from roofmodel.cutting.nesting.cut import SawCut, SheetCuts
from roofmodel.cutting.parts.layout import Placed
from roofmodel.cutting.parts.problem import Problem
from roofmodel.cutting.rack.layout import RackCut, RackLayout
from roofmodel.cutting.rack.offcut import RackPiece
from roofmodel.cutting.rack.what_is_left import KeptOffcut
from roofmodel.foundation.tolerance import AREA_MM2, LENGTH_MM

_ROUNDING_MM = 0.15


def faults(
    problem: Problem, layout: RackLayout, rack: Sequence[RackPiece], *, material: str
) -> list[str]:
    """Return every reason why the workshop could not cut this plan; empty means good.

    Parameters
    ----------
    problem : Problem
        All parts, on sheets and on the rack.
    layout : RackLayout
        Where they are cut.
    rack : sequence of RackPiece
        What there is on the rack.
    material : str
        Code of the material.
    """
    sentences = list(_wrong_quantities(problem, layout))
    ordered = {part.mark for part in problem.parts}
    new = tuple(p.part for p in layout.new.placed if p.part.mark in ordered)
    if new:
        sentences += verify.faults(replace(problem, parts=new), layout.new)
    there = {piece.label: piece for piece in rack}
    for label, times in Counter(layout.labels).items():
        if times > 1:
            sentences.append(f"The offcut {label} is cut up {times} times.")
    for cut in layout.cuts:
        if there.get(cut.piece.label) != cut.piece:
            sentences.append(f"The offcut {cut.piece.label} is not on the rack.")
        if cut.piece.material != material:
            sentences.append(f"The offcut {cut.piece.label} is of {cut.piece.material}.")
        sentences += _within(cut)
        sentences += _too_close(cut, problem.kerf / 10)
    return sentences


def faults_in_kept(
    problem: Problem, layout: RackLayout, kept: Sequence[KeptOffcut], *, least_side_mm: float
) -> list[str]:
    """Return every reason why what is to go on the rack cannot be had, or is not worth it."""
    rooms = {offcut.source: _room(problem, layout, offcut) for offcut in kept}
    sentences: list[str] = []
    for offcut in kept:
        room, placed = rooms[offcut.source]
        sentences += _wrongly_kept(offcut, room, placed, problem.kerf / 10)
        thin = least_side_mm / 2 - LENGTH_MM
        if offcut.shape_mm.buffer(-thin).is_empty:
            sentences.append(f"{offcut.name} is narrower than {least_side_mm:g} mm.")
    for a, b in combinations(kept, 2):
        apart = a.shape_mm.distance(b.shape_mm)
        if a.source == b.source and apart < problem.kerf / 10 - LENGTH_MM:
            sentences.append(f"{a.name} and {b.name} are closer than the saw cut.")
    return sentences


def sawn_through(
    problem: Problem,
    kept: Sequence[KeptOffcut],
    layout: RackLayout,
    cuts: Sequence[SheetCuts],
    of_offcuts: Sequence[SheetCuts] = (),
) -> list[str]:
    """Return every offcut that the blade runs into when the sheets are cut in their order.

    Parameters
    ----------
    problem : Problem
        The saw.
    kept : sequence of KeptOffcut
        What is to go on the rack.
    layout : RackLayout
        The offcuts that are cut up.
    cuts, of_offcuts : sequence of SheetCuts
        How new sheets are cut up; how offcuts are, in the order of ``layout.cuts``.
    """
    sawn: dict[tuple[int, str | None], SheetCuts] = {(one.sheet_no, None): one for one in cuts}
    for label, one in zip(layout.labels, of_offcuts, strict=bool(of_offcuts)):
        sawn[0, label] = one
    sentences = []
    for offcut in kept:
        here = sawn[offcut.source].cuts if offcut.source in sawn else ()
        # Two faces of one piece are rounded to tenths apart, so their sides differ by a hair.
        inner = offcut.shape_mm.buffer(-_ROUNDING_MM)
        for number, cut in enumerate(here, start=1):
            if _kerf_strip(cut, problem.kerf / 10).intersection(inner).area > AREA_MM2:
                sentences.append(f"{offcut.name} is sawn through by cut {number}.")
    return sentences


def _kerf_strip(cut: SawCut, kerf_mm: float) -> shapely.Polygon:
    """Return what the blade takes of the upper face, a hair narrower."""
    (x0, y0), (x1, y1) = cut.start_mm, cut.end_mm
    dx, dy = ((kerf_mm - LENGTH_MM) * way for way in cut.outward)
    return shapely.Polygon([(x0, y0), (x1, y1), (x1 + dx, y1 + dy), (x0 + dx, y0 + dy)])


def _room(
    problem: Problem, layout: RackLayout, offcut: KeptOffcut
) -> tuple[shapely.Polygon, Sequence[Placed]]:
    """Return what an offcut is cut from, and the parts that are cut from it too."""
    for cut in layout.cuts:
        if cut.piece.label == offcut.label:
            return _shape_mm(cut.piece), cut.placed
    trim = problem.trim / 10
    length, width = problem.sheet_length / 10, problem.sheet_width / 10
    usable = shapely.box(trim, trim, length - trim, width - trim)
    return usable, layout.new.on_sheet(offcut.sheet_no)


def _wrongly_kept(
    offcut: KeptOffcut, room: shapely.Polygon, placed: Sequence[Placed], kerf_mm: float
) -> Iterator[str]:
    if not placed:
        yield f"{offcut.name} comes from a piece that is not cut."
    if not room.buffer(LENGTH_MM, join_style="mitre").covers(offcut.shape_mm):
        yield f"{offcut.name} goes beyond the piece it is cut from."
    if any(_polygon(one).distance(offcut.shape_mm) < kerf_mm - LENGTH_MM for one in placed):
        yield f"{offcut.name} is closer to a part than the saw cut."


def _wrong_quantities(problem: Problem, layout: RackLayout) -> Iterator[str]:
    ordered = Counter(problem.parts)
    laid = Counter((*(placed.part for placed in layout.new.placed), *layout.on_rack))
    for part in ordered - laid:
        yield f"Part {part.mark} is missing."
    for part in laid - ordered:
        yield f"Part {part.mark} is cut once too often, or was never ordered."


def _within(cut: RackCut) -> Iterator[str]:
    room = _shape_mm(cut.piece).buffer(LENGTH_MM, join_style="mitre")
    for placed in cut.placed:
        part = placed.part
        if placed.turned_deg not in part.may_turn_deg:
            yield f"Part {part.mark} must not be turned by {placed.turned_deg}°."
        if placed.turned_over and not (part.may_turn_over and cut.piece.may_turn_over):
            yield f"Part {part.mark} must not be turned over on the offcut {cut.piece.label}."
        if not room.covers(_polygon(placed)):
            yield f"Part {part.mark} goes beyond the offcut {cut.piece.label}."


def _too_close(cut: RackCut, kerf_mm: float) -> Iterator[str]:
    for a, b in combinations(cut.placed, 2):
        pair = f"Parts {a.part.mark} and {b.part.mark}"
        shape_a, shape_b = _polygon(a), _polygon(b)
        if shape_a.buffer(-LENGTH_MM, join_style="mitre").intersects(shape_b):
            yield f"{pair} overlap on the offcut {cut.piece.label}."
        elif shape_a.distance(shape_b) < kerf_mm - LENGTH_MM:
            yield f"{pair} are closer than the saw cut on the offcut {cut.piece.label}."


def _polygon(placed: Placed) -> shapely.Polygon:
    return shapely.Polygon(placed.cut_outline_mm)


def _shape_mm(piece: RackPiece) -> shapely.Polygon:
    return shapely.Polygon([(x / 10, y / 10) for x, y in piece.corners])
