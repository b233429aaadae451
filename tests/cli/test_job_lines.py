"""The commands that give a job lines of its own, as an estimator types them."""

import json
import shutil

import pytest

from roofmodel.cli import main
from roofmodel.foundation import resources
from roofmodel.storage import job_file


@pytest.fixture
def job(tmp_path):
    path = tmp_path / "a.roofjob.json"
    shutil.copyfile(resources.sample_roofs() / "lean-to.roofjob.json", path)
    return path


def run(*words):
    return main.run(["lines", *map(str, words)], open_window=lambda _: 0)


def listed(job, capsys):
    capsys.readouterr()
    assert run("list", job, "--json") == 0
    return json.loads(capsys.readouterr().out)


def test_every_kind_of_line_is_kept_in_the_job_file(job, capsys):
    assert run("extra", job, "Move the aerial", "--rate", "£1,084.50", "--hours", "2") == 0
    assert run("choose", job, "CAV-TRY", "--quantity", "4") == 0
    assert run("override", job, "TIL-ST", "--quantity", "9", "--because", "broken packs") == 0
    assert run("instead", job, "FLS-LEAD4", "FLS-ALT", "--method", "build-round") == 0
    assert run("sum", job, "Drain, if it is found", "--gbp", "350") == 0
    assert run("discount", job, "5%", "--because", "spring") == 0
    assert run("contingency", job, "4") == 0
    assert run("boards-cut", job, "workshop") == 0
    found = listed(job, capsys)

    assert [line["kind"] for line in found["lines"]] == [
        "extra", "chosen", "override", "alternative", "provisional sum",
    ]  # fmt: skip
    assert found["lines"][0]["rate_gbp"] == "1084.50"
    assert found["lines"][3]["methods"] == ["build-round"]
    assert (found["discount_percent"], found["contingency_percent"]) == ("5", "4")
    assert job_file.read(job).estimate.discount_reason == "spring"
    assert job_file.read(job).estimate.boards_cut == "workshop"


def test_a_line_is_taken_away_by_its_number(job, capsys):
    run("choose", job, "CAV-TRY", "--quantity", "4")
    assert run("remove", job, "1") == 0

    assert listed(job, capsys)["lines"] == []


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("override", "TIL-ST", "--quantity", "9"), "without a reason"),
        (("extra", "Aerial", "--rate", "eighty"), "not an amount"),
        (("extra", "Aerial", "--rate", "-80"), "out of range"),
        (("remove", "3"), "There is no line 3"),
    ],
)
def test_what_cannot_be_a_line_is_refused_and_the_file_is_as_before(job, capsys, words, said):
    before = job.read_bytes()
    name, *rest = words

    assert run(name, job, *rest) == 2
    assert said in " ".join(capsys.readouterr().err.replace("│", " ").split())
    assert job.read_bytes() == before


def test_the_method_s_old_name_still_opens_with_a_note(job, capsys):
    old = job.read_text(encoding="utf-8").replace('"build-round"', '"kept-bars"')
    job.write_text(old, encoding="utf-8")

    assert run("choose", job, "CAV-TRY", "--quantity", "4", "--method", "kept-bars") == 0
    assert "“kept-bars” is called build-round now" in capsys.readouterr().out
    assert "kept-bars" not in job.read_text(encoding="utf-8")
