"""The elevation as the window draws it."""

import math

import pytest

pytest.importorskip("PySide6", reason="the window's modules need Qt")
from roofmodel.desktop.flat import elevation_picture
from roofmodel.drawings.views.elevation import Side
from roofmodel.workbench.job.reckoning import reckon


@pytest.fixture
def roof(sample):
    return lambda name: reckon(sample(name)).roof


def test_overall_dimensions_of_an_elevation(roof):
    front = elevation_picture.picture(roof("three-facet-end"), Side.FRONT)
    found = {o.name: o.end - o.start for o in front.overalls}

    assert found["width"] == pytest.approx(3500.0)
    assert found["eaves height"] == pytest.approx(2100.0)
    # Half the width 1 750 at 25°.
    assert found["rise"] == pytest.approx(1750.0 * math.tan(math.radians(25.0)))
    side = elevation_picture.picture(roof("three-facet-end"), Side.LEFT)
    assert {o.name: o.end - o.start for o in side.overalls}["projection"] == pytest.approx(3600.0)


@pytest.mark.parametrize("side", list(Side))
@pytest.mark.parametrize("name", ["three-facet-end", "double-hip", "wing", "lean-to"])
def test_whatever_is_seen_of_the_roof_is_known_again(roof, name, side):
    drawing = elevation_picture.picture(roof(name), side)
    kinds = {"eaves", "hip", "ridge", "valley", "verge", "box gutter", "house wall"}

    unknown = [s.note for s in drawing.strokes if s.note in kinds]

    assert unknown == []
