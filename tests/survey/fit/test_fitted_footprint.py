import numpy as np
import pytest

from roofmodel.shapes.roof import LineKind
from roofmodel.survey.fit import adjustment, fitted_footprint
from tests.survey import random_surveys


@pytest.mark.parametrize("seed", range(3))
@pytest.mark.parametrize("name", random_surveys.SHAPES)
def test_hips_of_a_surveyed_roof_meet_in_one_point(name, seed):
    """No splinters of ridge where the readings leave the facets a few mm apart."""
    network = random_surveys.SHAPES[name]
    rng = np.random.default_rng(seed)
    points = random_surveys.true_points(network, rng)
    adjusted = adjustment.adjust(network, random_surveys.survey(network, points, rng))

    roof = fitted_footprint.footprint(adjusted).roof(eaves_height_mm=2100.0)

    assert len(roof.facets) == len(network.facets)
    assert min(line.length_mm for line in roof.lines) > 200.0
    # A ridge that falls a little, because the sides are not parallel, may count as a hip.
    if network.plan is not None:
        meeting = [line for line in roof.lines if line.kind.shared]
        assert len(meeting) == sum(line.kind.shared for line in network.plan.lines)
        return
    shared = len(roof.lines_of(LineKind.HIP)) + len(roof.lines_of(LineKind.RIDGE))
    hips = sum(line.name.startswith("hip ") for line in network.lines)
    assert shared == hips + ("P" in network.points)


def test_the_plan_keeps_its_corners():
    network = random_surveys.SHAPES["lean-to"]
    rng = np.random.default_rng(0)
    points = random_surveys.true_points(network, rng)
    adjusted = adjustment.adjust(network, random_surveys.survey(network, points, None))

    found = np.array(fitted_footprint.footprint(adjusted).corners_mm)

    assert np.abs(found - points[:, :2]).max() < 0.001
