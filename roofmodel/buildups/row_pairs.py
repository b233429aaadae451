"""Rows of a catalogue that cannot stand beside one another."""

from collections import Counter
from collections.abc import Sequence
from typing import Any

from roofmodel.buildups import catalogue_words
from roofmodel.buildups.catalogue_words import RowFault


def twice(codes: Sequence[str]) -> list[RowFault]:
    """Return a fault for every code that stands in more than one row, naming the rows."""
    counted = Counter(code for code in codes if code != "without a code")
    found = []
    for code, count in counted.items():
        if count > 1:
            places = [number for number, one in enumerate(codes, start=1) if one == code]
            text = f"{code} is in rows {' and '.join(map(str, places))}."
            found.append(
                RowFault(places[-1], code, "code", text, "Give each material its own code.")
            )
    return found


def shared_marks(raw: Sequence[dict[str, Any]]) -> list[RowFault]:
    """Return the rows whose pieces would be marked like those of another material."""
    found = []
    first: dict[str, str] = {}
    for number, row in enumerate(raw, start=1):
        code, short = catalogue_words.code_of(row), row.get("short")
        other = first.setdefault(str(short), code)
        if short and other != code:
            text = f"“{short}” already marks the pieces of {other}."
            found.append(RowFault(number, code, "short", text, "Give it its own short name."))
    return found
