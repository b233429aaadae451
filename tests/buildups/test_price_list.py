"""Prices go out to a spreadsheet and come back, or are refused by row and column."""

import csv
import io
from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from roofmodel.buildups import catalogue, price_list
from roofmodel.buildups.catalogue_words import CatalogueFileError
from roofmodel.foundation.errors import ResourceError

SHIPPED = catalogue.shipped()
TODAY = date(2026, 11, 25)


def read(listed, **more):
    return price_list.read(listed, SHIPPED, **more)


def faults(listed, **more):
    with pytest.raises(CatalogueFileError) as error:
        read(listed, **more)
    return [(one.row, one.column, f"{one.text} {one.remedy}") for one in error.value.faults]


def test_the_list_as_written_changes_nothing():
    found, changes = read(price_list.text(SHIPPED))

    assert found == SHIPPED
    assert changes == ()


def test_every_material_is_listed_with_pack_price_and_date():
    rows = list(csv.DictReader(io.StringIO(price_list.text(SHIPPED))))

    assert [row["code"] for row in rows] == list(SHIPPED.materials)
    for row in rows:
        material = SHIPPED.material(row["code"])
        assert Decimal(row["price"]) == material.price.amount
        assert date.fromisoformat(row["date"]) == material.price.dated
        assert row["pack"] == material.pack.name


def test_a_changed_price_is_taken_and_no_longer_called_invented():
    listed = price_list.text(SHIPPED).replace("62.00,2026-11-01", "64.20,2026-11-20")
    found, changes = read(listed, today=TODAY)

    (change,) = changes
    assert change.code == "TIL-LW"
    assert change.before.amount == 62
    assert change.after.amount == Decimal("64.20")
    assert change.after.dated == date(2026, 11, 20)
    assert change.after.source == price_list.SOURCE
    assert found == SHIPPED.with_material(found.material("TIL-LW"))


def test_a_list_may_hold_code_price_and_date_only_and_name_its_source():
    found, _ = read("code,price,date,source\nTIL-LW,64,2026-11-20,merchant's list\n")

    assert found.material("TIL-LW").price.source == "merchant's list"


@pytest.mark.parametrize("mark", [",", ";", "\t"])
@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_lists_of_any_spreadsheet_are_understood(mark, end):
    rows = [["\ufeffCode", "Price", "Date"], ["TIL-LW", "64", "2026-11-20"], ["", "", ""]]
    _, changes = read(end.join(mark.join(row) for row in rows))

    assert [(change.code, change.after.amount) for change in changes] == [("TIL-LW", 64)]


def test_every_fault_is_told_with_row_and_column_and_nothing_is_taken():
    found = faults(
        "code;price;date\n"
        "TIL-LW;64,20;2026-11-20\n"
        "TILE-LW;64;2026-11-20\n"
        "GUT-112;-1;20/11/2026\n"
        "GUT-UNI;;2026-11-20\n"
        "GUT-ANG;£4.80;\n"
        "GUT-BKT;cheap;soon\n"
        "MEM-BR15;1;2026-11-20\n"
        "MEM-BR15;2;2026-11-20\n"
        "FOM-750;9;2062-11-20\n",
        today=TODAY,
    )

    for (row, column, told), (row_, column_, words) in zip(found, _WANTED, strict=True):
        assert (row, column) == (row_, column_)
        assert words in told


_WANTED = [
    (2, "price", "Did you mean 64.20?"),
    (3, "code", "Did you mean “TIL-LW”?"),
    (4, "price", "is not possible"),
    (4, "date", "Did you mean 2026-11-20?"),
    (5, "price", "There is no price."),
    (6, "price", "Did you mean 4.80?"),
    (6, "date", "has no date"),
    (7, "price", "“cheap” is not a number."),
    (7, "date", "year-month-day"),
    (9, "code", "MEM-BR15 is in rows 8 and 9."),
    (10, "date", "in the future"),
]


def test_a_comma_that_makes_two_cells_of_a_price_is_noticed():
    (row, column, told), other = faults(
        "code,price,date\nTIL-LW,64,20,2026-11-20\nGUT-UNI,dear,2026-11-20\n"
    )

    assert (row, column) == (2, "row")
    assert other[:2] == (3, "price")
    assert "4 cells under 3 headings" in told


def test_missing_columns_are_named():
    assert [column for _, column, _ in faults("code;cost\nTIL-LW;3\n")] == ["price", "date"]
    assert len(faults("")) == 3


def test_a_material_without_a_price_may_stay_so():
    bare = SHIPPED.without("TIL-LW")
    _, changes = price_list.read(price_list.text(bare), bare)
    assert changes == ()


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("1,234.50", "1234.50"), ("1.234,50", "1234.50"), ("£ 3,5", "3.5"), ("12.50 GBP", None)],
)
def test_a_price_in_other_dress_is_asked_about_never_taken(typed, meant):
    amount, words = price_list.amount_of(typed)

    assert amount is None
    assert (meant is not None) == ("Did you mean" in words[1])
    assert meant is None or meant in words[1]


def test_what_is_no_list_is_refused():
    with pytest.raises(ResourceError, match="is not a list"):
        read("code,price,date\n" + "x" * 200_000)


def test_a_name_a_spreadsheet_would_run_is_written_as_text_and_its_code_still_known():
    known = catalogue.shipped()
    code, material = next(iter(known.materials.items()))
    odd = known.with_material(replace(material, name="=1+1"))

    listed = price_list.text(odd)

    assert f"{code},'=1+1," in listed
    assert price_list.read(listed, odd)[1] == ()
