"""What no job file may hold, whatever its fields mean: too deep, too many, too long, unwritable.

These limits stand here and nowhere else. They are far above any roof: a file that reaches one is
damaged, or no job file. What passes this door can be written again, so it can always be saved.
"""

import re
from collections.abc import Iterator
from typing import Any

from roofmodel.survey.taped.findings import Finding, Severity

MOST_BYTES = 4_000_000
"""A job of a hall with thousands of readings takes under a tenth of it."""

MOST_DEPTH = 12
"""Groups and lists within one another; a job has seven."""

MOST_DIGITS = 15
"""Digits of a whole number: what a floating-point number holds exactly."""

MOST_ENTRIES = 2_000
"""Entries of one list or fields of one group."""

MOST_VALUES = 100_000
"""Values in the whole file."""

MOST_LETTERS = 20_000
"""Letters of one text."""

_SAFE_DEPTH = 200  # what Python's reader takes without running out of stack
_TOKEN = re.compile(r'"(?:[^"\\]|\\.)*"|[\[\]{}\n]')


class TooManyDigits(str):
    """A whole number of more digits than are taken: kept as text until its field is known."""

    __slots__ = ()


def whole(digits: str) -> int | TooManyDigits:
    """Return a whole number as read, or its text where it has too many digits."""
    return int(digits) if len(digits.lstrip("-")) <= MOST_DIGITS else TooManyDigits(digits)


def size_fault(size_bytes: int) -> Finding | None:
    """Return what is wrong with a file of this size."""
    if size_bytes <= MOST_BYTES:
        return None
    return _stop(
        "file",
        f"The file has {size_bytes / 1e6:.1f} MB; a job file has at most {MOST_BYTES / 1e6:g} MB.",
        "Open another file; this one is damaged, or not a job.",
    )


def nesting_fault(text: str) -> Finding | None:
    """Return where brackets stand so deep within one another that reading them is not safe."""
    depth, line = 0, 1
    for token in _TOKEN.finditer(text):
        match token.group()[0]:
            case "\n":
                line += 1
            case "{" | "[":
                depth += 1
            case "}" | "]":
                depth -= 1
        if depth > _SAFE_DEPTH:
            return _too_deep(f"line {line}")
    return None


def content_fault(data: dict[str, Any]) -> Finding | None:
    """Return the first value that no job holds or that could not be saved, with its path."""
    for count, (path, depth, value) in enumerate(_walk("", 1, data)):
        if count >= MOST_VALUES:
            return _stop(
                "file",
                f"The file holds more than {MOST_VALUES} values.",
                "Open another file; this one is damaged, or not a job.",
            )
        fault = _too_deep(path) if depth > MOST_DEPTH else _value_fault(path or "file", value)
        if fault is not None:
            return fault
    return None


def _walk(path: str, depth: int, value: object) -> Iterator[tuple[str, int, object]]:
    yield path, depth, value
    if depth > MOST_DEPTH:
        return
    if isinstance(value, dict):
        for key, inner in value.items():
            yield path, depth, key
            yield from _walk(f"{path}.{key}" if path else key, depth + 1, inner)
    elif isinstance(value, list):
        for i, inner in enumerate(value):
            yield from _walk(f"{path}.{i}" if path else str(i), depth + 1, inner)


def _value_fault(path: str, value: object) -> Finding | None:
    if isinstance(value, TooManyDigits):
        text = f"A number of {len(value)} digits is not possible for a roof."
        return _stop(path, text, f"Enter one of at most {MOST_DIGITS} digits.")
    if isinstance(value, str):
        return _text_fault(path, value)
    if isinstance(value, dict | list) and len(value) > MOST_ENTRIES:
        text = f"{len(value)} entries are listed here; at most {MOST_ENTRIES} are accepted."
        return _stop(path, text, "Remove what does not belong to the job.")
    return None


def _text_fault(path: str, value: str) -> Finding | None:
    if len(value) > MOST_LETTERS:
        text = f"This text has {len(value)} characters; at most {MOST_LETTERS} are accepted."
        return _stop(path, text, "Shorten it.")
    if any("\ud800" <= letter <= "\udfff" for letter in value):
        # Half of a pair of code units: it can be escaped in a file and never be written again.
        readable = path.encode("utf-8", "replace").decode("utf-8")
        return _stop(readable, "A character of this text is damaged.", "Type the text again.")
    return None


def _too_deep(where: str) -> Finding:
    return _stop(
        where,
        f"More than {MOST_DEPTH} groups and lists are nested in one another.",
        "Open another file; this one is damaged, or not a job.",
    )


def _stop(field: str, text: str, remedy: str) -> Finding:
    return Finding(field, Severity.STOP, text, remedy)
