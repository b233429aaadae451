"""Writes small tables as TOML, so that they read back equal."""

import json
import re
from collections.abc import Iterator, Mapping
from datetime import date
from decimal import Decimal

_BARE = re.compile(r"[A-Za-z0-9_-]+")


def dumps(table: Mapping[str, object], *, head: str = "") -> str:
    """Return a table as text: plain entries first, then lists of tables, then tables.

    Parameters
    ----------
    table
        Texts, numbers, days, lists, and tables of these; decimals are written as texts, and what is
        None is left out, since TOML has no word for it.
    head
        A remark for the first line.
    """
    known = _without_none(table)
    rows = {key: value for key, value in known.items() if _is_rows(value)}
    groups = {key: value for key, value in known.items() if isinstance(value, Mapping)}
    plain = {key: value for key, value in known.items() if key not in rows and key not in groups}
    lines = [f"# {head}"] if head else []
    lines += _entries(plain)
    for key, values in rows.items():
        assert isinstance(values, list | tuple)
        for row in values:
            lines += ["", f"[[{_key(key)}]]", *_entries(row)]
    for key, group in groups.items():
        lines += ["", f"[{_key(key)}]", *_entries(group)]
    return "\n".join(lines) + "\n"


def _entries(table: Mapping[str, object]) -> Iterator[str]:
    return (f"{_key(key)} = {_value(value)}" for key, value in _without_none(table).items())


def _without_none(table: Mapping[str, object]) -> dict[str, object]:
    return {key: value for key, value in table.items() if value is not None}


def _is_rows(value: object) -> bool:
    """Return whether a value is a list of tables, which is written table by table."""
    if not isinstance(value, list | tuple) or not value:
        return False
    return all(isinstance(one, Mapping) for one in value)


def _key(name: str) -> str:
    return name if _BARE.fullmatch(name) else _text(name)


def _text(value: str) -> str:
    # Both languages escape alike, but for the one control sign JSON lets through.
    return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")


def _value(value: object) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str | Decimal):
        return _text(str(value))
    if isinstance(value, int | float | date):
        return str(value)
    if isinstance(value, list | tuple):
        return _list([_value(one) for one in value])
    if isinstance(value, Mapping):
        return "{ " + ", ".join(_entries(value)) + " }"
    raise TypeError(f"{type(value).__name__} cannot be written to such a file")


def _list(written: list[str]) -> str:
    if not written:
        return "[]"
    return "[\n" + "".join(f"    {one},\n" for one in written) + "]"
