"""The number of sheets below which no way of laying can go, as long as it keeps the rules."""

import math
from collections.abc import Sequence

import shapely

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.laying.board import Course
from roofmodel.cutting.laying.boarding import Boarding
from roofmodel.cutting.laying.course import ends
from roofmodel.cutting.laying.division import fewest_rows
from roofmodel.cutting.laying.joint import fewest_pieces
from roofmodel.cutting.laying.rule import LayingRules
from roofmodel.cutting.laying.stretch import Span
from roofmodel.cutting.laying.support_joint import keeps
from roofmodel.cutting.parts.tenths import cut_tenths
from roofmodel.cutting.proof import row_prices
from roofmodel.cutting.proof.bound import Bound, up
from roofmodel.cutting.proof.ripped_rows import RippedRows
from roofmodel.cutting.proof.roof_area import least_mm2
from roofmodel.cutting.proof.row_prices import Arc, TariffRow
from roofmodel.foundation.tolerance import AREA_MM2, LENGTH_MM

_MARGIN = 1e-9


def least_for_any(boardings: Sequence[Boarding], good: SheetGood) -> Bound:
    """Return the best of three bounds that hold however the boards are laid under the rules."""
    bounds = [_by_area(boardings, good), _by_rows(boardings, good)]
    best = max(bounds, key=lambda bound: bound.sheets)
    return _by_ripped_rows(boardings, good, least=best) or best


def _by_area(boardings: Sequence[Boarding], good: SheetGood) -> Bound:
    """Return the bound by area: what grown boards cover of the roof against grown sheets."""
    rules = boardings[0].rules
    kerf = _kerf_mm(good)
    area = sum(
        boarding.times
        * least_mm2(shapely.Polygon(boarding.pair.facet.outline_mm), rules, kerf_mm=kerf)
        for boarding in boardings
    )
    length, width = (side + 2 * LENGTH_MM for side in (rules.board_length_mm, rules.board_width_mm))
    sheet = length * width + (length + width) * kerf + math.pi * kerf * kerf / 4
    return Bound(sheets=max(1, up(area / sheet)), reason="by the area of the roof")


def _by_rows(boardings: Sequence[Boarding], good: SheetGood) -> Bound:
    """Return the bound by whole rows: what their pieces take of sheets however they are jointed.

    Only where courses are given by the rules, and pieces keep to the sheet's length.
    """
    rules = boardings[0].rules
    if rules.rows != "whole" or rules.strength_axis != "long":
        return Bound(sheets=1, reason="by rows")
    # Two pieces a saw cut apart, corner to corner, are this far apart along or across the sheet.
    between = _kerf_mm(good) / math.sqrt(2)
    rows = [
        row
        for boarding in boardings
        for edges in boarding.divisions[0]
        for row in _rows(boarding, boarding.bare(edges))
        for _ in range(boarding.times)
    ]
    sheet = rules.board_length_mm + 2 * LENGTH_MM, rules.board_width_mm + 2 * LENGTH_MM
    if rules.joints == "free" or not all(boarding.supports_mm for boarding in boardings):
        pressed = _free_cost(rows, rules, sheet, between)
        return Bound(sheets=max(1, up(pressed)), reason="by the length of whole rows")
    pressed = row_prices.least(rows, sheet, between)
    return Bound(sheets=max(1, up(pressed)), reason="by whole rows jointed on bars")


def _by_ripped_rows(
    boardings: Sequence[Boarding], good: SheetGood, *, least: Bound
) -> Bound | None:
    """Return a better bound than the least known, for rows of any height on one rectangle.

    Only where its rows can be laid as high as the rules ask, and pieces keep to the sheet's length.
    """
    boarding, rules = boardings[0], boardings[0].rules
    shape = shapely.Polygon(boarding.pair.facet.outline_mm)
    square = shape.area > shape.envelope.area - AREA_MM2
    if len(boardings) > 1 or not square or rules.rows != "ripped" or rules.strength_axis != "long":
        return None
    if any(boarding.broken(boarding.fewest(boarding.divisions[0]))):
        return None
    left, low, right, high = shape.bounds
    between = _kerf_mm(good) / math.sqrt(2)
    fewest = fewest_rows(high - low, rules)
    length = rules.board_length_mm + 2 * LENGTH_MM + between
    share = boarding.times * _along_mm((left, right), rules, between) / length
    counts = [
        RippedRows(
            count=count,
            room_mm=high - low - (count - 1) * rules.gap_mm + count * (between - LENGTH_MM),
            heights_mm=(
                rules.minimum_piece_mm - 2 * LENGTH_MM + between,
                rules.board_width_mm + LENGTH_MM + between,
            ),
            width_mm=rules.board_width_mm + 2 * LENGTH_MM + between,
            along=share,
        )
        for count in range(fewest, fewest + rules.more_rows + 1)
    ]
    sheets, possible = least.sheets, [rows for rows in counts if rows.possible]
    while possible and not any(rows.may_do(sheets) for rows in possible):
        sheets += 1
    if sheets == least.sheets:
        return None
    return Bound(sheets=sheets, reason="by the length of rows, whatever their heights")


def _along_mm(span: Span, rules: LayingRules, between: float) -> float:
    """Return what the pieces of a row take of a sheet's length at least, each with its saw cut."""
    most = (span[1] - span[0]) / (rules.minimum_piece_mm + rules.gap_mm)
    if rules.joints == "free":
        most = fewest_pieces(span, rules) - 1 + rules.more_joints
    wider = max(0.0, rules.gap_mm - between + LENGTH_MM)
    return max(0.0, span[1] - span[0] + between - LENGTH_MM - most * wider)


def _rows(boarding: Boarding, course: Course) -> list[TariffRow]:
    """Return what is rectangular in a course, with every piece the rules allow in it."""
    rows = []
    for strip in course.strips:
        inner = _upright(strip)
        arcs = _arcs(boarding, ends(strip), inner) if inner[0] < inner[1] else []
        stops = max((end for _, end, _ in arcs), default=0) + 1
        if arcs:
            rows.append(TariffRow(round(course.height_mm, 1), stops, tuple(arcs)))
    return rows


def _arcs(boarding: Boarding, outer: Span, inner: Span) -> list[Arc]:
    rules, supports = boarding.rules, boarding.supports_mm
    half = rules.gap_mm / 2
    places = [outer[0] - half, *(x for x in supports if outer[0] < x < outer[1]), outer[1] + half]
    if rules.joints == "free" or not supports:
        return [(0, 1, inner[1] - inner[0])]
    arcs = []
    for i, begin in enumerate(places):
        for j in range(i + 1, len(places)):
            piece = (begin + half, places[j] - half)
            if keeps(piece, rules, supports):
                inside = min(piece[1], inner[1]) - max(piece[0], inner[0])
                arcs.append((i, j, max(0.0, inside - LENGTH_MM)))
    return arcs if _reach_the_end(arcs, len(places)) else []


def _reach_the_end(arcs: Sequence[Arc], stops: int) -> bool:
    """Return whether a row can be laid from end to end; else no bound holds."""
    reached = {0}
    for begin, end, _ in sorted(arcs):
        if begin in reached:
            reached.add(end)
    return stops - 1 in reached


def _upright(strip: shapely.Polygon) -> Span:
    """Return the stretch in which a convex strip is as high as its course."""
    if strip.convex_hull.area > strip.area * (1 + 1e-9):
        return (0.0, 0.0)
    _, low, _, high = strip.bounds
    corners = list(strip.exterior.coords)
    at = [[u for u, v in corners if abs(v - level) < LENGTH_MM] for level in (low, high)]
    return max(min(u) for u in at), min(max(u) for u in at)


def _free_cost(
    rows: Sequence[TariffRow], rules: LayingRules, sheet: tuple[float, float], between: float
) -> float:
    """Return what rows take of sheets by length and height, jointed anywhere."""
    wider = max(0.0, rules.gap_mm - between)
    width = sheet[1] + between
    along = []
    for row in rows:
        length = row.arcs[0][2]
        joints = length / (rules.minimum_piece_mm + rules.gap_mm)
        along.append(max(0.0, length + between - joints * wider) / (sheet[0] + between))
    # Below a limit a height costs nothing; then what leaves less than that beside it costs a whole
    # width, and all else its share.
    limits = [0.0, *(row.height_mm + between for row in rows)]
    return max(
        sum(
            a * _price((row.height_mm + between) / width, limit / width)
            for a, row in zip(along, rows, strict=True)
        )
        for limit in limits
        if limit <= width / 2
    )


def _price(share: float, limit: float) -> float:
    if share > 1.0 - limit + _MARGIN:
        return 1.0
    return share if share >= limit - _MARGIN else 0.0


def _kerf_mm(good: SheetGood) -> float:
    return max(0.0, cut_tenths(good.kerf_mm) / 10 - LENGTH_MM)
