"""Reads the rows of a catalogue and says of every fault in which row and column it stands."""

import tomllib
from collections.abc import Callable, Mapping, Sequence
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

from pydantic import ConfigDict, TypeAdapter, ValidationError

from roofmodel.buildups import catalogue_numbers, catalogue_words, row_check, row_pairs
from roofmodel.buildups.catalogue_words import CatalogueFileError, Place, RowFault, Words
from roofmodel.buildups.material import Material
from roofmodel.foundation.errors import ResourceError

Step = Callable[[dict[str, Any]], dict[str, Any]]

SCHEMA = 1
"""Version of the form of a catalogue file."""
STEPS: Mapping[int, Step] = {}
"""``STEPS[n]`` takes the tables of a schema n file and returns those of schema n + 1."""

_ROWS = TypeAdapter(list[Material], config=ConfigDict(extra="forbid"))
_HEAD = {"schema": int, "name": str, "version": int, "valid_from": date}
_SAW, _WIDEST_CUT_MM = "saw_kerf_mm", 15.0
"""Field of the firm's saw, which may be left out, and the widest cut a saw makes."""
_DAYS, LONGEST_DAYS = "price_days", 1000
"""Field of how many days a price is good for, which may be left out, and the most of them."""
_WITHDRAWN, _COPIED = "withdrawn", "copied"


def tables(path: Path) -> dict[str, Any]:
    """Return the tables of a catalogue file.

    Raises
    ------
    ResourceError
        If it is missing or cannot be read; the text names the line.
    """
    try:
        return parsed(path.read_text(encoding="utf-8"), name=path.name)
    except FileNotFoundError as error:
        raise ResourceError(f"The catalogue file {path.name} is missing.") from error
    except UnicodeDecodeError as error:
        told = "Save it as text in UTF-8, or put the version before it back."
        raise ResourceError(f"{path.name} is not a text file. {told}") from error
    except OSError as error:
        raise ResourceError(f"{path.name} cannot be opened: {error.strerror}.") from error


def parsed(text: str, *, name: str) -> dict[str, Any]:
    """Return the tables of a catalogue's text; prices keep every digit they were written with.

    Raises
    ------
    ResourceError
        If the text breaks off or is no TOML; the text names the line.
    """
    try:
        return tomllib.loads(text, parse_float=Decimal)
    except tomllib.TOMLDecodeError as error:
        told = str(error)
        if "end of document" in told:
            told = f"it breaks off in line {text.count('\n') + 1}"
            remedy = "Complete that line, or put the version before it back."
        else:
            remedy = "Correct that line."
        raise ResourceError(f"{name} cannot be read: {told}. {remedy}") from error


def materials(path: Path) -> list[Material]:
    """Return the materials of a file that holds rows only.

    Raises
    ------
    ResourceError
        If it cannot be read, or with every wrong field of every row.
    """
    table = tables(path)
    rows, faults = of_tables(table)
    faults = [*_unknown(table, ("material",)), *faults]
    if faults:
        raise CatalogueFileError(path.name, faults)
    return rows


def whole(table: dict[str, Any], *, name: str) -> tuple[dict[str, Any], list[Material]]:
    """Return head and rows of a whole catalogue.

    Raises
    ------
    ResourceError
        If it is of a newer schema, or with every wrong field of head and rows.
    """
    table = _of_this_schema(table, name=name)
    rows, faults = of_tables(table)
    known = (*_HEAD, _SAW, _DAYS, _WITHDRAWN, _COPIED, "material")
    faults = [
        *_unknown(table, known),
        *_head_faults(table),
        *_saw_faults(table),
        *_own_faults(table),
        *faults,
    ]
    if faults:
        raise CatalogueFileError(name, faults)
    return table, rows


def of_tables(table: Mapping[str, Any]) -> tuple[list[Material], list[RowFault]]:
    """Return the rows, or none and every fault in them."""
    raw = table.get("material", [])
    if not isinstance(raw, list) or not all(isinstance(row, dict) for row in raw):
        text = "“material” is not a list of rows."
        return [], [RowFault(0, "", "material", text, "Head every row with [[material]].")]
    rows: list[Material] = []
    found: list[RowFault] = []
    for number, row in enumerate(raw, start=1):
        made, faults = _row(row)
        rows += made
        code = catalogue_words.code_of(row)
        found += [RowFault(number, code, *fault) for fault in faults]
    found += row_pairs.twice(
        [catalogue_words.code_of(row) for row in raw]
    ) + row_pairs.shared_marks(raw)
    return ([] if found else rows), sorted(found, key=lambda fault: fault.row)


def _row(raw: dict[str, Any]) -> tuple[list[Material], list[Words]]:
    """Return the row, or none and what is wrong with it: column, text and remedy."""
    faults: dict[Place, list[Words]] = {
        place: [words] for place, words in catalogue_numbers.as_texts(raw)
    }
    rows: list[Material] = []
    try:
        rows = _ROWS.validate_python([raw])
    except ValidationError as error:
        for one in error.errors():
            place = one["loc"][1:]
            faults.setdefault(place, catalogue_words.of_reader(one, place))
    found = [fault for some in faults.values() for fault in some]
    found += [
        (fault.field, fault.text, fault.remedy) for row in rows for fault in row_check.faults(row)
    ]
    return rows, found


def each_once(rows: Sequence[Material], *, where: str) -> Sequence[Material]:
    """Return the rows, unless two have one code.

    Raises
    ------
    ResourceError
        Naming every code that stands twice, and in which rows.
    """
    faults = row_pairs.twice([row.code for row in rows])
    if faults:
        raise CatalogueFileError(where, faults)
    return rows


def _of_this_schema(table: dict[str, Any], *, name: str) -> dict[str, Any]:
    found = table.get("schema")
    if not isinstance(found, int) or isinstance(found, bool):
        return table
    if found > SCHEMA:
        raise ResourceError(
            f"{name} was written by a newer version of the program: its schema is {found}, and "
            f"this version reads up to {SCHEMA}. Update the program to open it; the file was left "
            "as it is."
        )
    for number in range(found, SCHEMA):
        if number not in STEPS:
            raise ResourceError(
                f"{name} has schema {found}, which does not exist. Write schema = 1."
            )
        table = {**STEPS[number](table), "schema": number + 1}
    return table


def _saw_faults(table: Mapping[str, Any]) -> list[RowFault]:
    """Return what is wrong with the firm's saw, where it is given."""
    value = table.get(_SAW, 0.0)
    number = isinstance(value, int | float | Decimal) and not isinstance(value, bool)
    if number and 0.0 <= value <= _WIDEST_CUT_MM:
        return []
    text = f"A saw cut of {value} mm is not possible."
    return [RowFault(0, "", _SAW, text, f"Enter 0 to {_WIDEST_CUT_MM:g} mm.")]


def _own_faults(table: Mapping[str, Any]) -> list[RowFault]:
    """Return what is wrong with what only a catalogue of own rows has."""
    days, withdrawn = table.get(_DAYS, 1), table.get(_WITHDRAWN, [])
    copied = table.get(_COPIED, {})
    found = []
    if type(days) is not int or not 1 <= days <= LONGEST_DAYS:
        text = f"A price cannot be good for {days} days."
        found.append(RowFault(0, "", _DAYS, text, f"Enter 1 to {LONGEST_DAYS} whole days."))
    if not isinstance(withdrawn, list) or not all(isinstance(one, str) for one in withdrawn):
        found.append(RowFault(0, "", _WITHDRAWN, "This is not a list of codes.", "Write codes."))
    if not isinstance(copied, dict) or not all(isinstance(x, str) for x in copied.values()):
        found.append(RowFault(0, "", _COPIED, "These are not marks of rows.", "Remove the field."))
    return found


def _head_faults(table: Mapping[str, Any]) -> list[RowFault]:
    found = []
    for field, kind in _HEAD.items():
        value = table.get(field)
        if value is None:
            text, remedy = "This field is missing.", f"Add “{field}”, as {_EXAMPLES[field]}."
        elif type(value) is not kind or (isinstance(value, int) and value < 1):
            text, remedy = f"“{value}” does not belong here.", f"Write it as {_EXAMPLES[field]}."
        else:
            continue
        found.append(RowFault(0, "", field, text, remedy))
    return found


def _unknown(table: Mapping[str, Any], known: Sequence[str]) -> list[RowFault]:
    return [
        RowFault(
            0,
            "",
            field,
            f"“{field}” does not belong in a catalogue.",
            catalogue_words.did_you_mean(field, known, "Remove it, or check how it is spelt."),
        )
        for field in table
        if field not in known
    ]


_EXAMPLES = {
    "schema": f"schema = {SCHEMA}",
    "name": 'name = "Own catalogue"',
    "version": "version = 1",
    "valid_from": "valid_from = 2026-11-25",
}
