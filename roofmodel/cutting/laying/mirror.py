"""Facets that are mirror images of one another, and the boards one takes over from the other."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from shapely.affinity import affine_transform

from roofmodel.cutting.laying.board import Board, Course
from roofmodel.cutting.parts.facet import BoardedFacet
from roofmodel.cutting.parts.part import Part, hand, mirrored
from roofmodel.shapes.roof import LineKind

_ALIKE = 0.05
"""How far mirrored corners, bars [mm] and bevels [°] may differ."""

_KINDS = list(LineKind)


@dataclass(frozen=True, slots=True)
class Pair:
    """A facet and, where there is one, the facet that is its mirror image, left for right."""

    facet: BoardedFacet
    twin: BoardedFacet | None = None


def pairs(
    facets: Sequence[BoardedFacet], supports_mm: Mapping[str, Sequence[float]]
) -> tuple[Pair, ...]:
    """Return the facets, those two by two that are mirror images with their bars and bevels."""
    waiting = list(facets)
    matched = []
    while waiting:
        facet = waiting.pop(0)
        # Facets are numbered round the roof, so twins stand equally far from either end.
        alike = (other for other in reversed(waiting) if _are_twins(facet, other, supports_mm))
        twin = next(alike, None)
        if twin is not None:
            waiting.remove(twin)
        matched.append(Pair(facet, twin))
    return tuple(matched)


def board(original: Board, facet: BoardedFacet, twin: BoardedFacet, *, count: int) -> Board:
    """Return the twin's board; ``count`` is the number of boards in its course."""
    right = float(facet.outline_mm[:, 0].min() + twin.outline_mm[:, 0].max())
    corners = [(right - u, v) for u, v in reversed(original.corners_mm)]
    first = min(range(len(corners)), key=lambda i: (round(corners[i][1], 3), corners[i][0]))
    return replace(
        original,
        facet=twin.name,
        position=count + 1 - original.position,
        corners_mm=(*corners[first:], *corners[:first]),
    )


def course(original: Course, facet: BoardedFacet, twin: BoardedFacet) -> Course:
    """Return the twin's course: its edges and, from left to right, its strips and joints."""
    right = float(facet.outline_mm[:, 0].min() + twin.outline_mm[:, 0].max())
    joints = tuple(tuple(right - x for x in reversed(strip)) for strip in original.joints[::-1])
    strips = [affine_transform(strip, [-1, 0, 0, 1, right, 0]) for strip in original.strips[::-1]]
    return Course(original.edges, tuple(strips), joints)


def part(original: Part, flipped: Board, mark: str) -> Part:
    """Return the mirror image of a part, corner for corner, where its board lies on the twin.

    It is made from the rounded corners, so that the two are mirror images to the last tenth.
    """
    corners, bevels = mirrored(original.corners, original.bevels_deg)
    right = max(u for u, _ in flipped.corners_mm)
    return replace(
        original,
        mark=f"{mark}-{hand(corners, bevels)}",
        facet=flipped.facet,
        corners=corners,
        bevels_deg=bevels,
        at_mm=(right - original.length_tenths / 10, original.at_mm[1]),
    )


def _are_twins(
    facet: BoardedFacet, other: BoardedFacet, supports_mm: Mapping[str, Sequence[float]]
) -> bool:
    ours, theirs = _sides(facet), _sides(other, flipped=True)
    if len(ours) != len(theirs) or np.abs(ours - theirs).max() > _ALIKE:
        return False
    left = sorted(supports_mm.get(facet.name, ()))
    end = float(facet.outline_mm[:, 0].min() + other.outline_mm[:, 0].max())
    right = sorted(end - u for u in supports_mm.get(other.name, ()))
    return len(left) == len(right) and bool(np.allclose(left, right, rtol=0.0, atol=_ALIKE))


def _sides(facet: BoardedFacet, *, flipped: bool = False) -> np.ndarray[tuple[int, int]]:
    """Return corner and bevel of every side from the lowest left corner on, mirrored if asked."""
    corners = np.asarray(facet.outline_mm, dtype=float)
    corners = corners - corners.min(axis=0)
    bevels = [edge.bevel_deg for edge in facet.edges]
    kinds = [_KINDS.index(edge.kind) for edge in facet.edges]
    if flipped:
        corners = np.column_stack([corners[:, 0].max() - corners[:, 0], corners[:, 1]])[::-1]
        # The side that left a corner now arrives there.
        bevels = [*bevels[::-1][1:], bevels[-1]]
        kinds = [*kinds[::-1][1:], kinds[-1]]
    rounded = np.round(corners, 1)
    first = int(np.lexsort((rounded[:, 0], rounded[:, 1]))[0])
    return np.roll(np.column_stack([corners, bevels, kinds]), -first, axis=0)
