"""Writes small tables as TOML, so that they read back equal."""

import json
from collections.abc import Mapping
from datetime import date
from decimal import Decimal


def dumps(table: Mapping[str, object], *, head: str = "") -> str:
    """Return a table as text: plain entries first, then every table of it under its name.

    Parameters
    ----------
    table
        Texts, numbers, days, lists, and tables of these; decimals are written as texts, and what is
        None is left out, since TOML has no word for it.
    head
        A remark for the first line.
    """
    table = {key: value for key, value in table.items() if value is not None}
    plain = {key: value for key, value in table.items() if not isinstance(value, Mapping)}
    lines = [f"# {head}"] if head else []
    lines += [f"{key} = {_value(value)}" for key, value in plain.items()]
    for key, value in table.items():
        if isinstance(value, Mapping):
            lines += ["", f"[{key}]", *(f"{name} = {_value(one)}" for name, one in value.items())]
    return "\n".join(lines) + "\n"


def _value(value: object) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str | Decimal):
        # Both languages escape alike, but for the one control sign JSON lets through.
        return json.dumps(str(value), ensure_ascii=False).replace("\x7f", "\\u007f")
    if isinstance(value, int | float | date):
        return str(value)
    if isinstance(value, list | tuple):
        return _list([_value(one) for one in value])
    if isinstance(value, Mapping):
        return "{ " + ", ".join(f"{key} = {_value(one)}" for key, one in value.items()) + " }"
    raise TypeError(f"{type(value).__name__} has no form in such a file")


def _list(written: list[str]) -> str:
    if not written:
        return "[]"
    return "[\n" + "".join(f"    {one},\n" for one in written) + "]"
