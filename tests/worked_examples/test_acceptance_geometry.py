"""Facts of acceptance jobs J01, J04, J05 (closed ends), J06 and J07, each checkable by hand.

Tolerances as the jobs state them: length ±0.5 mm, area ±0.005 m², angle ±0.02°. Two routes agree
on these numbers: a vertex mesh and the closed forms.
"""

import pytest

from roofmodel.foundation.errors import DimensionError
from roofmodel.shapes.gable import Gable
from roofmodel.shapes.hipped import Hipped
from roofmodel.shapes.lean_to import LeanTo
from roofmodel.shapes.polygonal_end import PolygonalEnd
from roofmodel.shapes.roof import LineKind

LENGTH = {"abs": 0.5}
AREA = {"abs": 0.005}
ANGLE = {"abs": 0.02}


def lengths(roof, kind):
    return [line.length_mm for line in roof.lines_of(kind)]


def test_j01_lean_to():
    roof = LeanTo(width_mm=4000, projection_mm=2800, pitch_deg=15).roof(eaves_height_mm=2100)

    assert roof.rise_mm == pytest.approx(750.26, **LENGTH)
    assert roof.facet("F1").slope_length_mm == pytest.approx(2898.77, **LENGTH)
    assert roof.area_m2 == pytest.approx(11.595, **AREA)
    assert roof.plan_area_m2 == pytest.approx(11.200, **AREA)


def test_j04_three_facet_end():
    roof = PolygonalEnd(width_mm=3500, projection_mm=3600, pitch_deg=25, end_facets=3).roof(
        eaves_height_mm=2100
    )

    assert roof.rise_mm == pytest.approx(816.04, **LENGTH)
    assert {round(f.slope_length_mm, 2) for f in roof.facets} == {1930.91}
    assert lengths(roof, LineKind.EAVES) == pytest.approx(
        [2574.9, 1449.7, 1449.7, 1449.7, 2574.9], **LENGTH
    )
    assert lengths(roof, LineKind.RIDGE) == pytest.approx([1850.0], **LENGTH)
    hips = roof.lines_of(LineKind.HIP)
    assert [hip.length_mm for hip in hips] == pytest.approx([2062.5] * 4, **LENGTH)
    assert [hip.pitch_deg for hip in hips] == pytest.approx([23.31] * 4, **ANGLE)
    assert [hip.dihedral_deg for hip in hips] == pytest.approx([161.39] * 4, **ANGLE)
    assert [hip.bevel_deg for hip in hips] == pytest.approx([9.31] * 4, **ANGLE)
    assert roof.lines_of(LineKind.RIDGE)[0].bevel_deg == pytest.approx(25.0, **ANGLE)
    assert [f.area_m2 for f in roof.facets] == pytest.approx([4.272, 1.4, 1.4, 1.4, 4.272], **AREA)
    assert roof.area_m2 == pytest.approx(12.743, **AREA)
    assert roof.plan_area_m2 == pytest.approx(11.549, **AREA)
    # Foot and apex of a cant: tan = 1930.9 / 724.9, and half the apex angle.
    assert roof.facet("F2").corner_angles_deg == pytest.approx([69.42, 69.42, 2 * 20.58], abs=0.02)


def test_j04_hips_and_ridge_meet_in_one_point():
    roof = PolygonalEnd(width_mm=3500, projection_mm=3600, pitch_deg=25, end_facets=3).roof(
        eaves_height_mm=2100
    )
    tops = {line.end for line in roof.lines_of(LineKind.HIP)}
    ridge = roof.lines_of(LineKind.RIDGE)[0]

    assert len(tops) == 1
    assert tops <= {ridge.start, ridge.end}


@pytest.mark.parametrize(("projection", "ridge"), [(2300, 300.0), (2000, None)])
def test_a_hipped_roof_as_deep_as_half_its_width_is_a_pyramid(projection, ridge):
    """J05's degenerate case on a closed end: ridge of length 0, no crash."""
    roof = Hipped(
        width_mm=4000,
        projection_mm=projection,
        left_pitch_deg=22,
        front_pitch_deg=22,
        right_pitch_deg=22,
    ).roof(eaves_height_mm=2100)
    expected = [] if ridge is None else [ridge]

    assert lengths(roof, LineKind.RIDGE) == pytest.approx(expected, **LENGTH)
    assert len(roof.facets) == 3


def test_hips_that_cross_behind_the_wall_are_refused_with_the_distance():
    with pytest.raises(DimensionError, match=r"200\.0 mm behind the house wall") as caught:
        Hipped(
            width_mm=4000,
            projection_mm=1800,
            left_pitch_deg=22,
            front_pitch_deg=22,
            right_pitch_deg=22,
        )
    assert caught.value.faults[0].field == "projection_mm"


def test_j06_hipped_with_unequal_pitches():
    roof = Hipped(
        width_mm=3000,
        projection_mm=3400,
        left_pitch_deg=25,
        front_pitch_deg=35,
        right_pitch_deg=25,
    ).roof(eaves_height_mm=2100)
    hips = roof.lines_of(LineKind.HIP)
    ridge = roof.lines_of(LineKind.RIDGE)[0]

    assert roof.rise_mm == pytest.approx(699.46, **LENGTH)
    assert ridge.length_mm == pytest.approx(2401.1, **LENGTH)
    assert 3400 - ridge.length_mm == pytest.approx(998.93, **LENGTH)
    # Were hips taken at 45° in plan, the ridge would end 501.1 mm away from here.
    assert ridge.length_mm - (3400 - 3000 / 2) == pytest.approx(501.1, **LENGTH)
    assert [hip.length_mm for hip in hips] == pytest.approx([1933.2] * 2, **LENGTH)
    assert [hip.pitch_deg for hip in hips] == pytest.approx([21.21] * 2, **ANGLE)
    assert [hip.bevel_deg for hip in hips] == pytest.approx([21.03] * 2, **ANGLE)
    assert hips[0].facets == ("F1", "F2")
    assert hips[0].joint.plan_angles_deg == pytest.approx((56.34, 33.66), **ANGLE)
    assert [f.area_m2 for f in roof.facets] == pytest.approx([4.801, 1.829, 4.801], **AREA)
    assert roof.area_m2 == pytest.approx(11.430, **AREA)
    assert roof.plan_area_m2 == pytest.approx(10.200, **AREA)


def test_j07_gable():
    roof = Gable(width_mm=3800, projection_mm=4200, left_pitch_deg=30, right_pitch_deg=30).roof(
        eaves_height_mm=2100
    )

    assert roof.rise_mm == pytest.approx(1096.97, **LENGTH)
    assert [f.slope_length_mm for f in roof.facets] == pytest.approx([2193.93] * 2, **LENGTH)
    assert [f.area_m2 for f in roof.facets] == pytest.approx([9.215] * 2, **AREA)
    assert roof.area_m2 == pytest.approx(18.429, **AREA)
    assert roof.plan_area_m2 == pytest.approx(15.960, **AREA)
    assert lengths(roof, LineKind.VERGE) == pytest.approx([2193.93] * 2, **LENGTH)


@pytest.mark.parametrize(
    ("facets", "side", "run"), [(3, 1656.9, 1171.6), (5, 1071.8, 1464.1)], ids=["three", "five"]
)
def test_a_bay_4_m_wide_has_the_facets_and_projection_of_its_polygon(facets, side, run):
    """Check values G-44, G-45: facet 1.6569 / 1.0718 m, projection 1.1716 / 1.4641 m."""
    roof = PolygonalEnd(width_mm=4000, projection_mm=4000, pitch_deg=25, end_facets=facets).roof(
        eaves_height_mm=2100
    )
    eaves = lengths(roof, LineKind.EAVES)

    assert eaves[1:-1] == pytest.approx([side] * facets, abs=0.06)
    assert 4000 - eaves[0] == pytest.approx(run, abs=0.06)
