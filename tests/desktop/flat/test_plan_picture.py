"""The plan as the window draws it."""

import pytest
import shapely

pytest.importorskip("PySide6", reason="the window's modules need Qt")


from roofmodel.desktop.flat import plan_picture
from roofmodel.workbench.job.reckoning import reckon


@pytest.fixture
def roof(sample):
    return lambda name: reckon(sample(name)).roof


def test_the_plan_has_the_house_wall_at_the_top_and_is_not_mirrored(roof):
    plan = plan_picture.picture(roof("three-facet-end"))
    by_name = {patch.words[0]: patch for patch in plan.patches if patch.words}
    middle = {name: shapely.Polygon(p.corners).centroid for name, p in by_name.items()}

    # Facing the house, F1 is at the right; F3 is at the front, below on paper.
    assert middle["F1"].x > middle["F5"].x
    assert middle["F3"].y < middle["F1"].y
    assert shapely.Polygon(by_name["F1"].corners).exterior.is_ccw


def test_plan_words_give_true_lengths(roof):
    words = [s.words[0] for s in plan_picture.picture(roof("three-facet-end")).strokes if s.words]

    assert sum(word.startswith("hip 2062.5") for word in words) == 4
