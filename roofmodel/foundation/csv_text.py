"""Comma-separated text that a spreadsheet shows and never runs.

A spreadsheet takes an entry that begins with one of a few signs for a formula, whoever typed it: a
customer's name, a material, a note. An apostrophe before it makes it text; numbers stay numbers.
"""

import csv
import io
import re
from collections.abc import Iterable, Sequence

_RUNS = ("=", "+", "-", "@", "\t", "\r")
_NUMBER = re.compile(r"[+-]?\d+(\.\d+)?(e[+-]?\d+)?", re.IGNORECASE)


def harmless(entry: object) -> object:
    """Return an entry as it may stand in a list: text that would be run gets an apostrophe.

    Examples
    --------
    >>> harmless("=1+1"), harmless("-12.5"), harmless("- left side"), harmless(-3.0)
    ("'=1+1", '-12.5', "'- left side", -3.0)
    """
    return f"'{entry}" if isinstance(entry, str) and _would_run(entry) else entry


def as_typed(entry: str) -> str:
    """Return what `harmless` was given, so that a list can be read back."""
    return entry[1:] if entry.startswith("'") and _would_run(entry) else entry


def _would_run(entry: str) -> bool:
    # Apostrophes somebody typed before a sign count too, or they would be lost on the way back.
    bare = entry.lstrip("'")
    return bare.startswith(_RUNS) and not _NUMBER.fullmatch(bare)


def text(rows: Iterable[Sequence[object]]) -> str:
    """Return rows as comma-separated text (RFC 4180); None is an empty entry."""
    written = io.StringIO(newline="")
    writer = csv.writer(written)
    for row in rows:
        writer.writerow(["" if entry is None else harmless(entry) for entry in row])
    return written.getvalue()
