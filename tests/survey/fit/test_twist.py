import numpy as np
import pytest

from roofmodel.survey.fit import adjustment, squareness, twist
from roofmodel.survey.fit.twist import Grade
from roofmodel.survey.readings.measure import Measure
from roofmodel.survey.sheets import networks
from roofmodel.survey.verdict import examination
from tests.survey import random_surveys, roofs


@pytest.fixture
def j08():
    """The lean-to of J08 with its wrong diagonal left out."""
    return adjustment.adjust(roofs.LEAN_TO, roofs.out_of_square(BD=None))


def test_the_plane_through_a_b_d_misses_c_by_17_5(j08):
    a, b, c, d = j08.points_mm

    assert abs(twist.miss_mm(np.array([a, b, d]), c)) == pytest.approx(17.5, abs=0.05)


def test_the_roof_of_j08_rocks_and_is_to_be_shimmed(j08):
    (found,) = twist.twists(j08)

    assert found.facet == "F1"
    assert found.rock_mm == pytest.approx(17.5, abs=0.5)
    assert found.grade is Grade.SHIM
    assert "boards will rock; shim the battens or taper the fascia" in found.text


def test_four_corners_share_a_miss_between_them(j08):
    """Off the best plane each corner is only about a quarter of what a board feels."""
    (found,) = twist.twists(j08)

    assert found.off_plane_mm == pytest.approx(found.rock_mm / 4.0, abs=0.1)


def test_corner_angles_of_j08(j08):
    angles = {corner.name: corner.angle_deg for corner in squareness.corners(j08)}

    assert angles == {
        "A": pytest.approx(90.71, abs=0.005),
        "B": pytest.approx(89.90, abs=0.005),
        "C": pytest.approx(89.22, abs=0.005),
        "D": pytest.approx(90.18, abs=0.005),
    }


def test_the_front_of_j08_is_not_parallel_to_the_wall_by_0_88(j08):
    assert abs(squareness.off_parallel_deg(j08, ("C", "D"))) == pytest.approx(0.88, abs=0.005)
    assert squareness.off_parallel_deg(j08, ("C", "D")) > 0  # the left-hand side is the shorter


def test_pitches_of_j08_are_15_00_and_14_67(j08):
    left, _ = j08.reads(Measure.PITCH, ("A", "C", "D"))
    right, _ = j08.reads(Measure.PITCH, ("B", "C", "D"))

    assert left == pytest.approx(15.00, abs=0.005)
    assert right == pytest.approx(14.67, abs=0.005)


def test_the_front_out_of_parallel_and_the_twist_are_told():
    found = examination.examine(roofs.LEAN_TO, roofs.out_of_square(BD=None)).remarks

    assert "The front is 0.88° out of parallel with the house wall." in found
    assert any("boards will rock" in remark for remark in found)


def test_eaves_out_of_level_by_more_than_5_are_told():
    found = adjustment.adjust(roofs.LEAN_TO, roofs.out_of_square(BD=None, height_D=2107))

    assert squareness.out_of_level_mm(found) == pytest.approx(7.0, abs=0.01)
    assert "The eaves are 7 mm out of level." in squareness.remarks(found)


def test_a_level_front_counts_as_level(j08):
    assert squareness.out_of_level_mm(j08) == pytest.approx(0.0, abs=1e-6)


def test_shims_grow_evenly_from_the_longer_side_to_the_shorter(j08):
    """The plane through the wall plate and C lies 17.1 above D; half way there is half of it."""
    (facet,) = roofs.LEAN_TO.facets

    left, middle, right = twist.shims(j08, facet, [0.0, 2115.0, 4230.0])

    assert left.height_mm == pytest.approx(750.0 - 750.0 * 2799.8 / 2865.0, abs=0.1)
    assert middle.height_mm == pytest.approx(left.height_mm / 2.0, abs=0.05)
    assert right.height_mm == pytest.approx(0.0, abs=0.01)


@pytest.mark.parametrize("name", random_surveys.SHAPES)
def test_shims_only_ever_pack_up(name):
    network = random_surveys.SHAPES[name]
    rng = np.random.default_rng(11)
    points = random_surveys.true_points(network, rng)
    adjusted = adjustment.adjust(network, random_surveys.survey(network, points, rng))

    for facet in network.facets:
        if len(facet.top) < 2:
            with pytest.raises(ValueError, match=facet.name):
                twist.shims(adjusted, facet, [0.0])
            continue
        left, right = (np.array(adjusted.point(p)) for p in facet.eaves)
        length = np.hypot(*(right - left)[:2])
        found = twist.shims(adjusted, facet, [0.0, length / 3.0, length])
        assert min(shim.height_mm for shim in found) >= 0.0
        assert min(found[0].height_mm, found[-1].height_mm) == pytest.approx(0.0, abs=1e-6)


def test_three_corners_never_rock():
    network = networks.polygonal_end(3)
    rng = np.random.default_rng(2)
    points = random_surveys.true_points(network, rng)
    adjusted = adjustment.adjust(network, random_surveys.survey(network, points, None))

    assert {found.facet for found in twist.twists(adjusted)} == {"F1", "F5"}
