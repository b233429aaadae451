"""The firm's own rows: kept apart, used in the place of the shipped ones, versioned."""

import dataclasses
from datetime import date
from decimal import Decimal

import pytest

from roofmodel.buildups import catalogue, own
from roofmodel.buildups.material import Price
from roofmodel.foundation.errors import ResourceError
from roofmodel.foundation.layered import Standing

SHIPPED = catalogue.shipped()
DAY, LATER = date(2026, 11, 25), date(2026, 12, 2)


def with_price(code, amount):
    price = Price(amount=Decimal(amount), dated=DAY, source="a test")
    return dataclasses.replace(SHIPPED.material(code), price=price)


def write(path, content):
    path.write_bytes(content)


def saved(rows, folder, day=DAY):
    return own.save(rows, own.file(folder), day=day, write=write)


def test_a_folder_without_own_rows_changes_nothing(tmp_path):
    assert own.load(tmp_path) is None
    merged = own.merged(SHIPPED, None)
    assert merged.catalogue is SHIPPED
    assert set(merged.standing.values()) == {Standing.SHIPPED}


def test_own_rows_win_and_new_ones_join_at_the_end():
    dearer = with_price("TIL-LW", "70")
    new = dataclasses.replace(dearer, code="TIL-OWN")
    rows = own.empty(DAY).with_material(dearer).with_material(new)

    merged = own.merged(SHIPPED, rows)

    assert merged.catalogue.material("TIL-LW") == dearer
    assert list(merged.catalogue.materials) == [*SHIPPED.materials, "TIL-OWN"]
    own_ones = {code: x for code, x in merged.standing.items() if x is not Standing.SHIPPED}
    assert own_ones == {"TIL-LW": Standing.OWN, "TIL-OWN": Standing.NEW}
    assert SHIPPED.material("TIL-LW") != dearer


def test_every_save_is_the_next_version_valid_from_its_day(tmp_path):
    first = saved(own.empty(DAY).with_material(with_price("TIL-LW", "70")), tmp_path)
    second = saved(first.with_material(with_price("GUT-112", "12")), tmp_path, LATER)

    assert (first.version, first.valid_from) == (1, DAY)
    assert (second.version, second.valid_from) == (2, LATER)
    assert own.load(tmp_path) == second
    before, after = own.merged(SHIPPED, first), own.merged(SHIPPED, second)
    assert SHIPPED.version < before.catalogue.version < after.catalogue.version
    assert after.catalogue.valid_from == LATER


def test_what_could_not_be_read_back_is_never_written(tmp_path):
    wrong = dataclasses.replace(with_price("TIL-LW", "70"), category="shingles")

    with pytest.raises(ResourceError, match=r"Row 1 \(TIL-LW\), category"):
        saved(own.empty(DAY).with_material(wrong), tmp_path)

    assert not own.file(tmp_path).exists()


def test_a_row_put_back_to_the_shipped_one_is_no_own_row_any_more():
    rows = own.with_row(own.empty(DAY), SHIPPED, with_price("TIL-LW", "70"))
    assert set(rows.materials) == {"TIL-LW"}

    assert not own.with_row(rows, SHIPPED, SHIPPED.material("TIL-LW")).materials


def test_a_shipped_row_may_be_withdrawn_and_put_back(tmp_path):
    rows = saved(own.withdrawn(own.empty(DAY), SHIPPED, "TIL-LW"), tmp_path)
    merged = own.merged(SHIPPED, own.load(tmp_path))

    assert "TIL-LW" not in merged.catalogue.materials
    assert merged.standing["TIL-LW"] is Standing.WITHDRAWN
    assert (
        "TIL-LW" in own.merged(SHIPPED, own.restored(rows, SHIPPED, "TIL-LW")).catalogue.materials
    )


def test_a_row_that_ships_otherwise_since_is_noticed_and_the_own_one_stays(tmp_path):
    rows = saved(own.with_row(own.empty(DAY), SHIPPED, with_price("TIL-LW", "70")), tmp_path)
    assert own.merged(SHIPPED, rows).outdated == set()
    renamed = SHIPPED.with_material(
        dataclasses.replace(SHIPPED.material("TIL-LW"), name="Another tile")
    )
    merged = own.merged(renamed, own.load(tmp_path))

    assert merged.outdated == {"TIL-LW"}
    assert merged.catalogue.material("TIL-LW").price.amount == 70


def test_the_age_of_a_good_price_is_the_firms_to_say(tmp_path):
    rows = saved(dataclasses.replace(own.empty(DAY), price_days=30), tmp_path)
    known = own.merged(SHIPPED, own.load(tmp_path)).catalogue

    assert rows.stale_days == known.stale_days == 30
    assert SHIPPED.stale_days == catalogue.shipped_price_days()
