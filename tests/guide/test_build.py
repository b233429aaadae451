"""The user's guide is true: its commands run, its pictures are made, its links lead somewhere."""

import re
import shutil
from pathlib import Path

import pytest

from roofmodel.cli import commands as command_table
from tests.guide import build, validation
from tests.guide.validation import Example, Gate

CHECKOUT = Path(__file__).resolve().parents[2]
PICTURE = CHECKOUT / "resources" / "pictures" / "three-facet-end.png"


@pytest.fixture
def own_folders(monkeypatch, tmp_path):
    """Keep the firm's and the rack's folders out of the guide's commands."""
    for name in ("ROOFMODEL_RACK", "ROOFMODEL_FIRM"):
        monkeypatch.setenv(name, str(tmp_path / "own"))


def made(pages, out):
    return list(build.build(pages, out, draw_window=lambda to: shutil.copyfile(PICTURE, to)))


def test_every_command_of_the_guide_runs_and_every_picture_is_made(own_folders, tmp_path):
    files = made(build.texts(), tmp_path / "guide")

    pages = {file.stem: file.read_text(encoding="utf-8") for file in files}
    assert {"index", "roof", "survey", "cutting", "offer", "window", "measured"} <= pages.keys()
    for text in pages.values():
        for name in re.findall(r'<img src="([^"]+)"', text):
            assert (tmp_path / "guide" / name).read_bytes().startswith(b"\x89PNG")
        for name in re.findall(r'href="([^"#:]+)"', text):
            assert name == "validation.html" or (tmp_path / "guide" / name).is_file()
    assert "12.743" in pages["roof"], "what facts prints stands below it"


def test_a_command_that_fails_stops_the_guide(own_folders, tmp_path):
    page = "# Wrong\n\n```sh\n./run check no-such-file.roofjob.json\n```\n"

    with pytest.raises(build.GuideError, match=r"index: \./run check .* ended with 2"):
        made({"index": page}, tmp_path)


def test_a_picture_that_no_command_wrote_stops_the_guide(own_folders, tmp_path):
    with pytest.raises(build.GuideError, match=r"no command has written the picture roof\.png"):
        made({"index": "# Wrong\n\n![The roof](roof.png)\n"}, tmp_path)


def test_the_guide_names_only_commands_there_are():
    known = {entry.name for entry in command_table.ENTRIES}
    named = {
        found for page in build.texts().values() for found in re.findall(r"\./run ([a-z]+)", page)
    }

    assert named - known - {"benchmarks", "guide", "tests"} == set()


def test_the_validation_page_says_what_was_held_against_what():
    example = Example(
        "Loads against a table.\n\nSeen in print.",
        {
            "test_snow_is_as_printed": Gate(
                "test_snow_is_as_printed", "READ: table 3", ["passed", "passed"]
            ),
            "test_air_is_as_printed": Gate("test_air_is_as_printed", "", ["skipped"]),
            "test_wind_is_as_printed": Gate("test_wind_is_as_printed", "", ["failed"]),
        },
    )
    text = validation.text([example])

    assert "## Loads against a table\n\nSeen in print." in text
    assert "| Snow is as printed | READ: table 3 | 2 | yes |" in text
    assert "| Air is as printed |  | 1 | left out: its library is not here |" in text
    assert "| Wind is as printed |  | 1 | NO |" in text


def test_every_worked_example_says_what_it_is_held_against():
    files = sorted((CHECKOUT / "tests" / "worked_examples").glob("test_*.py"))

    assert len(files) > 10
    assert [file.name for file in files if file.read_text(encoding="utf-8")[:3] != '"""'] == []
