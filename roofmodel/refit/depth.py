"""How deep a build-up is where it matters: at the eaves, the wall, the box gutter, below the bars.

Depths square to the facet become plumb ones by its pitch: depth / cos(pitch).
"""

import math
from dataclasses import dataclass

from roofmodel.refit.refit import Refit
from roofmodel.shapes.roof import Line, LineKind

UPSTAND_MM = 150.0
"""What a flashing needs above the covering at a wall (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Depth:
    """The build-up at one kind of line: heights are above the floor, depths plumb [mm].

    ``surface_mm`` is the new covering, ``ceiling_mm`` the face the room sees; ``room_mm`` is what
    is left up to the sill, None where none was read or none is above.
    """

    where: str
    plumb_mm: float
    surface_mm: float
    ceiling_mm: float
    room_mm: float | None = None

    @property
    def words(self) -> str:
        """The depth as a line of a report."""
        text = (
            f"{self.where}: {self.plumb_mm:.0f} mm measured plumb, new surface "
            f"{self.surface_mm:.0f} mm and ceiling {self.ceiling_mm:.0f} mm above the "
            "floor"
        )
        if self.room_mm is None:
            return text
        if self.room_mm < 0.0:
            return f"{text}; {-self.room_mm:.0f} mm too high to fit the flashing below the sill"
        return f"{text}; {self.room_mm:.0f} mm to spare below the sill, flashing included"


_PLACES = (
    (LineKind.EAVES, "eaves"),
    (LineKind.BOX_GUTTER, "box gutter"),
    (LineKind.HOUSE_WALL, "abutment"),
)


def depths(refit: Refit) -> tuple[Depth, ...]:
    """Return the build-up at eaves, box gutter and abutment, each at its deepest."""
    made = []
    for kind, words in _PLACES:
        lines = [
            line
            for line in refit.site.roof.lines_of(kind)
            if any(name in refit.facets for name in line.facets)
        ]
        if lines:
            made.append(_depth(refit, words, lines))
    return tuple(made)


def headroom_lost_mm(refit: Refit) -> float:
    """Return by how much the ceiling lies below the underside of the bars, square to it [mm].

    Without a lining nothing is lost.
    """
    return max(0.0, refit.depth_inside_mm - refit.bar_depth_mm)


def _depth(refit: Refit, words: str, lines: list[Line]) -> Depth:
    pitches = {f.name: f.pitch_deg for f in refit.covered_facets}
    steep = max(pitches[name] for line in lines for name in line.facets if name in pitches)
    cosine = math.cos(math.radians(steep))
    ends = [end[2] for line in lines for end in (line.start, line.end)]
    at_wall = words == "abutment"
    level_mm = refit.site.roof.eaves_height_mm + (max(ends) if at_wall else min(ends))
    surface_mm = level_mm + refit.depth_outside_mm / cosine
    sill_mm = refit.site.standing.sill_height_mm
    # Panels leave the old surface and its flashing where they are.
    asked = at_wall and sill_mm is not None and refit.depth_outside_mm > 0.0
    return Depth(
        where=words,
        plumb_mm=(refit.depth_outside_mm + refit.depth_inside_mm) / cosine,
        surface_mm=surface_mm,
        ceiling_mm=level_mm - refit.depth_inside_mm / cosine,
        room_mm=sill_mm - surface_mm - UPSTAND_MM if asked and sill_mm is not None else None,
    )
