"""The page of measured figures, docs/measured.md: one section for each kind of measurement.

A run replaces the sections it has measured, each with the day and the machine, and leaves the
others as they were. Nobody types a figure into the page.
"""

import os
import platform
import re
import sys
from datetime import UTC, datetime
from pathlib import Path

FILE = Path(__file__).resolve().parents[2] / "docs" / "measured.md"

HEAD = """# Measured

Written by `./run benchmarks`, section by section; `./run benchmarks --help` says how to measure
some alone. Every section says when and on what it was measured. No test looks at these figures,
and a busy machine makes them larger.
"""

_SECTION = re.compile(r"^## ", re.MULTILINE)


def machine() -> str:
    """Return what the figures are measured on."""
    system = f"{platform.system()} {platform.machine()}"
    return f"{system}, {os.cpu_count()} cores, Python {platform.python_version()}"


class Section:
    """One section while it is being measured: every row is shown at once, and kept."""

    def __init__(self, title: str, words: str) -> None:
        """Begin with what is measured and how."""
        self.title = title
        self._text = [words, f"Measured {datetime.now(tz=UTC):%d %B %Y} on {machine()}."]
        self._rows: list[str] = []

    def say(self, *cells: object) -> None:
        """Print one row of a table; without cells an empty line, which ends a table."""
        line = f"| {' | '.join(str(cell) for cell in cells)} |" if cells else ""
        sys.stdout.write(f"{line}\n")
        self._rows.append(line)

    def table(self, *headings: str) -> None:
        """Print the head of a table."""
        self.say()
        self.say(*headings)
        self.say(*("---" for _ in headings))

    @property
    def text(self) -> str:
        """The section as it stands on the page."""
        rows = "\n".join(self._rows).strip("\n")
        return f"## {self.title}\n" + "\n\n".join([*self._text, rows]) + "\n"


def sections(text: str) -> dict[str, str]:
    """Return the sections of a page by their titles, in their order."""
    parts = _SECTION.split(text)[1:]
    return {part.partition("\n")[0]: f"## {part}" for part in parts}


def with_section(text: str, section: Section) -> str:
    """Return a page with one section put in its place, or at the end."""
    known = sections(text)
    known[section.title] = section.text
    return "\n".join([HEAD, *(one.rstrip("\n") + "\n" for one in known.values())])


def put(section: Section, file: Path = FILE) -> None:
    """Write a section into the page."""
    text = file.read_text(encoding="utf-8") if file.exists() else ""
    file.parent.mkdir(exist_ok=True)
    file.write_text(with_section(text, section), encoding="utf-8")
