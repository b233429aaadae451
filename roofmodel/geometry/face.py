"""One facet over a footprint, before it has a name: its plane and its sides."""

from dataclasses import dataclass
from enum import StrEnum

from roofmodel.geometry.plane import Plane, Point


class Beyond(StrEnum):
    """How a facet ends in line with an upright, past that upright's end."""

    OVER = "over the facet beside it"
    UNDER = "under the facet beside it"


@dataclass(frozen=True, slots=True)
class FaceSide:
    """One side of a face, from its corner to the next.

    ``edge`` is the footprint edge the side lies on: as its foot, on its upright, or in line with
    that past its end, which ``beyond`` tells. ``neighbour`` is a footprint edge of the face beyond,
    where there is one. Exactly one of the two is set.
    """

    corner: Point
    edge: int | None
    neighbour: int | None
    foot: bool
    beyond: Beyond | None = None


@dataclass(frozen=True, slots=True)
class Face:
    """One facet: the footprint edges it rises from, its plane, its sides counter-clockwise."""

    edges: tuple[int, ...]
    plane: Plane
    sides: tuple[FaceSide, ...]
