"""Finds a place on a picture for the label of each facet, so that none covers another."""

from collections.abc import Sequence
from dataclasses import dataclass

import shapely

from roofmodel.drawings.paper import lettering
from roofmodel.drawings.paper.pen import Spot

_SMALLEST = 0.8
"""Labels shrink, all alike, down to this scale to stay on their facets."""

_STEP = 0.2
"""A label that is in the way moves on by this part of its height."""

_ROUNDS = 600


@dataclass(frozen=True, slots=True)
class LabelPlace:
    """Centre of a label, the spot of its facet it belongs to [pixels], and its scale."""

    centre: Spot
    of: Spot
    scale: float

    def leads(self, size: Spot) -> bool:
        """Whether the label lies so far off that a line must lead to its facet."""
        x, y = self.centre[0] - self.of[0], self.centre[1] - self.of[1]
        return abs(x) > size[0] / 2.0 or abs(y) > size[1] / 2.0


def places(outlines: Sequence[Sequence[Spot]], size: Spot, *, picture: Spot) -> list[LabelPlace]:
    """Return a place for the label of each outline: on it where it fits, else close by.

    Parameters
    ----------
    outlines
        The facets as they appear on the picture [pixels].
    size
        Width and height of a label at scale 1 [pixels].
    picture
        Width and height of the picture, which no label leaves [pixels].
    """
    facets = [shapely.Polygon(outline) for outline in outlines]
    rooms = [lettering.room(size, facet, smallest=_SMALLEST) for facet in facets]
    scale = min((place.scale for place in rooms if place is not None), default=1.0)
    size = (size[0] * scale, size[1] * scale)
    on = [_on_facet(facet, size) for facet in facets]
    centres = _apart(on, size, picture)
    return [LabelPlace(*both, scale) for both in zip(centres, on, strict=True)]


def _on_facet(facet: shapely.Polygon, size: Spot) -> Spot:
    """Return where a label lies best on a facet: whole on it, or on its widest part."""
    place = lettering.room(size, facet)
    if place is not None:
        return place.centre
    x, y = shapely.get_coordinates(shapely.maximum_inscribed_circle(facet))[0]
    return (float(x), float(y))


def _apart(wanted: Sequence[Spot], size: Spot, picture: Spot) -> list[Spot]:
    """Push labels that cover each other apart, bit by bit, until none does."""
    centres = [_inside(centre, size, picture) for centre in wanted]
    for _ in range(_ROUNDS):
        clash = _first_clash(centres, size)
        if clash is None:
            break
        a, b = clash
        x, y = _push(centres[a], centres[b], size)
        centres[a] = _inside((centres[a][0] - x, centres[a][1] - y), size, picture)
        centres[b] = _inside((centres[b][0] + x, centres[b][1] + y), size, picture)
    return centres


def _first_clash(centres: Sequence[Spot], size: Spot) -> tuple[int, int] | None:
    for a, (ax, ay) in enumerate(centres):
        for b in range(a + 1, len(centres)):
            bx, by = centres[b]
            if abs(ax - bx) < size[0] and abs(ay - by) < size[1]:
                return a, b
    return None


def _push(a: Spot, b: Spot, size: Spot) -> Spot:
    """Return a small move of b away from a, along the side where less is missing."""
    x, y = b[0] - a[0], b[1] - a[1]
    step = size[1] * _STEP
    if size[0] - abs(x) <= size[1] - abs(y):
        return (step if x >= 0 else -step, 0.0)
    return (0.0, step if y >= 0 else -step)


def _inside(centre: Spot, size: Spot, picture: Spot) -> Spot:
    x, y = (
        min(max(centre[i], size[i] / 2.0), max(picture[i] - size[i] / 2.0, size[i] / 2.0))
        for i in range(2)
    )
    return (x, y)
