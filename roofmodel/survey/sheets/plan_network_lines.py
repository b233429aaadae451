"""Lines of the survey sheet of any plan, from above: lengths, squares, diagonals, angles."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import combinations

import shapely

from roofmodel.shapes.footprint import SideKind
from roofmodel.survey.readings import line_name
from roofmodel.survey.readings.measure import Measure
from roofmodel.survey.readings.network import SheetLine
from roofmodel.survey.readings.plan_topology import Pair, PlanShape
from roofmodel.survey.readings.reading import Tool
from roofmodel.survey.sheets import plan_lines, plan_network_heights

_KINDS = {
    SideKind.HOUSE_WALL: "House wall",
    SideKind.EAVES: "Eaves",
    SideKind.VERGE: "Verge",
    SideKind.BOX_GUTTER: "Box gutter",
}
_BESIDE_MM = 1.0
_ALL_TAPED = 8
"""Up to how many corners every diagonal is taped twice."""
_STRAIGHT_DEG = 180.0
_ROUND_DEG = 360.0
_NEARLY_DEG = 15.0
"""A corner straighter than this may turn out to bend the other way."""


def plan(shape: PlanShape) -> list[SheetLine]:
    """Return what is read of the plan, in the order of taping."""
    words = [_KINDS[side.kind] for side in shape.footprint.sides]
    return [
        *plan_lines.lengths(shape.corners, words),
        *_raised(shape),
        *_squares(shape),
        *_diagonals(shape),
        *_angles(shape),
    ]


def doubts(shape: PlanShape) -> list[SheetLine]:
    """Return lines that are only read to settle a doubt."""
    corners = shape.corners
    first = shape.at_mm[corners[0]], shape.at_mm[corners[1]]
    middle = tuple((a + b) / 2.0 for a, b in zip(*first, strict=True))
    seen = [c for c in corners[2:] if _inside(shape, middle, shape.at_mm[c])]
    return [
        *plan_lines.middles([*corners[:2], *seen]),
        *plan_network_heights.middle_heights(shape),
        *plan_lines.inside(widths(shape)),
    ]


def widths(shape: PlanShape) -> list[str]:
    """Return the widths whose inside can be taped: the first side, and across where the end starts.

    The second only where a tape runs there within the plan.
    """
    first, across = shape.corners[:2], (shape.corners[2], shape.corners[-1])
    inside = across[0] != across[1] and _inside(shape, *(shape.at_mm[corner] for corner in across))
    return [line_name.length(*pair) for pair in ((first, across) if inside else (first,))]


def _raised(shape: PlanShape) -> Iterator[SheetLine]:
    """Yield where on its side a raised eaves begins and ends."""
    for top in shape.tops:
        if not shape.carries_eaves(top):
            continue
        for i in shape.on_sides(top):
            side = shape.side_pairs[i]
            corner = min(side, key=lambda c: shape.length_mm(c, top))
            yield SheetLine(
                name=line_name.length(corner, top),
                label=f"Along {''.join(side)} from {corner} to {top}, where the raised eaves end",
                tool=Tool.TAPE,
                measure=Measure.PLAN_LENGTH,
                points=(corner, top),
                times=2,
            )


def _squares(shape: PlanShape) -> Iterator[SheetLine]:
    """Yield the projection of each corner off the first side; taped where that lies inside."""
    a, b = shape.corners[:2]
    house = shape.footprint.sides[0].kind is SideKind.HOUSE_WALL
    label = "the house wall" if house else line_name.length(a, b)
    for corner in shape.corners[2:]:
        along, off = shape.foot(corner, (a, b))
        if abs(off) < _BESIDE_MM:
            continue
        (x1, y1, _), (x2, y2, _) = shape.at_mm[a], shape.at_mm[b]
        share = along / shape.length_mm(a, b)
        end = (x1 + share * (x2 - x1), y1 + share * (y2 - y1))
        taped = _at_wall(shape, end) and _inside(shape, end, shape.at_mm[corner])
        bounds = None if off > 0.0 else (-1e5, 0.0)
        yield SheetLine(
            name=line_name.off(corner, (a, b)),
            label=f"Projection of {corner}, square off {label}",
            tool=Tool.TAPE,
            measure=Measure.SQUARE_OFF,
            points=(corner, a, b),
            times=2 if taped else 0,
            bounds=bounds,
        )


def _at_wall(shape: PlanShape, spot: Sequence[float]) -> bool:
    """Whether a spot in line with the first side lies on it, or on house wall beyond it."""
    point = shapely.Point(spot[:2])
    return any(
        shapely.LineString([shape.at_mm[p][:2], shape.at_mm[q][:2]]).distance(point) < _BESIDE_MM
        for i, (p, q) in enumerate(shape.side_pairs)
        if i == 0 or shape.footprint.sides[i].kind is SideKind.HOUSE_WALL
    )


def _overall(shape: PlanShape) -> list[SheetLine]:
    """Return the overall width along the wall, where a notch divides what stands against it."""
    a, b = shape.corners[:2]
    if shape.footprint.sides[0].kind is not SideKind.HOUSE_WALL:
        return []
    on_wall = [
        corner
        for corner in shape.corners[2:]
        if abs(shape.foot(corner, (a, b))[1]) < _BESIDE_MM and _at_wall(shape, shape.at_mm[corner])
    ]
    if not on_wall:
        return []
    far = max(on_wall, key=lambda corner: shape.length_mm(a, corner))
    return [
        SheetLine(
            name=line_name.length(a, far),
            label=f"Overall width along the house wall, {a} to {far}",
            tool=Tool.TAPE,
            measure=Measure.PLAN_LENGTH,
            points=(a, far),
            times=2,
        )
    ]


def _diagonals(shape: PlanShape) -> list[SheetLine]:
    """Return a line for each diagonal that runs inside the plan, and so can be taped."""
    sides = {frozenset(side) for side in shape.side_pairs}
    lines = _overall(shape)
    for p, q in combinations(shape.corners, 2):
        if frozenset((p, q)) in sides or not _inside(shape, shape.at_mm[p], shape.at_mm[q]):
            continue
        if any(_over(shape, corner, (p, q)) for corner in shape.corners if corner not in (p, q)):
            continue  # the sides in that line are taped one by one
        lines.append(
            SheetLine(
                name=line_name.length(p, q),
                label=f"Diagonal, {p} to {q}",
                tool=Tool.DIAGONAL,
                measure=Measure.PLAN_LENGTH,
                points=(p, q),
                times=_times(shape, p, q),
            )
        )
    return lines


def _over(shape: PlanShape, corner: str, pair: Pair) -> bool:
    """Whether a line between two corners passes over another."""
    along, off = shape.foot(corner, pair)
    return abs(off) < _BESIDE_MM and 0.0 < along < shape.length_mm(*pair)


def _times(shape: PlanShape, p: str, q: str) -> int:
    """Return how often a diagonal is taped: on a plan of more than eight corners not every one.

    There each corner is tied to the two ends of the wall, once, and to the next but one, twice.
    """
    count = len(shape.corners)
    apart = shape.corners.index(q) - shape.corners.index(p)
    if count <= _ALL_TAPED or min(apart, count - apart) == 2:
        return 2
    return 1 if p in shape.corners[:2] else 0


def _angles(shape: PlanShape) -> list[SheetLine]:
    """Return the angle at each corner; at an inner corner it is more than 180°."""
    nominal = angles_deg(shape)
    lines = []
    for line, angle in zip(plan_lines.angles(shape.corners), nominal, strict=True):
        if angle > _STRAIGHT_DEG + _NEARLY_DEG:
            label = f"{line.label}, inside the roof: 360° minus the angle outside"
            lines.append(replace(line, label=label, bounds=(_STRAIGHT_DEG, _ROUND_DEG)))
        elif angle > _STRAIGHT_DEG - _NEARLY_DEG:
            lines.append(replace(line, bounds=(0.0, _ROUND_DEG)))
        else:
            lines.append(line)
    return lines


def angles_deg(shape: PlanShape) -> list[float]:
    """Return the angle inside the plan at each corner as typed [°]."""
    spots = [shape.at_mm[corner] for corner in shape.corners]
    angles = []
    for i, (x, y, _) in enumerate(spots):
        (x1, y1, _), (x2, y2, _) = spots[i - 1], spots[(i + 1) % len(spots)]
        turn = math.atan2(y2 - y, x2 - x) - math.atan2(y1 - y, x1 - x)
        angles.append(math.degrees(turn) % _ROUND_DEG)
    return angles


def _inside(shape: PlanShape, start: Sequence[float], end: Sequence[float]) -> bool:
    """Whether a tape between two spots of the plan stays within it."""
    outline = shapely.Polygon(shape.footprint.corners_mm).buffer(_BESIDE_MM)
    return bool(outline.covers(shapely.LineString([start[:2], end[:2]])))
