"""Measured figures stand on one page, which the benchmarks write section by section."""

import re
from pathlib import Path

from tests.benchmarks import page
from tests.benchmarks.page import Section

CHECKOUT = Path(__file__).resolve().parents[2]


def test_a_section_measured_anew_takes_the_place_of_the_old_one(tmp_path):
    file = tmp_path / "docs" / "measured.md"
    for title, figure in (("Starting", 3), ("Papers", 5), ("Starting", 2)):
        section = Section(title, "How it is measured.")
        section.table("what", "s")
        section.say("all", figure)
        page.put(section, file)

    text = file.read_text(encoding="utf-8")
    assert list(page.sections(text)) == ["Starting", "Papers"]
    assert "| all | 2 |" in text
    assert "| all | 3 |" not in text
    assert "| all | 5 |" in text


def test_every_section_says_when_and_on_what_it_was_measured():
    sections = page.sections(page.FILE.read_text(encoding="utf-8"))

    assert "Starting" in sections
    dated = re.compile(r"^Measured \d{1,2} \w+ 20\d\d on .*cores", re.MULTILINE)
    assert [title for title, text in sections.items() if not dated.search(text)] == []


def test_the_guide_for_contributors_holds_no_measured_time():
    text = (CHECKOUT / "DEVELOPERS.md").read_text(encoding="utf-8")

    assert re.findall(r"\d(?: ms| MB|\.\d s)\b", text) == []
