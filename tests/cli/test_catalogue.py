"""The catalogue on the command line: listed, and reckoned with."""

import json
from datetime import date, timedelta
from pathlib import Path

import pytest

from roofmodel.buildups import catalogue, catalogue_file
from roofmodel.cli import main, named_catalogue
from roofmodel.foundation import clock

SAMPLE = Path("sample_roofs/lean-to.roofjob.json")
SHIPPED = catalogue.shipped()


def run(*arguments):
    return main.run([str(one) for one in arguments], open_window=lambda path: 0)


def printed(capsys):
    return json.loads(capsys.readouterr().out)


def lean(text):
    """Return a printed text without the line breaks of the terminal."""
    return " ".join(text.split())


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


def test_stale_and_missing_prices_are_named(tmp_path, capsys, monkeypatch):
    monkeypatch.setattr(clock, "today", lambda: date(2026, 11, 20))
    old = clock.today() - timedelta(days=SHIPPED.stale_days + 1)
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
    assert f"Out of date, older than {SHIPPED.stale_days} days: TIL-LW." in out

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
