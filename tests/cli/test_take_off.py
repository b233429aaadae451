"""The take-off on the command line, as tables, JSON, CSV and a workbook."""

import csv
import json
from datetime import date
from decimal import Decimal

import openpyxl
import pytest

from roofmodel.cli.main import run as run_cli
from roofmodel.foundation import clock
from tests import formulas
from tests.acceptance_jobs import JOBS


def run(*arguments):
    return run_cli([str(argument) for argument in arguments], open_window=lambda _: 0)


@pytest.fixture
def job(tmp_path):
    def write(code, **changes):
        path = tmp_path / f"{code}.roofjob.json"
        fields = {"schema_version": 2, "code": code, **JOBS[code], **changes}
        path.write_text(json.dumps(fields), encoding="utf-8")
        return path

    return write


def take_off(capsys, path, *more):
    code = run("takeoff", path, "--effort", "quick", "--json", *more)
    return code, json.loads(capsys.readouterr().out)


def test_json_has_every_line_with_its_formula_and_the_sum(job, capsys):
    code, found = take_off(capsys, job("J01"))
    lines = {line["code"]: line for line in found["lines"]}

    assert code == 0
    assert found["method"] == "build-round"
    assert (
        found["materials_and_preliminaries_gbp"] == "2206.10"
    )  # 1595.10 of materials, 611.00 of preliminaries
    assert lines["TIL-LW"]["formula"] == "F1 10 × 13 at gauge 289.9"
    assert lines["TIL-LW"]["amount_gbp"] == "434.00"
    assert lines["BOX-LIN"]["quantity"] == 0.0
    assert lines["PRE-BC"]["shown_apart"]


@pytest.mark.parametrize("columns", [80, 200])
def test_no_name_and_no_bound_is_cut_off_whatever_the_width(job, capsys, monkeypatch, columns):
    path = job("J01")
    _, found = take_off(capsys, path)
    monkeypatch.setenv("COLUMNS", str(columns))

    assert run("takeoff", path, "--effort", "quick") == 0

    printed = capsys.readouterr().out
    words = " ".join(printed.split())
    assert "…" not in printed
    assert max(map(len, printed.splitlines())) <= columns
    for line in found["lines"]:
        if line["quantity"]:
            for told in (line["name"], line["formula"]):
                assert all(word in words for word in told.split()), told


def test_the_method_is_named_by_the_same_three_values_everywhere(job, capsys):
    path = job("J01")
    for method, title in (("new-roof", "New roof"), ("panel-swap", "Panel swap")):
        _, found = take_off(capsys, path, "--method", method)
        assert (found["method"], found["title"]) == (method, title)
    assert run("takeoff", path, "--method", "new") == 2
    assert "panel-swap" in capsys.readouterr().err


def test_a_refused_method_is_taken_off_without_sheets_and_without_a_total(job, capsys):
    _, found = take_off(capsys, job("J02"), "--method", "build-round")

    assert "10.94°" in found["refused"]
    assert found["materials_and_preliminaries_gbp"] is None
    assert found["incomplete"].startswith("incomplete: 3 items")


def test_csv_and_workbook_hold_the_same_lines(job, tmp_path, capsys):
    table, book = tmp_path / "take-off.csv", tmp_path / "take-off.xlsx"
    _, found = take_off(capsys, job("J01"), "--csv", table, "--xlsx", book)

    with table.open(encoding="utf-8-sig", newline="") as stream:
        rows = list(csv.DictReader(stream))
    sheet = openpyxl.load_workbook(book).active
    codes = [line["code"] for line in found["lines"]]
    assert [row["Code"] for row in rows] == codes
    assert [sheet.cell(4 + i, 2).value for i in range(len(codes))] == codes


def test_amounts_and_total_of_the_workbook_are_formulas(job, tmp_path, capsys):
    book = tmp_path / "take-off.xlsx"
    take_off(capsys, job("J01"), "--xlsx", book)
    sheet = openpyxl.load_workbook(book).active

    live = [cell for cell in sheet["L"] if str(cell.value).startswith("=")]
    assert live[0].value == "=ROUND(H4*K4,2)"
    assert live[-1].value.startswith("=SUM(L4:")
    assert formulas.value(sheet.parent, sheet.title, live[-1].coordinate) == Decimal("2206.10")


def test_an_incomplete_take_off_says_so_in_the_workbook(job, tmp_path, capsys):
    book = tmp_path / "take-off.xlsx"
    take_off(capsys, job("J02"), "--xlsx", book)
    sheet = openpyxl.load_workbook(book).active

    words = " ".join(str(cell.value) for row in sheet for cell in row if cell.value)
    assert "incomplete: 1 item (PNL-ALU32)" in words


def test_the_table_names_what_stands_at_zero(job, capsys):
    assert run("takeoff", job("J01"), "--effort", "quick") == 0
    out = capsys.readouterr().out

    assert "Build round the bars" in out
    assert "None needed on this roof" in out
    assert "BOX-LIN" in out


def test_old_prices_are_named(job, tmp_path, capsys, monkeypatch):
    _, before = take_off(capsys, job("J01"))
    monkeypatch.setattr(clock, "today", lambda: date(2027, 12, 1))
    _, after = take_off(capsys, job("J01"))

    assert before["stale_prices"] == [] or "TIL-LW" in before["stale_prices"]
    assert "TIL-LW" in after["stale_prices"]
    assert "BOX-LIN" not in after["stale_prices"]  # stands at zero on this roof
