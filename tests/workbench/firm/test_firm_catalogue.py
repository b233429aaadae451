"""The catalogue the program reckons with, and how own rows are kept."""

import dataclasses
from datetime import date
from decimal import Decimal

import pytest

from roofmodel.buildups import catalogue, own
from roofmodel.buildups.material import Price
from roofmodel.foundation.errors import ResourceError
from roofmodel.workbench.firm import firm_catalogue

SHIPPED = catalogue.shipped()
DAY = date(2026, 11, 25)


def rows(amount, of=None):
    price = Price(amount=Decimal(amount), dated=DAY, source="a test")
    tile = dataclasses.replace(SHIPPED.material("TIL-LW"), price=price)
    return (of or own.empty(DAY)).with_material(tile)


def test_without_own_rows_the_program_reckons_with_the_shipped_ones(tmp_path):
    assert firm_catalogue.load(None) is SHIPPED
    assert firm_catalogue.load(tmp_path) is SHIPPED


def test_own_rows_of_a_folder_or_file_are_reckoned_with(tmp_path):
    folder = tmp_path / "data"
    firm_catalogue.save(rows("64.20"), own.file(folder), day=DAY)

    for found in (firm_catalogue.load(folder), firm_catalogue.load_file(own.file(folder))):
        assert found.material("TIL-LW").price.amount == Decimal("64.20")
        assert found.material("GUT-UNI") == SHIPPED.material("GUT-UNI")


def test_the_version_before_stays_beside_the_file(tmp_path):
    path = own.file(tmp_path)
    first = firm_catalogue.save(rows("64"), path, day=DAY)
    firm_catalogue.save(rows("65", first), path, day=DAY)

    before = firm_catalogue.load_file(tmp_path / "catalogue.before.toml")
    assert before.material("TIL-LW").price.amount == 64


def test_rows_saved_elsewhere_in_the_meantime_are_not_written_over(tmp_path):
    path = own.file(tmp_path)
    first = firm_catalogue.save(rows("64"), path, day=DAY)
    firm_catalogue.save(rows("65", first), path, day=DAY)

    with pytest.raises(ResourceError, match="saved by someone else"):
        firm_catalogue.save(rows("66", first), path, day=DAY)

    assert firm_catalogue.load(tmp_path).material("TIL-LW").price.amount == 65


def test_a_file_that_cannot_be_read_is_told_and_not_written_over(tmp_path):
    path = own.file(tmp_path)
    path.write_text("schema = 1\n[[material", encoding="utf-8")

    with pytest.raises(ResourceError, match="cannot be read"):
        firm_catalogue.load(tmp_path)
    with pytest.raises(ResourceError, match="cannot be read"):
        firm_catalogue.save(rows("64"), path, day=DAY)

    assert path.read_text(encoding="utf-8") == "schema = 1\n[[material"


def test_a_folder_that_cannot_be_made_is_told(tmp_path):
    (tmp_path / "data").write_text("a file in its place", encoding="utf-8")

    with pytest.raises(ResourceError, match="Nothing was changed"):
        firm_catalogue.save(rows("64"), tmp_path / "data" / "catalogue.toml", day=DAY)
