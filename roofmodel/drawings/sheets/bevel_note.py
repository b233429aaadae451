"""How the blade stands at a bevelled side of a part, in words for the bench.

Two boards meet at a hip, ridge or valley on the plane that halves the angle between their facets.
The outline of a part is its outside face. Going in from that face, the halving plane runs under
the board at a hip or ridge, so the inside face ends short of the outside one; at a valley it runs
away from the board, and the inside face sticks out.
"""

import math
from collections.abc import Collection, Sequence
from dataclasses import dataclass

import shapely

from roofmodel.cutting.parts.part import Part
from roofmodel.drawings.paper.pen import Spot
from roofmodel.shapes.roof import Facet, LineKind


@dataclass(frozen=True, slots=True, kw_only=True)
class Bevel:
    """One bevelled side of a part that lies with its outside face up.

    ``number`` is the place of the side in the part's outline; ``degrees`` is how far the blade
    leans off square; ``step_mm`` how far the edge of the inside face is from the outside one's.
    """

    number: int
    degrees: float
    step_mm: float
    inward: bool

    @property
    def words(self) -> str:
        """What is written beside the side."""
        lean = "UNDERCUT" if self.inward else "OVERCUT"
        return f"BEVEL {self.degrees:.2f} {lean} {self.step_mm:.1f}"

    @property
    def for_list(self) -> str:
        """What stands in the cut list."""
        lean = "undercut" if self.inward else "overcut"
        return f"{self.number + 1}: {self.degrees:.2f} {lean}"


def key(leans_inward: Collection[bool]) -> tuple[str, ...]:
    """Return the lines that explain the words used, for the ways the blade leans on a sheet."""
    lines = ["Bevel: degrees off square, outside face up."]
    if True in leans_inward:
        lines.append(
            "Undercut: blade leans in below the part; inside face shorter by the mm given."
        )
    if False in leans_inward:
        lines.append("Overcut: blade leans out from the part; inside face longer by the mm given.")
    return tuple(lines)


def bevels(part: Part, facet: Facet, *, thickness_mm: float) -> tuple[Bevel, ...]:
    """Return the bevelled sides of a part cut for a facet; none when all are square."""
    return tuple(
        Bevel(
            number=number,
            degrees=degrees,
            step_mm=thickness_mm * math.tan(math.radians(degrees)),
            inward=_kind_of_side(part, number, facet) is not LineKind.VALLEY,
        )
        for number, degrees in enumerate(part.bevels_deg)
        if degrees > 0.0
    )


def _kind_of_side(part: Part, number: int, facet: Facet) -> LineKind:
    """Return what the facet calls the line that a side of a part lies on: the nearest one."""
    count = len(part.corners)
    ends = [_on_facet(part, part.corners[i % count]) for i in (number, number + 1)]
    outline: Sequence[Spot] = [(float(u), float(v)) for u, v in facet.outline_mm]
    sides = zip(outline, [*outline[1:], outline[0]], facet.edges, strict=True)
    return min(
        (max(shapely.LineString([a, b]).distance(shapely.Point(e)) for e in ends), edge.kind)
        for a, b, edge in sides
    )[1]


def _on_facet(part: Part, corner: tuple[int, int]) -> Spot:
    return (part.at_mm[0] + corner[0] / 10.0, part.at_mm[1] + corner[1] / 10.0)
