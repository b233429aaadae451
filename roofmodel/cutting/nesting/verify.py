"""Says why a layout could not be cut, or its parts not be laid; it has never seen a solver."""

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import combinations, pairwise

import shapely
from shapely.affinity import translate

from roofmodel.cutting.parts.facet import BoardedFacet
from roofmodel.cutting.parts.layout import Layout, Placed
from roofmodel.cutting.parts.part import Part
from roofmodel.cutting.parts.piece import Piece
from roofmodel.cutting.parts.problem import Problem
from roofmodel.foundation.tolerance import AREA_MM2, LENGTH_MM

_ROUNDING_MM = 0.2
"""What rounding two neighbours to whole tenths, parts up, can take from the gap between them."""

_GAP_ENDS_WITHIN = 20.0
"""Widths of a gap on which it may run out; sides of pieces are longer."""

_CORNER_WITHIN = 6.0
"""How long a corner given up beside a mitre may be, in parts of its depth."""


def faults(problem: Problem, layout: Layout) -> list[str]:
    """Return every reason why the workshop could not cut this layout; empty means good."""
    return [
        *_wrong_quantities(problem, layout),
        *_wrong_numbers(layout),
        *(fault for placed in layout.placed for fault in _wrongly_placed(problem, placed)),
        *_too_close(problem, layout),
    ]


def faults_on_roof(
    facets: Sequence[BoardedFacet], parts: Sequence[Part], *, gap_mm: float
) -> list[str]:
    """Return every reason why the parts, put back where they belong, do not cover the facets."""
    names = {facet.name for facet in facets}
    sentences = [
        f"Part {part.mark} belongs to {part.facet}, which this roof does not have."
        for part in parts
        if part.facet not in names
    ]
    for facet in facets:
        here = [part for part in parts if part.facet == facet.name]
        shape = shapely.Polygon(facet.outline_mm)
        sentences += _faults_within(
            facet.name, shape, here, gap_mm, mitred_mm=_mitred_mm(facet, here)
        )
    return sentences


def _mitred_mm(facet: BoardedFacet, parts: Sequence[Part]) -> float:
    """Return how far from a side a square corner of a bevelled layer's board may keep off."""
    thick_mm = max((part.thickness_mm for part in parts if any(part.bevels_deg)), default=0.0)
    lean_deg = max((abs(edge.lean_deg) for edge in facet.edges), default=0.0)
    return thick_mm * math.tan(math.radians(lean_deg))


def faults_in_pieces(made: Sequence[tuple[Piece, Sequence[Part]]], *, least_mm: float) -> list[str]:
    """Return every reason why parts, put back where they belong, do not make up their pieces.

    A part of a piece that was cut is no shorter than ``least_mm``, where the piece is long enough.
    """
    return [
        fault
        for piece, parts in made
        for fault in (
            *_faults_within(piece.mark, piece.shape, parts, piece.split_gap_mm),
            *_too_short(piece, parts, least_mm),
        )
    ]


def _too_short(piece: Piece, parts: Sequence[Part], least_mm: float) -> Iterator[str]:
    # A part is as long as its two cuts are apart: the tip of a raked piece may be narrower.
    way = _parted_along(parts)
    low, high = piece.shape.bounds[way], piece.shape.bounds[way + 2]
    if len(parts) < 2 or high - low < len(parts) * (least_mm + _ROUNDING_MM):
        return
    for part in parts:
        if _extent_mm(part, way) < least_mm - _ROUNDING_MM:
            yield f"Part {part.mark} is shorter than {least_mm:g} mm."


def _parted_along(parts: Sequence[Part]) -> int:
    """Return along which axis the parts of a piece follow each other: 0 across, 1 up the slope."""
    ordered = sorted(parts, key=lambda part: part.at_mm[0])
    in_a_row = all(
        one.at_mm[0] + _extent_mm(one, 0) <= following.at_mm[0] + _ROUNDING_MM
        for one, following in pairwise(ordered)
    )
    return 0 if in_a_row else 1


def _extent_mm(part: Part, way: int) -> float:
    return (part.length_tenths, part.width_tenths)[way] / 10


def _wrong_quantities(problem: Problem, layout: Layout) -> Iterator[str]:
    ordered = Counter(problem.parts)
    laid = Counter(placed.part for placed in layout.placed)
    for part in ordered - laid:
        yield f"Part {part.mark} is missing."
    for part in laid - ordered:
        yield f"Part {part.mark} is cut once too often, or was never ordered."


def _wrong_numbers(layout: Layout) -> Iterator[str]:
    numbers = {placed.sheet_no for placed in layout.placed}
    if numbers != set(range(1, len(numbers) + 1)):
        yield f"The sheets are numbered {sorted(numbers)}, not 1 to {len(numbers)}."


def _wrongly_placed(problem: Problem, placed: Placed) -> Iterator[str]:
    part = placed.part
    if placed.turned_deg not in part.may_turn_deg:
        yield f"Part {part.mark} must not be turned by {placed.turned_deg}°."
    if placed.turned_over and not part.may_turn_over:
        yield f"Part {part.mark} must not be turned over."
    trim = problem.trim / 10 - LENGTH_MM
    right, top = problem.sheet_length / 10 - trim, problem.sheet_width / 10 - trim
    inside = all(trim <= x <= right and trim <= y <= top for x, y in placed.cut_outline_mm)
    if not inside:
        yield f"Part {part.mark} goes beyond the usable part of sheet {placed.sheet_no}."


def _too_close(problem: Problem, layout: Layout) -> Iterator[str]:
    kerf_mm = problem.kerf / 10
    for sheet_no in sorted({placed.sheet_no for placed in layout.placed}):
        shapes = [(p, shapely.Polygon(p.cut_outline_mm)) for p in layout.on_sheet(sheet_no)]
        for (a, shape_a), (b, shape_b) in combinations(shapes, 2):
            pair = f"Parts {a.part.mark} and {b.part.mark}"
            if shape_a.buffer(-LENGTH_MM, join_style="mitre").intersects(shape_b):
                yield f"{pair} overlap on sheet {sheet_no}."
            elif shape_a.distance(shape_b) < kerf_mm - LENGTH_MM:
                yield f"{pair} are closer than the saw cut of {kerf_mm:g} mm on sheet {sheet_no}."


def _faults_within(
    name: str,
    outline: shapely.Polygon,
    parts: Sequence[Part],
    gap_mm: float,
    *,
    mitred_mm: float = 0.0,
) -> Iterator[str]:
    room = _grown(outline, _ROUNDING_MM)
    shapes = [(part.mark, _on_facet(part)) for part in parts]
    for mark, shape in shapes:
        if shape.difference(room).area > AREA_MM2:
            yield f"Part {mark} hangs over the edge of {name}."
    for (mark_a, a), (mark_b, b) in combinations(shapes, 2):
        if shapely.intersects(_grown(a, -_ROUNDING_MM), b):
            yield f"Parts {mark_a} and {mark_b} overlap on {name}."
        elif a.distance(b) < gap_mm - _ROUNDING_MM:
            yield f"Parts {mark_a} and {mark_b} are closer than the gap of {gap_mm:g} mm."
    # Grown by half the gap and shrunk again, the boards close the gaps, but nothing wider.
    boards = shapely.union_all([shape for _, shape in shapes])
    widest = gap_mm + 2 * _ROUNDING_MM
    closed = _grown(_grown(boards, widest / 2), -widest / 2)
    for spot in shapely.get_parts(shapely.difference(_grown(outline, -_ROUNDING_MM), closed)):
        between = sum(shape.distance(spot) <= widest for _, shape in shapes) > 1
        by_rule = (between and _ends_a_gap(spot, boards, widest)) or _is_a_corner_beside(
            outline, spot, mitred_mm, widest
        )
        if spot.area > AREA_MM2 and not by_rule:
            u, v = spot.representative_point().coords[0]
            yield (
                f"{name} is bare over {spot.area / 100:.2f} cm², near {u:.0f} mm from its left "
                f"and {v:.0f} mm up the slope."
            )


def _is_a_corner_beside(
    outline: shapely.Polygon, spot: shapely.Polygon, mitred_mm: float, widest_mm: float
) -> bool:
    """Return whether a spot is only the corner a square board gives up beside a mitre."""
    left, low, right, high = spot.bounds
    short = math.hypot(right - left, high - low) < _CORNER_WITHIN * mitred_mm
    beside = outline.exterior.buffer(mitred_mm + widest_mm)
    return bool(short and spot.difference(beside).area <= AREA_MM2)


def _ends_a_gap(spot: shapely.Polygon, boards: shapely.Geometry, widest_mm: float) -> bool:
    """Return whether a spot between boards is only where a gap of the right width runs out.

    There the edge of the facet runs away from that of the board beside it, and the shrinking opens
    the gap again. Such a spot is short; where a board is too small, a whole side of it is bare.
    """
    left, low, right, high = spot.bounds
    short = math.hypot(right - left, high - low) < _GAP_ENDS_WITHIN * widest_mm
    narrow = spot.buffer(-widest_mm / 2).is_empty
    beyond = spot.difference(shapely.buffer(boards, widest_mm))
    return bool(short and narrow and beyond.area <= AREA_MM2)


def _grown(shape: shapely.Geometry, by_mm: float) -> shapely.Geometry:
    """Return a shape grown, or shrunk, with its corners kept sharp."""
    return shapely.buffer(shape, by_mm, join_style="mitre", mitre_limit=50)


def _on_facet(part: Part) -> shapely.Polygon:
    shape = shapely.Polygon([(x / 10, y / 10) for x, y in part.corners])
    return translate(shape, *part.at_mm)
