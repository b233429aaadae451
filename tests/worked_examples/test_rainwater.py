"""Rainwater against Approved Document H and a plumbing handbook; sources in the shared table.

shared/rainwater_cases.toml names each row's source and status. W-01 and W-03 were read in the
handbook that reproduces the document; of W-04 the 100 mm row was, the others are from memory and
agree with the formula (W-05), which is from memory too, within 0.9 %.
"""

import pytest

from roofmodel.standards import approved_document_h_2015 as document_h
from roofmodel.standards import en_12056_3_2000 as en_12056_3
from tests.worked_examples.published import rows


def published(table):
    return rows("rainwater_cases.toml", table)


@pytest.mark.parametrize("row", published("area_factor"), ids=lambda row: row["id"])
def test_the_closed_form_gives_the_printed_area_factors(row):
    for pitch_deg, factor in row["rows"]:
        found = en_12056_3.pitch_factor(pitch_deg)
        assert found == pytest.approx(factor, abs=row["tolerance"]), pitch_deg


def test_the_table_of_the_approved_document_is_held_as_it_is_printed():
    assert dict(published("area_factor")[0]["rows"]) == document_h.FACTOR


def test_a_roof_of_10_by_6_that_rises_3_counts_75():
    """W-02, a plumbing handbook, page 527: 10 × (6 + 3 / 2) = 75 m²."""
    row = published("roof")[0]
    plan_m2 = row["length_m"] * row["width_m"]
    slope_m2 = plan_m2 * (1.0 + row["height_m"] / row["width_m"] / 2.0)
    assert slope_m2 == row["area_m2"]
    pitch_deg = 26.565051177077994  # 3 over 6
    assert en_12056_3.effective_slope_m2(plan_m2, pitch_deg) == pytest.approx(row["area_m2"])


def test_75_mm_an_hour_is_0_0208_litres_a_second():
    row = published("rain")[0]
    assert pytest.approx(row["l_s_m2"], abs=5e-5) == document_h.RAIN_L_S_M2


@pytest.mark.parametrize(
    ("gutter_mm", "area_m2", "flow", "outlet"), published("gutter")[0]["rows"], ids=str
)
def test_a_half_round_gutter_carries_what_the_approved_document_says(
    gutter_mm, area_m2, flow, outlet
):
    held = next(row for row in document_h.HALF_ROUND if row.gutter_mm == gutter_mm)
    assert (held.most_m2, held.flow_l_s, held.outlet_mm) == (area_m2, flow, outlet)
    found = en_12056_3.eaves_gutter_l_s(en_12056_3.half_round_mm2(gutter_mm))
    assert found == pytest.approx(flow, rel=0.009)


@pytest.mark.parametrize(("gutter_mm", "flow", "area_m2"), published("capacity")[0]["rows"])
def test_the_formula_gives_its_own_row(gutter_mm, flow, area_m2):
    found = en_12056_3.eaves_gutter_l_s(en_12056_3.half_round_mm2(gutter_mm))
    assert found == pytest.approx(flow, abs=0.0005)
    assert found / document_h.RAIN_L_S_M2 == pytest.approx(area_m2, rel=0.004)


def test_a_long_gutter_loses_as_the_quoted_table_says():
    for ratio, factor in published("long_gutter")[0]["rows"]:
        assert en_12056_3.long_gutter_factor(ratio * 50.0, 50.0) == pytest.approx(factor)
    assert en_12056_3.long_gutter_factor(3_750.0, 50.0) == pytest.approx(0.965)


def test_a_63_mm_outlet_takes_37_square_metres():
    """W-04, the row that was read: 100 mm half-round, 63 mm outlet, 37 m²."""
    assert document_h.outlet_takes_m2(63.0) == 37.0
    assert document_h.outlet_takes_m2(40.0) is None
