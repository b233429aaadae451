"""Norms against hours and plans against sheets, as a list for a spreadsheet."""

from collections.abc import Iterable

from roofmodel.drawings.lists.take_off_list import ENCODING
from roofmodel.drawings.paper.heading import LIST_ENDING, Heading
from roofmodel.foundation import csv_text

__all__ = ["ENCODING", "HEADINGS", "text"]

HEADINGS = ("Method", "Code", "Task or material", "Estimated", "Actual", "Unit", "Factor")


def text(heading: Heading, method: str, rows: Iterable[tuple[str, ...]]) -> str:
    """Return the list as comma-separated text; a row is all from the code on."""
    lines = ((method, *row, *heading.list_ending) for row in rows)
    return csv_text.text([(*HEADINGS, *LIST_ENDING), *lines])
