import csv
import io

import pytest

from roofmodel.drawings.lists import cut_list
from tests.drawings import drawn


def rows_of(roof, codes=("BRD-OSB18", "INS-PIR75")):
    plans = drawn.set_of(roof, [drawn.plan_of(roof, code) for code in codes]).plans
    return list(csv.DictReader(io.StringIO(cut_list.text(plans))))


def test_every_part_has_a_line_and_the_areas_add_up_to_the_boards():
    roof = drawn.roof_of()
    rows = rows_of(roof)

    for code in ("BRD-OSB18", "INS-PIR75"):
        good = drawn.good(code)
        parts = drawn.parts_of(roof, good)
        own = [row for row in rows if row["Material"] == good.name]
        assert {row["Mark"] for row in own} == {part.mark for part in parts}
        total_m2 = sum(float(row["Area [m2]"]) for row in own)
        assert total_m2 == pytest.approx(sum(p.area_mm2 for p in parts) / 1e6, abs=0.001)


def test_a_line_says_size_corners_bevels_and_place():
    row = next(r for r in rows_of(drawn.roof_of()) if r["Mark"] == "J04-F1-C2P1-OSB18-L")

    assert (row["Hand"], row["Length [mm]"], row["Width up the slope [mm]"]) == (
        "L",
        "2115.8",
        "708.0",
    )
    corners = row["Corners, outside face up, eaves at the bottom [no: right up mm]"].split("; ")
    assert corners[0] == "1: 0.0 0.0"
    assert len(corners) == 4
    assert row["Bevels [side from corner no: deg off square]"].split("; ") == [
        "3: 25.00 undercut",
        "4: 9.31 undercut",
    ]
    assert row["Turned over"] == "no"
    assert float(row["Mass [kg]"]) == pytest.approx(float(row["Area [m2]"]) * 11.5, abs=0.06)


def test_the_list_is_sorted_by_material_and_sheet():
    rows = rows_of(drawn.roof_of())
    sheets = [(row["Material"] != rows[0]["Material"], int(row["Sheet"])) for row in rows]

    assert sheets == sorted(sheets)
