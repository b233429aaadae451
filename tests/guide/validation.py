"""The page of what the program was held against, made from a run of tests/worked_examples."""

import inspect
import os
from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path

import pytest

CHECKOUT = Path(__file__).resolve().parents[2]

HEAD = """# What the program was checked against

Every line below is a check against something outside the program: a published table, an example
worked by hand, a rule read in a document. They are run with every change; this page was made by
running them. READ means that one of us saw it in the document, READ-2nd in somebody's summary of
it, MEMORY that nobody has looked it up yet. A check says that the program computes what the source
says; whether the source applies to your roof is for you and your engineer.
"""


@dataclass
class Gate:
    """One test of the worked examples: what holds, against what, and in how many cases."""

    name: str
    source: str
    outcomes: list[str] = field(default_factory=list)

    @property
    def sentence(self) -> str:
        """The test's name as it is meant to be read."""
        words = self.name.removeprefix("test_").replace("_", " ")
        return words[:1].upper() + words[1:]

    @property
    def held(self) -> str:
        """Whether all cases hold; what was left out says so."""
        held = self.outcomes.count("passed")
        if held == len(self.outcomes):
            return "yes"
        left_out = self.outcomes.count("skipped")
        if held + left_out == len(self.outcomes):
            return "left out: its library is not here" if not held else f"yes, {left_out} left out"
        return "NO"


@dataclass
class Example:
    """One file of worked examples: what it is about, and its checks."""

    words: str
    checks: dict[str, Gate] = field(default_factory=dict)


class Collector:
    """Listens to pytest: what each test says of itself, and how it ended."""

    def __init__(self) -> None:
        """Begin with nothing heard."""
        self.examples: dict[str, Example] = {}

    def pytest_collection_modifyitems(self, items: Iterable[pytest.Function]) -> None:
        """Keep what a file and its tests say of themselves."""
        for item in items:
            words = inspect.getdoc(item.module) or item.module.__name__
            example = self.examples.setdefault(item.nodeid.partition("::")[0], Example(words))
            source = " ".join((inspect.getdoc(item.function) or "").split())
            example.checks.setdefault(item.originalname, Gate(item.originalname, source))

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """Keep how a test ended."""
        if report.when == "call" or report.outcome == "skipped":
            file, _, rest = report.nodeid.partition("::")
            name = rest.partition("[")[0].rpartition("::")[2]
            self.examples[file].checks[name].outcomes.append(report.outcome)


def text(examples: Iterable[Example]) -> str:
    """Return the page."""
    parts = [HEAD]
    for example in examples:
        heading, _, rest = example.words.partition("\n")
        parts.append(f"## {heading.rstrip('.')}\n")
        if rest.strip():
            parts.append(rest.strip() + "\n")
        rows = ["| what holds | source, where not said above | cases | held |", "|---|---|---|---|"]
        for one in example.checks.values():
            cells = (one.sentence, one.source, str(len(one.outcomes)), one.held)
            rows.append("| " + " | ".join(cell.replace("|", "/") for cell in cells) + " |")
        parts.append("\n".join(rows) + "\n")
    return "\n".join(parts)


def page() -> str:
    """Return the page, made by running the worked examples."""
    heard = Collector()
    before = Path.cwd()
    os.chdir(CHECKOUT)
    try:
        pytest.main(["-q", "-p", "no:randomly", "tests/worked_examples"], plugins=[heard])
    finally:
        os.chdir(before)
    return text(heard.examples.values())
