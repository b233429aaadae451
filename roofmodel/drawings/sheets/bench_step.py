"""The cuts of a sheet as a joiner makes them: from which edge, two marks, the tilt, what falls."""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

import shapely

from roofmodel.cutting.nesting.cut import SawCut
from roofmodel.drawings.paper.pen import Spot
from roofmodel.drawings.sheets.cut_on_facet import Stock

_EDGE_MM = 0.4
"""Corners so near a line lie on it: corners of pieces are rounded to tenths."""

_LONG = 1e5
_SQUARE_SIN = 1e-4


@dataclass(frozen=True, slots=True)
class BenchStep:
    """One cut: how it is set out on what is in hand, how the blade stands, and what comes of it."""

    number: int
    setting: str
    blade: str
    gives: str

    @property
    def words(self) -> str:
        """The step in one line."""
        set_out = ", ".join(filter(None, (self.setting, self.blade)))
        return f"{set_out}: {self.gives}." if self.gives else f"{set_out}."


def steps(stock: Stock, kerf_mm: float, names: Mapping[str, str]) -> tuple[BenchStep, ...]:
    """Return the cuts of a stock in their order, in words.

    Distances run from the edges of the panel that is cut, as it lies on the drawing, to the line
    along which the finished edge stands.

    Parameters
    ----------
    stock
        A sheet or offcut with its cuts.
    kerf_mm
        What the saw takes.
    names
        What pieces are called beside the saw, by their marks.
    """
    return tuple(_steps(stock, kerf_mm, names))


def _steps(stock: Stock, kerf_mm: float, names: Mapping[str, str]) -> Iterator[BenchStep]:
    outlines = {one.part.mark: shapely.Polygon(one.cut_outline_mm) for one in stock.placed}
    panels = [shapely.Polygon(stock.outline_mm)]
    for number, cut in enumerate(stock.cuts, start=1):
        freed = names.get(cut.frees, "")
        if cut.again:
            yield BenchStep(number, _again(cut, freed), _blade(cut), "")
            continue
        panel = _cut_panel(panels, cut)
        inner, outer = _halves(panel, cut, kerf_mm, outlines.get(cut.frees))
        panels = [one for one in panels if one is not panel] + [*inner, *outer]
        setting = _setting(panel, cut)
        yield BenchStep(number, setting, _blade(cut), _gives(freed, outer, outlines, stock))


def _blade(cut: SawCut) -> str:
    return f"blade tilted {cut.tilt.replace(' ', '° ', 1)}" if cut.tilt else ""


def _again(cut: SawCut, freed: str) -> str:
    return f"Again along the {_side(cut.outward)} edge of {freed}"


def _cut_panel(panels: Sequence[shapely.Polygon], cut: SawCut) -> shapely.Polygon:
    """Return the panel a cut runs through, the smallest where it lies on the edge of two."""
    middle = shapely.LineString([cut.start_mm, cut.end_mm]).interpolate(0.5, normalized=True)
    return min(panels, key=lambda panel: (round(panel.distance(middle), 2), panel.area))


def _halves(
    panel: shapely.Polygon, cut: SawCut, kerf_mm: float, own: shapely.Polygon | None
) -> tuple[list[shapely.Polygon], list[shapely.Polygon]]:
    """Return what lies within a cut and what falls beyond the blade.

    Where the blade leans out, the piece's larger face goes on beyond the line.
    """
    keep = 0.0
    if own is not None and cut.tilt_deg < 0.0:
        keep = max(0.0, *(_beyond(cut, corner) for corner in own.exterior.coords))
    return (
        _parts(panel.intersection(_half(cut, keep, inwards=True))),
        _parts(panel.intersection(_half(cut, keep + kerf_mm, inwards=False))),
    )


def _parts(shape: shapely.Geometry) -> list[shapely.Polygon]:
    return [one for one in shapely.get_parts(shape) if one.area > 1.0]


def _half(cut: SawCut, off_mm: float, *, inwards: bool) -> shapely.Polygon:
    (x0, y0), (x1, y1), (ox, oy) = cut.start_mm, cut.end_mm, cut.outward
    size = math.dist(cut.start_mm, cut.end_mm)
    ax, ay = (x1 - x0) / size * _LONG, (y1 - y0) / size * _LONG
    far = -_LONG if inwards else _LONG
    near = [
        (x0 - ax + ox * off_mm, y0 - ay + oy * off_mm),
        (x1 + ax + ox * off_mm, y1 + ay + oy * off_mm),
    ]
    return shapely.Polygon([*near, *((x + ox * far, y + oy * far) for x, y in reversed(near))])


def _beyond(cut: SawCut, spot: Sequence[float]) -> float:
    """Return how far a spot lies beyond the line of a cut [mm]; below 0 within it."""
    (x0, y0), (ox, oy) = cut.start_mm, cut.outward
    return (spot[0] - x0) * ox + (spot[1] - y0) * oy


def _setting(panel: shapely.Polygon, cut: SawCut) -> str:
    """Return how a cut is set out: one distance from a parallel edge, else two marks."""
    edges = _edges(panel)
    kind = "Rake" if cut.raked else "Rip" if abs(cut.outward[1]) > abs(cut.outward[0]) else "Cross"
    parallel = [(a, b) for a, b in edges if abs(_beyond(cut, a) - _beyond(cut, b)) <= _EDGE_MM]
    if parallel and not cut.raked:
        a, _ = min(parallel, key=lambda edge: _beyond(cut, edge[0]))
        off = -_beyond(cut, a)
        way = cut.outward if off < 0.0 else (-cut.outward[0], -cut.outward[1])
        side = f"{abs(off):.1f} from the {_side(way)} edge"
        blade = f", blade on its {_side(cut.outward)}" if off < 0.0 else ""
        return f"{kind} {side}{blade}"
    first, second = (_mark(edges, cut, spot) for spot in (cut.start_mm, cut.end_mm))
    return f"{kind} from {first[0]} to {second[0]}, {min(first[1], second[1]):.1f}° off square"


def _edges(panel: shapely.Polygon) -> list[tuple[Spot, Spot]]:
    ring = [(float(x), float(y)) for x, y in shapely.orient_polygons(panel).exterior.coords]
    return [(a, b) for a, b in pairwise(ring) if math.dist(a, b) > _EDGE_MM]


def _mark(edges: Sequence[tuple[Spot, Spot]], cut: SawCut, spot: Spot) -> tuple[str, float]:
    """Return where a spot is marked on an edge, from its end on the kept side, and the angle."""
    a, b = min(edges, key=lambda edge: shapely.LineString(edge).distance(shapely.Point(spot)))
    size = math.dist(a, b)
    out = ((b[1] - a[1]) / size, (a[0] - b[0]) / size)
    end = a if _beyond(cut, a) <= _beyond(cut, b) else b
    other = b if end is a else a
    run = (other[0] - end[0], other[1] - end[1])
    along = (cut.end_mm[0] - cut.start_mm[0], cut.end_mm[1] - cut.start_mm[1])
    square = abs(along[0] * out[0] + along[1] * out[1]) / math.hypot(*along)
    raked = min(abs(out[0]), abs(out[1])) > _SQUARE_SIN
    name = f"the raked {_side(out)} edge" if raked else f"the {_side(out)} edge"
    off_mm = math.dist(end, spot)
    words = f"{off_mm:.1f} {_along(run)} {name}"
    if off_mm <= _EDGE_MM:
        words = f"the {_along(run, starts=True)} end of {name}"
    return words, math.degrees(math.acos(min(1.0, square)))


def _along(run: Spot, *, starts: bool = False) -> str:
    """Return which way one goes along an edge from the end that is measured from, or that end."""
    if abs(run[0]) > abs(run[1]):
        ways = ("left", "right along") if run[0] > 0.0 else ("right", "left along")
    else:
        ways = ("lower", "up") if run[1] > 0.0 else ("upper", "down")
    return ways[0] if starts else ways[1]


def _side(way: Spot) -> str:
    if abs(way[0]) > abs(way[1]):
        return "right" if way[0] > 0.0 else "left"
    return "top" if way[1] > 0.0 else "bottom"


def _gives(
    freed: str,
    outer: Sequence[shapely.Polygon],
    outlines: dict[str, shapely.Polygon],
    stock: Stock,
) -> str:
    """Return what comes of a cut: the piece set free, and what falls beyond the blade."""
    falls = shapely.union_all(list(outer))
    pieces = sum(falls.intersection(shape).area > 0.5 * shape.area for shape in outlines.values())
    racks = [
        f"offcut {short_label(kept.label)} to the rack"
        for kept in stock.kept
        if falls.intersection(shapely.Polygon(kept.corners_mm)).area
        > 0.98 * shapely.Polygon(kept.corners_mm).area
    ]
    if pieces:
        rest = f"parts off {pieces} piece{'' if pieces == 1 else 's'}"
    else:
        rest = racks[0] if racks else "waste falls"
    return f"along {freed}, {rest}" if freed else rest


def short_label(label: str) -> str:
    """Return what of an offcut's label is needed beside its sheet, such as ``S3-1``."""
    return "-".join(label.split("-")[-2:])
