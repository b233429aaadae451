"""Price lists on the command line: shown before they are taken, remembered, and refused whole."""

import csv
import json
from datetime import date, datetime

import openpyxl
import pytest

from roofmodel.buildups import catalogue_file
from roofmodel.cli import main
from roofmodel.foundation import clock


def run(*arguments):
    return main.run([str(one) for one in arguments], open_window=lambda path: 0)


def printed(capsys):
    return json.loads(capsys.readouterr().out)


def lean(text):
    """Return a printed text without the line breaks of the terminal."""
    return " ".join(text.split())


YESTERDAY = date(2026, 11, 19)


@pytest.fixture(autouse=True)
def _day(monkeypatch):
    monkeypatch.setattr(clock, "today", lambda: date(2026, 11, 20))


def prices(path, *rows):
    path.write_text("code,price,date\n" + "".join(f"{row}\n" for row in rows), encoding="utf-8")
    return path


def test_prices_go_out_as_text_and_come_back_into_own_rows(tmp_path, data_folder, capsys):
    out = tmp_path / "prices.csv"
    assert run("prices", "out", out) == 0
    with out.open(encoding="utf-8-sig", newline="") as stream:
        rows = list(csv.reader(stream))
    tile = next(row for row in rows if row[0] == "TIL-LW")
    tile[5:7] = ["£64.20", f"{YESTERDAY:%d/%m/%Y}"]
    with out.open("w", encoding="utf-8-sig", newline="") as stream:
        csv.writer(stream, delimiter=";").writerows(rows)
    capsys.readouterr()

    assert run("prices", "in", out, "--json") == 0
    found = printed(capsys)
    assert [change["code"] for change in found["changes"]] == ["TIL-LW"]
    assert not found["taken"]
    assert not (data_folder / "catalogue.toml").exists()

    assert run("prices", "in", out, "--take", "--json") == 0
    assert printed(capsys)["taken"]
    own = catalogue_file.read(data_folder / "catalogue.toml")
    assert list(own.materials) == ["TIL-LW"]
    assert str(own.material("TIL-LW").price.amount) == "64.20"
    assert own.material("TIL-LW").price.dated == YESTERDAY


def test_prices_go_out_as_a_workbook_and_come_back(tmp_path, data_folder, capsys):
    out = tmp_path / "prices.xlsx"
    assert run("prices", "out", out) == 0
    book = openpyxl.load_workbook(out)
    sheet = book.active
    row = next(row for row in sheet.iter_rows() if row[0].value == "TIL-LW")
    row[5].value, row[6].value = 1064.2, datetime(2026, 11, 20)  # noqa: DTZ001 - a day has no zone
    book.save(out)
    capsys.readouterr()

    assert run("prices", "in", out, "--take") == 0
    said = lean(capsys.readouterr().out)
    assert "62.00 2026-11-01 1,064.20 2026-11-20 +1616.5 %" in said
    assert "changes by more" in said
    own = catalogue_file.read(data_folder / "catalogue.toml")
    assert str(own.material("TIL-LW").price.amount) == "1064.2"


def test_what_a_price_was_is_remembered_from_the_first_change_on(tmp_path, capsys):
    for price in ("64", "65"):
        listed = prices(tmp_path / "list.csv", f"TIL-LW,{price},{YESTERDAY}")
        assert run("prices", "in", listed, "--take") == 0
    capsys.readouterr()

    assert run("prices", "history", "til-lw", "--json") == 0
    assert [one["price"] for one in printed(capsys)["prices"]] == ["62.00", "64", "65"]
    assert run("prices", "history", "no such code") == 0
    assert "No price of that code" in capsys.readouterr().out


def test_a_list_that_changes_nothing_writes_nothing(tmp_path, data_folder, capsys):
    listed = prices(tmp_path / "list.csv", "TIL-LW,62.00,2026-11-01")

    assert run("prices", "in", listed, "--take") == 0

    assert "are the same as" in capsys.readouterr().out
    assert not data_folder.exists()


def test_a_wrong_list_is_refused_whole_by_row_and_column(tmp_path, data_folder, capsys):
    day = YESTERDAY
    listed = prices(
        tmp_path / "list.csv",
        f"TIL-LW,64,{day}",
        f'GUT-UNI,"2,60",{day}',
        "GUT-ANG,5,2999-01-01",
    )

    assert run("prices", "in", listed, "--take") == 2

    said = lean(capsys.readouterr().err)
    assert "Row 3 (GUT-UNI), price:" in said
    assert "Did you mean 2.60?" in said
    assert "Row 4 (GUT-ANG), date: 2999-01-01 is in the future." in said
    assert not data_folder.exists()


@pytest.mark.parametrize("name", ["gone.csv", "gone.xlsx", "prices.pdf"])
def test_a_list_that_is_not_there_or_of_no_kind_is_told(name, tmp_path, capsys):
    assert run("prices", "in", tmp_path / name) == 2

    said = lean(capsys.readouterr().err)
    assert ("cannot be opened" in said) or ("ends in .csv or .xlsx" in said)


def test_the_firm_says_how_long_a_price_is_good_for(capsys):
    assert run("prices", "good-for", "10") == 0
    capsys.readouterr()
    assert run("catalogue", "TIL-LW", "--json") == 0
    found = printed(capsys)

    assert found["catalogue"]["price_days"] == 10
    assert found["materials"][0]["price_stale"]
    assert run("prices", "good-for", "0") == 2
    assert "Enter 1 to 1000" in lean(capsys.readouterr().err)
