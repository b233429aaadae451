"""Tiles in courses: every course laps the one below it and stands up at its lower edge."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from roofmodel.drawings.scenes import flat
from roofmodel.drawings.scenes.body import Body, Triangles, body
from roofmodel.drawings.scenes.finish import Part
from roofmodel.geometry.frame import Frame


@dataclass(frozen=True, slots=True, kw_only=True)
class Coursing:
    """How tiles lie [mm]: the gauge up the slope, the width one covers, and how thick it is.

    A tile lies on the head of the one below and rises from there to twice its thickness at its
    lower edge, so that a course is seen as a step.
    """

    gauge_mm: float
    cover_mm: float
    thick_mm: float = 14.0


def laid(outlines: Sequence[tuple[Frame, BaseGeometry]], coursing: Coursing) -> tuple[Body, ...]:
    """Return tiles on facets, courses from the eaves up and half a tile on in every other.

    Parameters
    ----------
    outlines
        The frame and the outline of each facet in it, openings cut out.
    coursing
        How they lie.
    """
    pieces = [one for frame, outline in outlines for one in _on_facet(frame, outline, coursing)]
    return (body(Part.TILE, pieces),)


def _on_facet(frame: Frame, outline: BaseGeometry, coursing: Coursing) -> list[Triangles]:
    left, low, right, high = outline.bounds
    gauge, cover = coursing.gauge_mm, coursing.cover_mm
    rows = np.arange(np.ceil((high - low) / gauge - 1e-9))
    columns = np.arange(np.ceil((right - left) / cover) + 1)
    row, column = (grid.ravel() for grid in np.meshgrid(rows, columns, indexing="ij"))
    feet = low + row * gauge
    sides = left + (column - np.where(row % 2 == 1, 0.5, 0.0)) * cover
    tiles = shapely.intersection(shapely.box(sides, feet, sides + cover, feet + gauge), outline)
    tops, of_tile = flat.triangles(tiles)
    rise = 2.0 * coursing.thick_mm
    above = rise * (1.0 - (tops[..., 1] - feet[of_tile][:, np.newaxis]) / gauge)
    corners = flat.on_frame(frame, tops, above)
    steps = _steps(frame, outline, sides, feet, coursing)
    per_tile = [corners[of_tile == number] for number in np.unique(of_tile)]
    return [*per_tile, *steps]


def _steps(
    frame: Frame,
    outline: BaseGeometry,
    sides: np.ndarray,
    feet: np.ndarray,
    coursing: Coursing,
) -> list[Triangles]:
    """Return the upright face at the lower edge of every tile."""
    starts = np.column_stack((sides, feet + 0.01))
    ends = np.column_stack((sides + coursing.cover_mm, feet + 0.01))
    lines = shapely.linestrings(np.stack((starts, ends), axis=1))
    cut = shapely.get_parts(shapely.intersection(lines, outline))
    cut = cut[(shapely.get_type_id(cut) == shapely.GeometryType.LINESTRING)]
    ends_of = shapely.get_coordinates(cut).reshape(-1, 2, 2)
    up = flat.outward(frame) * 2.0 * coursing.thick_mm
    faces = []
    for pair in ends_of:
        a, b = frame.raise_up(pair[np.argsort(pair[:, 0])])
        faces.append(np.array([[a, b, b + up], [a, b + up, a + up]]))
    return faces
