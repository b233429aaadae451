"""Says in trade words what is wrong with a row of a catalogue, and what to do about it."""

import difflib
import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, fields

from pydantic_core import ErrorDetails

from roofmodel.buildups.material import (
    Charge,
    Material,
    Pack,
    Price,
    SheetForm,
    StockSize,
    WasteMode,
)
from roofmodel.foundation.errors import DimensionError, ResourceError
from roofmodel.foundation.source import Source

MOST_TOLD = 40
"""More faults than this are counted: nobody reads them, and a terminal scrolls them away."""

type Place = tuple[str | int, ...]
type Words = tuple[str, str, str]


@dataclass(frozen=True, slots=True)
class RowFault:
    """One wrong field: row (from 1; 0 is the head of the file), code of the row, column."""

    row: int
    code: str
    column: str
    text: str
    remedy: str

    def __str__(self) -> str:
        """Return the fault as one line."""
        code = f" ({self.code})" if self.code else ""
        where = f"Row {self.row}{code}" if self.row else "Head of the file"
        return f"{where}, {self.column}: {self.text} {self.remedy}"


class CatalogueFileError(ResourceError):
    """A catalogue or price list that cannot stand; holds every `RowFault` found."""

    def __init__(self, name: str, faults: Sequence[RowFault]) -> None:
        told = [str(fault) for fault in faults[:MOST_TOLD]]
        if len(faults) > MOST_TOLD:
            told.append(f"… and {len(faults) - MOST_TOLD} more. Nothing was changed.")
        super().__init__("\n".join([f"{name} cannot be used yet:", *told]))
        self.faults = tuple(faults)


def code_of(row: object) -> str:
    """Return the code of a row as the file has it; words where it has none."""
    code = row.get("code") if isinstance(row, Mapping) else None
    return code if isinstance(code, str) and code else "without a code"


def of_reader(error: ErrorDetails, place: Place) -> list[Words]:
    """Return column, text and remedy of the faults behind one complaint of the reader."""
    cause = error.get("ctx", {}).get("error")
    if isinstance(cause, DimensionError):
        return [(column(place, one.field), one.text, one.remedy) for one in cause.faults]
    return [(column(place), *_words(error, place))]


def column(place: Place, field: str = "") -> str:
    """Return the path of a field, list entries counted from 1."""
    parts = [str(part + 1) if isinstance(part, int) else part for part in place]
    if field and parts and field.startswith(f"{parts[-1]}."):
        parts.pop()
    return ".".join([*parts, *([field] if field else [])]) or "row"


def did_you_mean(word: str, known: Iterable[str], otherwise: str) -> str:
    """Return a question with the nearest known word, or another remedy."""
    near = difflib.get_close_matches(word, list(known), n=1)
    return f"Did you mean “{near[0]}”?" if near else otherwise


def not_a_number(value: object) -> tuple[str, str]:
    """Return what is wrong with a value that should be a number, and what may be meant."""
    shown = f"“{value}”" if isinstance(value, str) else f"{value}".lower()
    meant = as_number(value) if isinstance(value, str) else None
    if meant is None:
        return f"{shown} is not a number.", "Enter figures, for example 12.5."
    if isinstance(value, str) and "," in value:
        return f"{shown} has a decimal comma.", f"Did you mean {meant}? Write it with a point."
    return f"{shown} is written as text, not as a number.", f"Did you mean {meant}? Leave out “ ”."


def as_number(text: str) -> str | None:
    """Return the number a text most likely means, written with a point; None for none."""
    bare = text.strip().lstrip("£").strip()
    # 1,234.50 and 1.234,50: the mark that comes last is the decimal one.
    if "," in bare and "." in bare:
        thousands = "," if bare.rfind(",") < bare.rfind(".") else "."
        bare = bare.replace(thousands, "")
    bare = bare.replace(",", ".")
    try:
        number = float(bare)
    except ValueError:
        return None
    return bare if math.isfinite(number) else None


def _words(error: ErrorDetails, place: Place) -> tuple[str, str]:
    kind, value = error["type"], error["input"]
    name = str(place[-1]) if place else "row"
    words = _KINDS.get(kind, (f"“{value}” does not belong here.", "Correct the value."))
    if kind == "missing":
        words = "This field is missing.", _needed(name)
    elif kind in {"unexpected_keyword_argument", "extra_forbidden"}:
        remedy = did_you_mean(name, _known(place[:-1]), "Remove it, or check how it is spelt.")
        words = f"“{name}” is not a column of the catalogue.", remedy
    elif kind in {"enum", "literal_error"}:
        words = _choice(value, error)
    elif kind.startswith(("float", "decimal", "int", "finite")):
        words = not_a_number(value)
    elif kind.startswith("date"):
        remedy = "Write it as year-month-day, for example 2026-11-25."
        words = f"“{value}” is not a date.", remedy
    return words


def _choice(value: object, error: ErrorDetails) -> tuple[str, str]:
    known = [
        part.strip("' ")
        for part in str(error.get("ctx", {}).get("expected", "")).replace(" or ", ", ").split(",")
    ]
    near = difflib.get_close_matches(str(value), known, n=1)
    hint = f"Did you mean “{near[0]}”? " if near else ""
    return f"“{value}” is not known here.", f"{hint}Choose one of {', '.join(known)}."


def _needed(name: str) -> str:
    choices: dict[str, type[Charge] | type[WasteMode]] = {"charge": Charge, "waste": WasteMode}
    if name in choices:
        return f"Add “{name}”: one of {', '.join(one.value for one in choices[name])}."
    if name == "source":
        return "Add “source”: the document the row was taken from, and the place in it."
    return f"Add “{name}”."


def _known(place: Place) -> list[str]:
    """Return the columns that may stand where an unknown one was found."""
    names = [part for part in place if isinstance(part, str)]
    owner = _OWNERS.get(names[-1], Material) if names else Material
    return [field.name for field in fields(owner)]


_OWNERS: Mapping[str, type[Pack | Price | SheetForm | StockSize | Source]] = {
    "pack": Pack,
    "price": Price,
    "sheet": SheetForm,
    "sizes": StockSize,
    "source": Source,
    "gap_source": Source,
}
_KINDS = {
    "string_type": ("This must be text.", "Put the value in quotes."),
    "tuple_type": ("This must be a list.", "Put the entries in square brackets."),
    "bool_type": ("This must be true or false.", "Write true or false without quotes."),
    "bool_parsing": ("This must be true or false.", "Write true or false without quotes."),
    "dataclass_type": ("This must be a group of fields.", "Put the fields in curly brackets."),
}
