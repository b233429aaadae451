import dataclasses

import pytest

from roofmodel.buildups import sheet_good
from roofmodel.buildups.board_choice import BoardChoice
from roofmodel.foundation.errors import DimensionError, ResourceError

ROW = """
[[sheet_good]]
code = "X"
short = "X"
name = "X board"
layer = "deck"
length_mm = 2400.0
width_mm = 1200.0
thickness_mm = 18.0
mass_kg_m2 = 11.0
strength_axis = "long"
faces = "alike"
hip_edges = "square"
kerf_mm = 3.0
trim_mm = 0.0
board_gap_mm = 3.0
minimum_piece_mm = 200.0
stagger_mm = 300.0
drawing_code = "27OSB"
source = { document = "a test", place = "", verified = true }
"""


def read(tmp_path, text):
    path = tmp_path / "own.toml"
    path.write_text(text, encoding="utf-8")
    return sheet_good.read(path)


def test_the_shipped_sheets_have_the_stock_sizes_of_the_trade():
    areas = {code: good.sheet_area_m2 for code, good in sheet_good.shipped().items()}

    assert areas == pytest.approx({"BRD-OSB18": 2.9768, "INS-PIR75": 2.88, "BRD-PB12": 2.88})


def test_every_shipped_row_names_its_source():
    assert all(good.source.document for good in sheet_good.shipped().values())


def test_a_row_of_the_firm_is_read(tmp_path):
    assert read(tmp_path, ROW)["X"].length_mm == 2400.0


def test_two_materials_with_one_code_are_refused(tmp_path):
    with pytest.raises(ResourceError, match="two materials have the code X"):
        read(tmp_path, ROW + ROW)


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("length_mm = 2400.0", 'length_mm = "long"', "material 1, length_mm"),
        ('faces = "alike"', 'faces = "shiny"', "material 1, faces"),
        ("kerf_mm = 3.0", "kerf = 3.0", "material 1, kerf"),
        ("trim_mm = 0.0", "trim_mm = 700.0", "no usable sheet"),
        ("[[sheet_good]]", "[[sheet_good", "cannot be read"),
    ],
)
def test_a_bad_row_is_refused_with_its_number_and_field(tmp_path, old, new, words):
    with pytest.raises(ResourceError, match=words):
        read(tmp_path, ROW.replace(old, new))


def test_a_missing_file_is_named(tmp_path):
    with pytest.raises(ResourceError, match=r"gone\.toml is missing"):
        sheet_good.read(tmp_path / "gone.toml")


def test_a_job_may_cut_a_measured_sheet_with_its_own_saw():
    good = sheet_good.shipped()["BRD-OSB18"]
    choice = BoardChoice(material="BRD-OSB18", length_mm=2437.0, kerf_mm=4.0)

    assert choice.applied_to(good) == dataclasses.replace(good, length_mm=2437.0, kerf_mm=4.0)


def test_overrides_no_sheet_can_have_are_all_named():
    with pytest.raises(DimensionError) as error:
        BoardChoice(material="BRD-OSB18", kerf_mm=400.0, trim_mm=-1.0)

    assert [fault.field for fault in error.value.faults] == ["kerf_mm", "trim_mm"]


def test_overrides_that_leave_no_sheet_are_refused():
    good = sheet_good.shipped()["BRD-OSB18"]
    with pytest.raises(DimensionError, match="smallest piece"):
        BoardChoice(material="X", width_mm=240.0, minimum_piece_mm=260.0).applied_to(good)
