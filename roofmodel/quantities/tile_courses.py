"""Tiles counted course by course: equal gauge, whole tiles in every course, no sliver at a verge.

Common practice, no source: courses = slope ÷ greatest gauge, rounded up; the gauge is then equal;
each course takes its own length ÷ cover, rounded up, because what a hip cuts off a tile is lost.
"""

import math
from dataclasses import dataclass

import shapely

from roofmodel.foundation import tolerance
from roofmodel.shapes.flat_edge import flat_edges
from roofmodel.shapes.roof import Facet, LineKind

SLIVER = 1 / 3
"""Share of a tile's cover below which the tile at a verge is a sliver."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TileCourses:
    """The courses of one facet from the eaves up; ``tiles`` has one count for each.

    ``verge_tile_mm`` is what the last tile of a full course is cut to; where that were a sliver
    both ends are cut to it instead, which takes no tile more. None on a facet without two verges.
    """

    facet: str
    gauge_mm: float
    tiles: tuple[int, ...]
    verge_tile_mm: float | None

    @property
    def count(self) -> int:
        """Whole tiles of the facet."""
        return sum(self.tiles)

    @property
    def words(self) -> str:
        """The count as a formula shows it."""
        same = len(set(self.tiles)) == 1
        each = f"{len(self.tiles)} × {self.tiles[0]}" if same else "+".join(map(str, self.tiles))
        return f"{self.facet} {each} at gauge {self.gauge_mm:.1f}"


def of_facet(facet: Facet, *, cover_mm: float, gauge_most_mm: float) -> TileCourses:
    """Return the tiles of a facet.

    Parameters
    ----------
    facet
        The facet on the surface the tiles are screwed to.
    cover_mm
        Width a tile covers along the course [mm].
    gauge_most_mm
        Greatest distance from course to course up the slope [mm].
    """
    outline = shapely.Polygon(facet.outline_mm)
    left, low, right, top = outline.bounds
    courses = max(1, math.ceil((top - low - tolerance.LENGTH_MM) / gauge_most_mm))
    # The gauge is evened out, so that no course at the top is cut.
    gauge_mm = (top - low) / courses
    tiles = []
    for i in range(courses):
        strip = outline.intersection(
            shapely.box(left, low + i * gauge_mm, right, low + (i + 1) * gauge_mm)
        )
        # A course may be broken by a valley or a notch; each stretch starts with a tile of its own.
        parts = [p for p in shapely.get_parts(strip) if p.area > tolerance.AREA_MM2]
        tiles.append(sum(_tiles(p.bounds[2] - p.bounds[0], cover_mm) for p in parts))
    return TileCourses(
        facet=facet.name,
        gauge_mm=gauge_mm,
        tiles=tuple(tiles),
        verge_tile_mm=_verge_tile_mm(facet, cover_mm),
    )


def _tiles(length_mm: float, cover_mm: float) -> int:
    return max(1, math.ceil((length_mm - tolerance.LENGTH_MM) / cover_mm))


def _verge_tile_mm(facet: Facet, cover_mm: float) -> float | None:
    ends = [e for e in flat_edges(facet) if e.runs_up and e.kind is LineKind.VERGE]
    if len(ends) != 2 or any(abs(e.end[0] - e.start[0]) > tolerance.LENGTH_MM for e in ends):
        return None
    width_mm = float(facet.outline_mm[:, 0].max() - facet.outline_mm[:, 0].min())
    rest_mm = width_mm % cover_mm
    if rest_mm <= tolerance.LENGTH_MM:
        return cover_mm
    return rest_mm if rest_mm >= SLIVER * cover_mm else (rest_mm + cover_mm) / 2.0
