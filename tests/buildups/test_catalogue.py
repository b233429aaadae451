"""The shipped catalogue, and what its rows are counted, packed and cut by."""

import dataclasses
from datetime import date, timedelta
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roofmodel.buildups import catalogue, catalogue_file, own, row_check
from roofmodel.buildups.board_choice import BoardChoice
from roofmodel.buildups.catalogue import CatalogueError
from roofmodel.buildups.material import CATEGORIES, Charge, Pack, Price, StockSize
from roofmodel.foundation.errors import DimensionError, ResourceError
from roofmodel.quantities import lengths
from roofmodel.workbench.job import reckoning
from tests import acceptance_jobs

ROWS = catalogue.shipped().materials
SHEETS = [row for row in ROWS.values() if row.sheet is not None]


@pytest.mark.parametrize("row", ROWS.values(), ids=lambda row: row.code)
def test_every_shipped_row_names_its_source_and_calls_its_price_invented(row):
    assert row.source.document
    assert not row.source.verified
    assert row.price is not None
    assert row.price.source == "invented"
    for size in row.sheet.sizes if row.sheet else ():
        assert size.price is None or size.price.source == "invented"


@pytest.mark.parametrize("row", ROWS.values(), ids=lambda row: row.code)
def test_every_shipped_row_says_what_drives_it_in_a_sentence(row):
    assert row.driver[0].isupper() or row.driver[0].isdigit()
    assert row.driver.endswith(".")
    assert not any(mark in row.driver for mark in ("<=", ">=", "M1", "M2", "M3", "c/c", "->"))


def test_every_shipped_row_passes_the_check_of_own_rows():
    assert [fault for row in ROWS.values() for fault in row_check.faults(row)] == []


def test_every_category_is_used_by_a_row():
    assert {row.category for row in ROWS.values()} == set(CATEGORIES)


@pytest.mark.parametrize("row", SHEETS, ids=lambda row: row.code)
def test_every_sheet_is_cut_in_each_size_it_is_sold_in(row):
    for number, size in enumerate(row.sheet.sizes):
        good = row.sheet_good(number, saw_kerf_mm=3.0)
        assert (good.length_mm, good.width_mm) == (size.length_mm, size.width_mm)
        assert good.code == row.code
    with pytest.raises(DimensionError, match="sold in"):
        row.sheet_good(len(row.sheet.sizes), saw_kerf_mm=3.0)


@pytest.mark.parametrize("row", SHEETS, ids=lambda row: row.code)
def test_a_pack_of_a_sheet_holds_the_area_of_the_usual_one(row):
    assert float(row.pack.holds) == pytest.approx(row.sheet_good(saw_kerf_mm=3.0).sheet_area_m2)


def test_the_boards_have_the_stock_sizes_of_the_trade():
    areas = {code: catalogue.shipped().sheet_goods()[code].sheet_area_m2 for code in _BOARDS}

    assert areas == pytest.approx(_BOARDS)


def test_what_is_no_sheet_is_not_cut():
    with pytest.raises(DimensionError, match="SEA-CAR is not cut from sheets"):
        ROWS["SEA-CAR"].sheet_good(saw_kerf_mm=3.0)


def test_an_unknown_code_is_answered_with_the_nearest():
    with pytest.raises(CatalogueError, match="Did you mean BRD-OSB18"):
        catalogue.shipped().material("BRD-OSB81")


def test_a_price_is_stale_the_day_after_its_last():
    dated = max(row.price.dated for row in ROWS.values())
    last = dated + timedelta(days=catalogue.shipped_price_days())

    assert catalogue.shipped().stale(last) == ()
    assert len(catalogue.shipped().stale(last + timedelta(days=1))) == len(ROWS)


@pytest.mark.parametrize(
    ("quantity", "packs"), [(0.0, 0), (1.0, 1), (20.0, 1), (20.000001, 1), (20.001, 2), (41, 3)]
)
def test_whole_packs_are_rounded_up_but_for_a_hair(quantity, packs):
    tiles = ROWS["TIL-LW"]
    assert (tiles.charge, tiles.pack.holds) == (Charge.WHOLE, 20)

    assert tiles.packs(quantity) == packs


@given(lengths=st.lists(st.sampled_from([0.1, 0.2, 0.3, 0.7]), min_size=1, max_size=40))
def test_a_sum_of_floats_never_costs_a_pack_more_than_the_exact_sum(lengths):
    cable = dataclasses.replace(ROWS["ELE-CBL"], charge=Charge.WHOLE)
    exact = sum(Decimal(str(length)) for length in lengths)

    assert cable.packs(sum(lengths)) == exact.to_integral_value(rounding="ROUND_CEILING")


def test_by_use_charges_the_share_of_a_pack():
    assert ROWS["MEM-BR15"].packs(30.0) == Decimal("0.4")


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"waste_percent": 101.0}, "waste_percent"),
        ({"waste_percent": float("nan")}, "waste_percent"),
        ({"cover_mm": 0.0}, "cover_mm"),
        ({"mass_kg": float("nan")}, "mass_kg"),
        ({"sd_m": float("inf")}, "sd_m"),
        ({"gauge_least_mm": 300.0, "gauge_most_mm": 250.0}, "gauge_least_mm"),
        ({"stock_lengths_mm": (4800.0, -1.0)}, "stock_lengths_mm"),
    ],
)
def test_numbers_no_material_has_are_refused(change, field):
    with pytest.raises(DimensionError) as error:
        dataclasses.replace(ROWS["TIL-LW"], **change)

    assert [fault.field for fault in error.value.faults] == [field]


@pytest.mark.parametrize("amount", ["-0.01", "NaN", "Infinity", "1e400"])
def test_no_price_is_below_nothing_or_beyond_measure(amount):
    with pytest.raises(DimensionError, match="Enter 0 to 100000"):
        Price(amount=Decimal(amount), dated=date(2026, 11, 1), source="a test")


def test_a_pack_and_a_size_hold_something():
    with pytest.raises(DimensionError, match="holds 0 is not possible"):
        Pack(name="box", holds=Decimal(0))
    with pytest.raises(DimensionError, match=r"-3 mm is not possible.*0 mm is not possible"):
        StockSize(length_mm=-3.0, width_mm=0.0)


def test_a_sheet_whose_saw_cut_is_wider_than_any_blade_is_refused_in_the_row():
    osb = ROWS["BRD-OSB18"]
    with pytest.raises(DimensionError) as error:
        dataclasses.replace(osb, sheet=dataclasses.replace(osb.sheet, kerf_mm=30.0))

    assert [fault.field for fault in error.value.faults] == ["sheet.kerf_mm"]


def test_a_job_may_cut_a_measured_sheet_with_its_own_saw():
    good = ROWS["BRD-OSB18"].sheet_good(saw_kerf_mm=3.0)
    choice = BoardChoice(material="BRD-OSB18", length_mm=2437.0, kerf_mm=4.0)

    assert choice.applied_to(good) == dataclasses.replace(good, length_mm=2437.0, kerf_mm=4.0)


def test_overrides_no_sheet_can_have_are_all_named():
    with pytest.raises(DimensionError) as error:
        BoardChoice(material="BRD-OSB18", kerf_mm=400.0, trim_mm=-1.0)

    assert [fault.field for fault in error.value.faults] == ["kerf_mm", "trim_mm"]


def test_overrides_that_leave_no_sheet_are_refused():
    good = ROWS["BRD-OSB18"].sheet_good(saw_kerf_mm=3.0)
    with pytest.raises(DimensionError, match="smallest piece"):
        BoardChoice(material="X", width_mm=240.0, minimum_piece_mm=260.0).applied_to(good)


_BOARDS = {"BRD-OSB18": 2.9768, "INS-PIR75": 2.88, "BRD-PB12": 2.88}
"""Areas of 2440 × 1220 and 2400 × 1200 mm [m²] (usual UK stock sizes, from memory)."""


def test_the_firm_s_saw_stands_in_one_place_and_cuts_boards_and_lengths_alike():
    """A wider blade is one entry in the own catalogue; no row and no code says it again."""
    blade = dataclasses.replace(own.empty(date(2026, 11, 1)), saw_kerf_mm=4.2)
    goods = own.merged(catalogue.shipped(), blade).catalogue

    assert {good.kerf_mm for good in catalogue.shipped().sheet_goods().values()} == {3.0}
    assert {good.kerf_mm for good in goods.sheet_goods().values()} == {4.2}
    drawn = acceptance_jobs.drawn("J01")
    plans = [one.plan for one in lengths.cuts(drawn.option.refit, goods).values() if one.plan]
    assert {plan.problem.kerf for plan in plans} == {42}
    again = reckoning.reckon(acceptance_jobs.job("J01"), catalogue=goods)
    assert {layer.good.kerf_mm for layer in again.option.sheets} == {4.2}


def test_the_saw_is_kept_with_the_catalogue_and_a_cut_no_saw_makes_is_refused():
    text = catalogue_file.dumps(dataclasses.replace(catalogue.shipped(), saw_kerf_mm=4.2))

    assert catalogue_file.loads(text, name="own").kerf_mm == 4.2
    with pytest.raises(ResourceError, match="saw_kerf_mm"):
        catalogue_file.loads(text.replace("saw_kerf_mm = 4.2", "saw_kerf_mm = 42.0"), name="own")
