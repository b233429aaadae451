from itertools import pairwise

import pytest

from roofmodel.foundation.errors import DimensionError
from roofmodel.shapes.footprint import SideKind
from roofmodel.survey.readings import reading
from roofmodel.survey.readings.network import reading as read
from roofmodel.survey.readings.reading import Basis, Reading, Tool, Unit
from roofmodel.survey.sheets import networks


def test_a_tape_is_good_for_3_mm_and_an_inclinometer_for_a_fifth_of_a_degree():
    assert reading.default_error(Tool.TAPE) == 3.0
    assert reading.default_error(Tool.DIAGONAL) == 5.0
    assert reading.default_error(Tool.HEIGHT) == 5.0
    assert reading.default_error(Tool.LEVEL) == 3.0
    assert reading.default_error(Tool.INCLINOMETER) == 0.2
    assert reading.default_error(Tool.BEVEL) == 0.5


def test_a_value_from_a_drawing_is_less_sharp_than_a_measured_one():
    assert reading.default_error(Tool.TAPE, Basis.FROM_DRAWING) == 20.0
    assert reading.default_error(Tool.BEVEL, Basis.ASSUMED) == 1.0


def test_the_standard_errors_say_that_nobody_has_verified_them():
    assert "not yet verified" in str(reading.STANDARD_ERROR_SOURCE)


def test_a_line_of_the_sheet_gives_a_reading_its_unit_and_sharpness():
    found = read(networks.lean_to().line("pitch CD to A"), 14.5)

    assert found == Reading(
        name="pitch CD to A", value=14.5, unit=Unit.DEG, standard_error=0.2, basis=Basis.MEASURED
    )


def test_a_reading_without_a_number_or_a_sharpness_is_refused_with_both_faults():
    with pytest.raises(DimensionError) as error:
        Reading(name="AB", value=float("nan"), unit=Unit.MM, standard_error=0.0)

    assert [fault.field for fault in error.value.faults] == ["AB", "AB"]


def test_a_line_the_shape_has_not_got_is_refused_by_its_name():
    with pytest.raises(DimensionError, match="no reading called “ridge PQ”"):
        networks.lean_to().line("ridge PQ")


def test_the_sheet_is_in_the_order_an_installer_tapes():
    names = [line.name for line in networks.polygonal_end(3).lines if line.times]
    order = ["AB", "FA", "D off AB", "CF", "AC", "angle A", "level BA", "height A", "P off AB",
             "pitch BC to Q", "bar BC to Q", "hip CP", "ridge PQ"]  # fmt: skip

    assert [name for name in names if name in order] == order


@pytest.mark.parametrize("end_facets", [3, 4, 5])
def test_an_end_of_several_facets_has_a_line_for_each_side_angle_hip_and_facet(end_facets):
    names = {line.name for line in networks.polygonal_end(end_facets).lines}
    corners = "ABCDEFGH"[: end_facets + 3]

    assert {p + q for p, q in zip(corners, corners[1:] + "A", strict=True)} <= names
    assert {f"angle {corner}" for corner in corners} <= names
    assert {f"hip {corner}P" for corner in corners[2:]} <= names
    assert {f"pitch {p}{q} to P" for p, q in pairwise(corners[2:])} <= names


def test_a_box_gutter_brings_rear_hips_a_rear_facet_and_the_run_to_the_gutter():
    plain = {line.name for line in networks.polygonal_end(3).lines}
    gutter = {line.name for line in networks.polygonal_end(3, SideKind.BOX_GUTTER).lines}

    assert {"hip AQ", "hip BQ", "pitch AB to Q", "bar AB to Q", "Q off AB"} <= gutter - plain
