"""Reads lists of rows and whole tables from TOML and says in which row and field a fault stands."""

from collections.abc import Mapping
from typing import Any, TypeGuard

from pydantic import TypeAdapter, ValidationError
from pydantic_core import ErrorDetails

from roofmodel.foundation.errors import DimensionError, ResourceError


def of_rows[Rows](
    table: Mapping[str, Any], key: str, adapter: TypeAdapter[Rows], *, name: str
) -> Rows:
    """Return the rows under a key of a table.

    Parameters
    ----------
    table
        What a file holds.
    key
        Name of its list, which is also what a row is called.
    adapter
        What the rows are to be.
    name
        What errors call the file.

    Raises
    ------
    ResourceError
        If a row is wrong; the text names row and field.
    """
    try:
        return adapter.validate_python(table.get(key, []))
    except ValidationError as error:
        fault = error.errors()[0]
        row, *field = fault["loc"] or (0,)
        where = f"{key} {row + 1}{_named(table[key][row])}" if isinstance(row, int) else key
        raise ResourceError(f"{name}, {where}, {_said(fault, field)}") from error


def of_table[Rows](table: Mapping[str, Any], adapter: TypeAdapter[Rows], *, name: str) -> Rows:
    """Return a whole table as one entry.

    Raises
    ------
    ResourceError
        If a field is wrong; the text names it.
    """
    try:
        return adapter.validate_python(table)
    except ValidationError as error:
        fault = error.errors()[0]
        raise ResourceError(f"{name}, {_said(fault, fault['loc'])}") from error


def _named(row: object) -> str:
    """Return the code of a row in brackets; nothing where it has none."""
    fields = (row.get(field) for field in ("code", "id", "material")) if _is_group(row) else ()
    return next((f" ({code})" for code in fields if isinstance(code, str) and code), "")


def _is_group(row: object) -> TypeGuard[Mapping[str, Any]]:
    return isinstance(row, Mapping)


def _said(fault: ErrorDetails, place: "tuple[int | str, ...] | list[int | str]") -> str:
    """Return where a fault stands, what it is and what to do; lists are counted from 1."""
    where = ".".join(str(part + 1) if isinstance(part, int) else part for part in place)
    cause = fault.get("ctx", {}).get("error")
    if isinstance(cause, DimensionError):
        return " ".join(
            f"{'.'.join(filter(None, (where, one.field)))}: {one}" for one in cause.faults
        )
    return f"{where or 'row'}: {words(fault)}"


def words(fault: ErrorDetails) -> str:
    """Return in plain words what a reader complains of, and what to do."""
    kind, value = fault["type"], fault["input"]
    shown = f"“{value}”" if isinstance(value, str | int | float) else "what stands here"
    if kind in ("enum", "literal_error"):
        return f"{shown} is not known. Choose one of {_choices(fault)}."
    for sign, told in _LIMITS.items():
        if sign in fault.get("ctx", {}):
            return f"{shown} is out of range. Enter {told} {fault['ctx'][sign]:g}."
    for kinds, told in _WORDS.items():
        if kind.startswith(kinds):
            return told.format(shown=shown)
    return f"{shown} does not belong here. Correct it."


def _choices(fault: ErrorDetails) -> str:
    expected = str(fault.get("ctx", {}).get("expected", ""))
    return ", ".join(one.strip("' ") for one in expected.replace(" or ", ", ").split(","))


_LIMITS = {"gt": "more than", "ge": "at least", "lt": "less than", "le": "at most"}
_WORDS: Mapping[tuple[str, ...], str] = {
    ("missing",): "this field is missing. Add it.",
    ("unexpected_keyword", "extra_forbidden"): "there is no such field. Remove it, or check its "
    "spelling.",
    ("int", "float", "decimal", "finite"): "{shown} is not a number that can stand here. Enter "
    "figures, for example 12.5.",
    ("string",): "{shown} is not a text that can stand here. Put the words in quotes.",
    ("bool",): "{shown} is neither yes nor no. Write true or false.",
    ("date",): "{shown} is no date. Write it as year-month-day, for example 2026-11-25.",
    ("tuple", "list"): "{shown} is not a list. Put the entries in square brackets.",
    ("dict", "dataclass", "mapping"): "{shown} is not a group of fields. Put them in curly "
    "brackets.",
}
