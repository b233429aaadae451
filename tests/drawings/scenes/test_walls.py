"""Walls stand under the roof's edge, with bricks of the usual size and a door."""

import numpy as np
import pytest

from roofmodel.drawings.scenes import shadow, sides, walls
from roofmodel.drawings.scenes.finish import Part
from tests.drawings.scenes.sites import site_of


def roof_of(name):
    return site_of(name).roof


def parts_of(name):
    roof = roof_of(name)
    bodies = walls.of_conservatory(sides.of_roof(roof), -roof.eaves_height_mm)
    return roof, {body.part: body for body in bodies}


@pytest.mark.parametrize("name", ["lean-to", "hipped", "five-facet-end", "gable", "wing"])
def test_no_wall_stands_above_the_roof_or_under_the_floor(name):
    roof, parts = parts_of(name)
    for body in parts.values():
        heights = body.triangles[..., 2]
        assert heights.min() >= -roof.eaves_height_mm - 1.0
        assert heights.max() <= roof.rise_mm + 1.0


def test_a_brick_is_no_larger_than_a_brick():
    _, parts = parts_of("lean-to")
    brick = parts[Part.BRICK]
    for number in range(int(brick.piece.max()) + 1):
        corners = brick.triangles[brick.piece == number].reshape(-1, 3)
        spread = np.ptp(corners, axis=0)
        assert np.hypot(*spread[:2]) <= 215.1
        assert spread[2] <= 65.1


def test_the_longest_side_has_a_door_down_to_the_floor():
    roof, parts = parts_of("lean-to")
    lowest = parts[Part.WALL_GLASS].triangles[..., 2].min()

    assert lowest < -roof.eaves_height_mm + walls.SILL_MM


def test_the_room_is_as_large_as_the_roof_on_plan():
    for name in ("hipped", "wing", "five-facet-end"):
        roof = roof_of(name)
        assert walls.floor_of(sides.of_roof(roof)).area / 1e6 == pytest.approx(
            roof.plan_area_m2, rel=1e-3
        )


def test_the_house_goes_on_beside_and_above_the_roof():
    roof = roof_of("lean-to")
    edges = sides.of_roof(roof)
    dark = shadow.thrown([], floor_mm=-roof.eaves_height_mm)
    house, bricks, frames, _ = walls.of_house(
        edges, floor_mm=-roof.eaves_height_mm, top_mm=roof.rise_mm, shadow=dark
    )

    assert house.triangles[..., 2].max() > roof.rise_mm + 1_000.0
    assert np.ptp(house.triangles[..., 0]) > 4_000.0 + 2_000.0
    assert len(bricks.triangles)
    assert len(frames.triangles)
