"""Norms against hours and plans against sheets, as a list for a spreadsheet."""

import csv
import io
from collections.abc import Iterable

from roofmodel.drawings.lists.take_off_list import ENCODING
from roofmodel.drawings.paper.heading import Heading

__all__ = ["ENCODING", "HEADINGS", "text"]

HEADINGS = ("Job", "Method", "Code", "Task or material", "Reckoned", "Took", "Unit", "Factor")


def text(heading: Heading, method: str, rows: Iterable[tuple[str, ...]]) -> str:
    """Return the list as comma-separated text; a row is all from the code on."""
    written = io.StringIO(newline="")
    writer = csv.writer(written)
    writer.writerow(HEADINGS)
    for row in rows:
        writer.writerow((f"{heading.job_code}-{heading.revision}", method, *row))
    return written.getvalue()
