"""The gates on the command line, as words, JSON, and the pack for building control."""

import json

import pytest

from roofmodel.cli.main import run as run_cli
from tests.acceptance_jobs import JOBS

DAY = "2026-11-25"


@pytest.fixture
def j02(tmp_path):
    path = tmp_path / "J02.roofjob.json"
    path.write_text(json.dumps({"schema_version": 2, "code": "J02", **JOBS["J02"]}))
    return str(path)


def run(*arguments):
    return run_cli(["gates", *arguments, "--on", DAY], open_window=lambda _: 0)


def test_json_carries_outcome_figure_limit_source_and_derivation(j02, capsys):
    assert run(j02, "--method", "build-round", "--json") == 0
    found = json.loads(capsys.readouterr().out)

    assert found["worst"] == "fail"
    by_name = {gate["name"]: gate for gate in found["gates"]}
    pitch = by_name["pitch: F1"]
    # J02 of the acceptance jobs: 10.94°, the covering asks 14° (common practice, no source).
    assert pitch["value"] == pytest.approx(10.94, abs=0.01)
    assert pitch["limit"] == 14.0
    assert pitch["outcome"] == "fail"
    assert pitch["derivation"]
    assert "(not yet verified)" in pitch["source"]
    assert "engineer" in found["decides"]


def test_words_name_what_is_to_be_done(j02, capsys):
    assert run(j02, "--derivation") == 0
    said = capsys.readouterr().out

    assert "Panel swap" in said
    assert "Enter the snow zone" in said
    assert "the engineer, building control and the electrician decide" in " ".join(said.split())


def test_the_pack_is_written(j02, tmp_path, capsys):
    pack = tmp_path / "pack.pdf"
    assert run(j02, "--pack", str(pack), "--json") == 0

    assert json.loads(capsys.readouterr().out)["files"] == [str(pack)]
    assert pack.read_bytes().startswith(b"%PDF-")


def test_a_day_that_is_none_is_refused(j02, capsys):
    assert run_cli(["gates", j02, "--on", "soon"], open_window=lambda _: 0) == 2
    assert "is not a date" in " ".join(capsys.readouterr().err.split())
