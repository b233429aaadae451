"""A dimension between two corners, and which corner a click means."""

import math

import pytest

pytest.importorskip("PySide6", reason="the window's modules need Qt")
from roofmodel.desktop.job import dimension
from roofmodel.desktop.job.dimension import Dimension
from roofmodel.workbench.job.reckoning import reckon


@pytest.fixture
def roof(sample):
    return lambda name: reckon(sample(name)).roof


def test_a_dimension_tells_true_plan_and_upright_length_and_pitch():
    # A right-angled box 300 × 400 × 1 200: plan 500, true 1 300.
    found = Dimension(start=(0.0, 0.0, 0.0), end=(300.0, 400.0, 1200.0))

    assert found.plan_mm == pytest.approx(500.0)
    assert found.upright_mm == pytest.approx(1200.0)
    assert found.true_mm == pytest.approx(1300.0)
    assert found.pitch_deg == pytest.approx(math.degrees(math.atan(2.4)))
    assert "true 1300.0" in found.text


def test_a_dimension_straight_up_has_a_pitch_of_a_right_angle():
    assert Dimension(start=(1.0, 1.0, 0.0), end=(1.0, 1.0, 9.0)).pitch_deg == 90.0


def test_every_corner_of_a_roof_is_there_once(roof):
    # Six plan corners but two at the house wall, the ridge's two ends: eight in all.
    assert len(dimension.corners(roof("three-facet-end"))) == 8


@pytest.mark.parametrize(
    ("at", "expected"), [((0, 0), 0), ((11, 0), 0), ((100, 112), 1), ((100, 113), None)]
)
def test_a_click_means_the_corner_within_twelve_pixels(at, expected):
    assert dimension.snapped([(0.0, 0.0), (100.0, 100.0)], at) == expected


def test_the_nearer_of_two_corners_is_meant():
    assert dimension.snapped([(0.0, 0.0), (8.0, 0.0)], (5.0, 0.0)) == 1
    assert dimension.snapped([], (5.0, 0.0)) is None
