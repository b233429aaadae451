"""The catalogue on the command line: listed, priced from a list, and reckoned with."""

import csv
import json
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest

from roofmodel.buildups import catalogue, catalogue_file
from roofmodel.buildups.catalogue import STALE_DAYS
from roofmodel.cli import main, named_catalogue

SAMPLE = Path("sample_roofs/lean-to.roofjob.json")
SHIPPED = catalogue.shipped()


def run(*arguments):
    return main.run([str(one) for one in arguments], open_window=lambda path: 0)


def printed(capsys):
    return json.loads(capsys.readouterr().out)


def lean(text):
    """Return a printed text without the line breaks of the terminal."""
    return " ".join(text.split())


def prices(path, *rows):
    path.write_text("code,price,date\n" + "".join(f"{row}\n" for row in rows), encoding="utf-8")
    return path


def yesterday():
    return (datetime.now(UTC) - timedelta(days=1)).date()


def test_every_material_is_listed_with_its_price_and_source(capsys):
    assert run("catalogue", "--json") == 0
    found = printed(capsys)

    assert [row["code"] for row in found["materials"]] == list(SHIPPED.materials)
    for row in found["materials"]:
        assert float(row["price"]) == float(SHIPPED.material(row["code"]).price.amount)
        assert row["source"]
        assert row["row"] == "supplied"
    assert found["catalogue"]["version"] == SHIPPED.version


@pytest.mark.parametrize(
    ("word", "codes"),
    [
        ("gut-u", ["GUT-UNI"]),
        ("DOWNPIPE", ["DWN-68", "DWN-FIT", "DRN-GUL"]),
        ("opening", ["WIN-ROOF", "WIN-ROOF-47"]),
    ],
)
def test_a_word_finds_code_name_or_category(word, codes, capsys):
    assert run("catalogue", word, "--json") == 0

    assert [row["code"] for row in printed(capsys)["materials"]] == codes


def test_the_table_says_the_same(capsys):
    assert run("catalogue", "GUT-UNI") == 0
    out = lean(capsys.readouterr().out)
    assert "GUT-UNI" in out
    assert "2.60" in out
    assert "2026-11-01" in out
    assert run("catalogue", "no such thing") == 0
    assert "No material matches" in lean(capsys.readouterr().out)


def test_prices_go_out_and_come_back_into_own_rows(tmp_path, data_folder, capsys):
    out = tmp_path / "prices.csv"
    assert run("catalogue", "--prices-out", out) == 0
    with out.open(encoding="utf-8-sig", newline="") as stream:
        rows = list(csv.reader(stream))
    tile = next(row for row in rows if row[0] == "TIL-LW")
    tile[5:7] = ["64.20", str(yesterday())]
    with out.open("w", encoding="utf-8-sig", newline="") as stream:
        csv.writer(stream, delimiter=";").writerows(rows)
    capsys.readouterr()

    assert run("catalogue", "--prices-in", out, "--json") == 0
    found = printed(capsys)

    assert [change["code"] for change in found["changes"]] == ["TIL-LW"]
    own = catalogue_file.read(data_folder / "catalogue.toml")
    assert list(own.materials) == ["TIL-LW"]
    assert own.version == 1
    (row,) = [row for row in found["materials"] if row["row"] != "supplied"]
    assert (row["code"], row["price"], row["row"]) == ("TIL-LW", "64.20", "own")


def test_the_version_before_is_kept(tmp_path, data_folder):
    for price in ("64", "65"):
        listed = prices(tmp_path / "list.csv", f"TIL-LW,{price},{yesterday()}")
        assert run("catalogue", "--prices-in", listed) == 0

    after = catalogue_file.read(data_folder / "catalogue.toml")
    before = catalogue_file.read(data_folder / "catalogue.before.toml")
    assert (before.version, after.version) == (1, 2)
    assert (before.material("TIL-LW").price.amount, after.material("TIL-LW").price.amount) == (
        64,
        65,
    )


def test_a_list_that_changes_nothing_writes_nothing(tmp_path, data_folder, capsys):
    listed = prices(tmp_path / "list.csv", "TIL-LW,62.00,2026-11-01")

    assert run("catalogue", "--prices-in", listed) == 0

    assert "are the same as" in capsys.readouterr().out
    assert not data_folder.exists()


def test_a_wrong_list_is_refused_whole_by_row_and_column(tmp_path, data_folder, capsys):
    day = yesterday()
    listed = prices(
        tmp_path / "list.csv",
        f"TIL-LW,64,{day}",
        f'GUT-UNI,"2,60",{day}',
        "GUT-ANG,5,2999-01-01",
    )

    assert run("catalogue", "--prices-in", listed) == 2

    said = lean(capsys.readouterr().err)
    assert "Row 3 (GUT-UNI), price:" in said
    assert "Did you mean 2.60?" in said
    assert "Row 4 (GUT-ANG), date: 2999-01-01 is in the future." in said
    assert not data_folder.exists()


def test_a_list_in_another_writing_is_refused_in_words(tmp_path, capsys):
    listed = tmp_path / "list.csv"
    listed.write_bytes("code;price;date\nTIL-LW;£64;\n".encode("cp1252"))

    assert run("catalogue", "--prices-in", listed) == 2
    assert "CSV UTF-8" in lean(capsys.readouterr().err)
    assert run("catalogue", "--prices-in", tmp_path / "gone.csv") == 2
    assert "cannot be opened" in lean(capsys.readouterr().err)


def test_stale_and_missing_prices_are_named(tmp_path, capsys):
    old = date.today() - timedelta(days=STALE_DAYS + 1)  # noqa: DTZ011 - the day here
    text = catalogue_file.dumps(
        catalogue.Catalogue(
            name="Own",
            version=1,
            valid_from=old,
            materials={code: SHIPPED.material(code) for code in ("TIL-LW", "GUT-UNI")},
        )
    )
    lines = text.replace("dated = 2026-11-01", f"dated = {old}", 1).splitlines()
    last = max(i for i, line in enumerate(lines) if line.startswith("price ="))
    own = tmp_path / "own.toml"
    own.write_text("\n".join(lines[:last] + lines[last + 1 :]), encoding="utf-8")

    assert run("--catalogue", own, "catalogue") == 0
    out = lean(capsys.readouterr().out)
    assert "Without a price: GUT-UNI." in out
    assert f"Out of date, older than {STALE_DAYS} days: TIL-LW." in out

    assert run("--catalogue", own, "catalogue", "--json") == 0
    rows = {row["code"]: row for row in printed(capsys)["materials"]}
    assert rows["TIL-LW"]["price_stale"]
    assert rows["GUT-UNI"]["price"] is None


def own_file(path):
    text = catalogue_file.dumps(
        catalogue.Catalogue(
            name="Own",
            version=1,
            valid_from=date(2026, 11, 1),
            materials={"PRE-DEL": SHIPPED.material("PRE-DEL")},
        )
    )
    path.write_text(text.replace("amount = 45.00", "amount = 1045.00"), encoding="utf-8")
    return path


@pytest.mark.parametrize("how", ["option", "variable", "data folder"])
def test_jobs_are_reckoned_with_the_firms_own_rows(how, tmp_path, data_folder, monkeypatch, capsys):
    take_off = ("takeoff", SAMPLE, "--effort", "quick", "--json")
    assert run(*take_off) == 0
    before = amount_of("PRE-DEL", printed(capsys))

    file = own_file(tmp_path / "own.toml")
    option = ()
    if how == "option":
        option = ("--catalogue", file)
    elif how == "variable":
        monkeypatch.setenv(named_catalogue.VARIABLE, str(file))
    else:
        data_folder.mkdir()
        file.rename(data_folder / "catalogue.toml")
    assert run(*option, *take_off) == 0

    assert amount_of("PRE-DEL", printed(capsys)) == pytest.approx(before + 2 * 1000.0)


def amount_of(code, found):
    return sum(float(line["amount_gbp"]) for line in found["lines"] if line["code"] == code)


@pytest.mark.parametrize("command", [("check", SAMPLE), ("facts", SAMPLE), ("catalogue",)])
def test_a_broken_catalogue_is_told_and_never_passed_over(command, tmp_path, capsys):
    broken = own_file(tmp_path / "own.toml")
    text = broken.read_text(encoding="utf-8")
    broken.write_text(text.replace("amount = 1045.00", 'amount = "1045,00"'), encoding="utf-8")

    assert run("--catalogue", broken, *command) == 2

    assert "Row 1 (PRE-DEL), price.amount:" in lean(capsys.readouterr().err)


def test_a_catalogue_that_is_not_there_is_told(tmp_path, capsys):
    assert run("--catalogue", tmp_path / "gone.toml", "check", SAMPLE) == 2
    assert "There is no catalogue" in lean(capsys.readouterr().err)
