"""The ground a conservatory stands on: lawn, paving and floor, with the shadow on them."""

from collections.abc import Iterator

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from roofmodel.drawings.scenes import flat
from roofmodel.drawings.scenes.body import Body, Triangles, body
from roofmodel.drawings.scenes.finish import Part
from roofmodel.drawings.scenes.shadow import Shadow

_PAVING_MM, _SLAB_MM, _JOINT_MM = 1_200.0, 600.0, 8.0
_GARDEN_MM = 30_000.0


def bodies(room: BaseGeometry, shadow: Shadow, floor_mm: float) -> tuple[Body, ...]:
    """Return lawn, paving and floor.

    Parameters
    ----------
    room
        Outline of the room on plan [mm].
    shadow
        What is taken from the sun on the ground.
    floor_mm
        Height of the floor.
    """
    left, _, right, front = room.bounds
    middle = shapely.Point((left + right) / 2.0, front / 2.0)
    garden = middle.buffer(_GARDEN_MM)
    paved = room.buffer(_PAVING_MM, join_style="mitre").intersection(
        shapely.box(left - _PAVING_MM, 0.0, right + _PAVING_MM, front + _PAVING_MM)
    )
    lawn = garden.difference(paved)
    slabs = list(_slabs(paved.difference(room)))
    return (
        _shaded(Part.LAWN, [lawn], shadow, floor_mm - 40.0),
        _shaded(Part.MORTAR, [paved], shadow, floor_mm - 34.0),
        _shaded(Part.PAVING, slabs, shadow, floor_mm - 30.0),
        _at(Part.FLOOR, [room], floor_mm),
    )


def _slabs(paved: BaseGeometry) -> Iterator[BaseGeometry]:
    left, low, right, high = paved.bounds
    xs, ys = np.arange(left, right, _SLAB_MM), np.arange(low, high, _SLAB_MM)
    x, y = (grid.ravel() for grid in np.meshgrid(xs, ys))
    half = _JOINT_MM / 2.0
    boxes = shapely.box(x + half, y + half, x + _SLAB_MM - half, y + _SLAB_MM - half)
    cut = shapely.intersection(boxes, paved)
    yield from cut[shapely.area(cut) > 2_000.0]


def _at(part: Part, outlines: list[BaseGeometry], z_mm: float) -> Body:
    corners, of = flat.triangles(outlines)
    raised = flat.level(corners, z_mm)
    return body(part, [raised[of == number] for number in range(len(outlines))])


def _shaded(part: Part, outlines: list[BaseGeometry], shadow: Shadow, z_mm: float) -> Body:
    """Return outlines cut along the shadow, so that nothing lies on anything."""
    pieces: list[Triangles] = []
    shades: list[float] = []
    numbers: list[int] = []
    count = len(shadow.ground)
    for number, outline in enumerate(outlines):
        left = outline
        for step, dark in enumerate(shadow.ground):
            within = left.intersection(dark)
            left = left.difference(dark)
            for geometry, shade in ((within, 1.0 - step / count),):
                corners, _ = flat.triangles([geometry])
                if len(corners):
                    pieces.append(flat.level(corners, z_mm))
                    shades.append(shade)
                    numbers.append(number)
        corners, _ = flat.triangles([left])
        if len(corners):
            pieces.append(flat.level(corners, z_mm))
            shades.append(0.0)
            numbers.append(number)
    made = body(part, pieces, shades)
    # Both parts of a slab that the shadow's edge crosses keep one colour.
    whole = np.asarray(numbers, dtype=np.int64)[made.piece] if pieces else made.piece
    return Body(made.part, made.triangles, whole, made.shade)
