"""Hours and sheets of a finished job held against norms and plans."""

import json

import pytest

from roofmodel.cli.main import run as run_cli
from roofmodel.storage import job_file
from tests.acceptance_jobs import JOBS


@pytest.fixture
def j01(tmp_path):
    path = tmp_path / "J01.roofjob.json"
    path.write_text(json.dumps({"schema_version": 2, "code": "J01", **JOBS["J01"]}))
    return path


def run(*arguments):
    return run_cli([str(one) for one in arguments], open_window=lambda _: 0)


def actuals(capsys, job, *more):
    assert run("actuals", job, "--effort", "quick", "--json", *more) == 0
    return json.loads(capsys.readouterr().out)


def test_hours_are_kept_in_the_job_and_held_against_the_norms(j01, capsys):
    before = actuals(capsys, j01)
    assert before["factor"] is None
    task = before["hours"][0]

    found = actuals(capsys, j01, "--hours", f"{task['code']}={2 * task['reckoned']}")
    assert found["factor"] == pytest.approx(2.0, abs=0.01)
    again = actuals(capsys, j01, "--sheets", "BRD-OSB22=6")
    assert again["factor"] == found["factor"]
    osb = next(one for one in again["sheets"] if one["code"] == "BRD-OSB22")
    assert osb["actual"] == 6
    assert osb["factor"] == pytest.approx(6 / osb["reckoned"], abs=1e-3)


@pytest.mark.parametrize(
    ("option", "words"),
    [
        (("--hours", "dancing=3"), "is not part of this method"),
        (("--hours", "strip"), "is not understood"),
        (("--sheets", "BRD-OSB22=2.5"), "not a whole number"),
    ],
)
def test_what_cannot_be_is_refused_and_nothing_is_saved(j01, capsys, option, words):
    before = j01.read_bytes()
    assert run("actuals", j01, "--effort", "quick", *option) == 2

    assert words in " ".join(capsys.readouterr().err.replace("│", " ").split())
    assert j01.read_bytes() == before


def test_actuals_survive_the_file(j01, capsys):
    actuals(capsys, j01, "--sheets", "BRD-OSB22=6")

    assert job_file.read(j01).actuals.sheets[0].sheets == 6
