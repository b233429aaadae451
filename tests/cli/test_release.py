"""A job is released by name and day, exactly as it is entered; anything else is refused."""

import json

import pytest

from roofmodel.cli import main
from roofmodel.foundation import resources
from roofmodel.storage import job_file


@pytest.fixture
def path(tmp_path):
    """The sample with twelve readings, which every gate that binds lets pass."""
    found = tmp_path / f"S14{job_file.SUFFIX}"
    sample = resources.sample_roofs() / f"surveyed-lean-to{job_file.SUFFIX}"
    found.write_bytes(sample.read_bytes())
    return found


def run(*words):
    return main.run([str(word) for word in words], open_window=lambda path: 0)


def test_a_release_is_written_into_the_job_with_what_it_holds_for(path, capsys):
    assert run("release", path, "--by", "invented surveyor", "--json") == 0
    told = json.loads(capsys.readouterr().out)
    given = job_file.read(path).released

    assert given.by == "invented surveyor"
    assert told["content"] == given.content
    assert told["status"] == "FOR CUTTING"


@pytest.mark.parametrize(
    ("more", "words"),
    [
        (["--by", " "], "nobody's name"),
        (["--by", "invented surveyor", "--on", "2099-01-01"], "cannot have been released"),
    ],
)
def test_a_release_that_holds_for_nothing_is_not_written(path, capsys, more, words):
    before = path.read_bytes()

    assert run("release", path, *more) == 2
    assert words in " ".join(capsys.readouterr().out.split())
    assert path.read_bytes() == before


def told(capsys, *words):
    assert run(*words, "--json") == 0
    return json.loads(capsys.readouterr().out)


def test_check_facts_and_papers_say_the_same_of_what_may_be_cut(path, tmp_path, capsys):
    def status(*words):
        found = told(capsys, *words)
        cutting = found.get("cutting", found)
        return cutting["status"], cutting["reasons"]

    papers = ("papers", path, "--out", tmp_path / "papers", "--effort", "quick")
    before = status("check", path)
    assert before[0] == "NOT FOR CUTTING"
    assert before == status("facts", path) == status(*papers)

    run("release", path, "--by", "invented surveyor")
    capsys.readouterr()
    assert status("check", path) == status("facts", path) == ("FOR CUTTING", [])
