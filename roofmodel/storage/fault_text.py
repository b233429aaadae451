"""Turns what the reader of the file complains of into trade words, with a remedy."""

import difflib
import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import fields, is_dataclass
from typing import Any, get_args

from pydantic_core import ErrorDetails

from roofmodel.buildups.board_choice import BoardChoice
from roofmodel.foundation.errors import DimensionError
from roofmodel.storage.job import Job
from roofmodel.survey.taped.findings import Finding, Severity, stops
from roofmodel.survey.taped.survey import RoofSurvey

SHAPES = {survey.__dataclass_fields__["shape"].default: survey for survey in get_args(RoofSurvey)}
"""Survey class by the word the file names its shape with."""


def findings(errors: Sequence[ErrorDetails]) -> list[Finding]:
    """Return one finding for every fault in a job file, in the file's order."""
    return [finding for error in errors for finding in _findings(error)]


def _findings(error: ErrorDetails) -> list[Finding]:
    path = _path(error["loc"])
    cause = error.get("ctx", {}).get("error")
    if isinstance(cause, DimensionError):
        return stops(cause.faults, under=path)
    text, remedy = _words(error)
    if error["type"].startswith("union_tag"):
        path += ".shape"
    return [Finding(path or "file", Severity.STOP, text, remedy)]


def _path(loc: Sequence[int | str]) -> str:
    """Return the path as the file has it: the reader adds the shape's name after `survey`."""
    parts = [
        str(part)
        for i, part in enumerate(loc)
        if not (part in SHAPES and i > 0 and loc[i - 1] == "survey")
    ]
    return ".".join(parts)


def _words(error: ErrorDetails) -> tuple[str, str]:
    """Return what is wrong and what to do, by the kind of complaint."""
    kind = error["type"]
    for kinds, words in _WORDS.items():
        if kind in kinds:
            return words(error)
    shown = _shown(error["input"])
    return _TYPE_WORDS.get(kind, (f"{shown} does not belong here.", "Correct the value."))


def _name(error: ErrorDetails) -> str:
    return str(error["loc"][-1]) if error["loc"] else ""


def _missing_words(error: ErrorDetails) -> tuple[str, str]:
    return "This field is missing.", f"Add “{_name(error)}”."


def _unknown_words(error: ErrorDetails) -> tuple[str, str]:
    name = _name(error)
    near = difflib.get_close_matches(name, _known_fields(error["loc"]), n=1)
    remedy = f"Did you mean “{near[0]}”?" if near else "Remove it, or check the spelling."
    return f"“{name}” is not a field of a job.", remedy


def _number_words(error: ErrorDetails) -> tuple[str, str]:
    kind, value = error["type"], error["input"]
    shown = _shown(value)
    meant = _as_number(value) if isinstance(value, str) else None
    if meant is not None:
        text = f"{shown} is written as text, not as a number."
        return text, f"Did you mean {meant:g}? Enter it without quotes and with a decimal point."
    if kind in {"int_type", "int_from_float", "int_parsing"}:
        return f"{shown} is not a whole number.", "Enter a whole number."
    return f"{shown} is not a number.", "Enter the measured value in figures, for example 15.0."


def _as_number(text: str) -> float | None:
    try:
        number = float(text.strip().replace(",", "."))
    except ValueError:
        return None
    return number if math.isfinite(number) else None


def _shape_words(error: ErrorDetails) -> tuple[str, str]:
    value = error["input"]
    given = value.get("shape") if isinstance(value, Mapping) else None
    known = ", ".join(SHAPES)
    if given is None:
        return "The shape is missing.", f"Add “shape”: one of {known}."
    near = difflib.get_close_matches(str(given), SHAPES, n=1)
    hint = f"Did you mean {near[0]}? " if near else ""
    return f"{_shown(given)} is not a shape.", f"{hint}Choose one of {known}."


def _pattern_words(error: ErrorDetails) -> tuple[str, str]:
    shown = _shown(error["input"])
    if _name(error) == "revision":
        return f"{shown} is not a revision.", "Use one or two capital letters, such as A."
    text = f"{shown} cannot be a job code."
    return text, "Use up to 16 letters, digits and hyphens, without spaces."


def _known_fields(loc: Sequence[int | str]) -> list[str]:
    """Return the fields that may stand where an unknown one was found."""
    owner: Any = Job
    if loc[0] == "boards" and len(loc) > 1:
        owner = BoardChoice
    elif loc[0] == "survey" and len(loc) > 1:
        owner = SHAPES.get(loc[1])
    if owner is None or not is_dataclass(owner):
        return []
    return [field.name for field in fields(owner)]


def _shown(value: object) -> str:
    text = f"“{value}”" if isinstance(value, str) else f"{value}"
    return text if len(text) <= 60 else text[:57] + "…"


_WORDS: Mapping[tuple[str, ...], Callable[[ErrorDetails], tuple[str, str]]] = {
    ("missing",): _missing_words,
    ("extra_forbidden", "unexpected_keyword_argument"): _unknown_words,
    ("union_tag_invalid", "union_tag_not_found"): _shape_words,
    ("string_pattern_mismatch",): _pattern_words,
    (
        "float_type",
        "float_parsing",
        "finite_number",
        "int_type",
        "int_parsing",
        "int_from_float",
    ): _number_words,
}
_TYPE_WORDS = {
    "string_type": ("This must be text.", "Put the value in quotes."),
    "string_too_long": ("The text is too long.", "Shorten it."),
    "tuple_type": ("This must be a list.", "Put the entries in square brackets."),
    "dataclass_type": ("This must be a group of fields.", "Put the fields in curly brackets."),
    "dict_type": ("This must be a group of fields.", "Put the fields in curly brackets."),
}
