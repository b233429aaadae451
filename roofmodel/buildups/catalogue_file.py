"""Reads the rows of a catalogue and says of every fault in which row and column it stands."""

import tomllib
from collections import Counter
from collections.abc import Sequence
from decimal import Decimal
from pathlib import Path
from typing import Any

from pydantic import ConfigDict, TypeAdapter, ValidationError
from pydantic_core import ErrorDetails

from roofmodel.buildups.material import Material
from roofmodel.foundation.errors import ResourceError

_ROWS = TypeAdapter(list[Material], config=ConfigDict(extra="forbid"))


def materials(path: Path) -> list[Material]:
    """Return the materials of a file.

    Raises
    ------
    ResourceError
        If it cannot be read, or with every wrong field of every row.
    """
    try:
        table = tomllib.loads(path.read_text(encoding="utf-8"), parse_float=Decimal)
    except FileNotFoundError as error:
        raise ResourceError(f"The catalogue file {path.name} is missing.") from error
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        raise ResourceError(f"{path.name} cannot be read: {error}. Correct that line.") from error
    rows = table.get("material", [])
    try:
        return _ROWS.validate_python(rows)
    except ValidationError as error:
        found = " ".join(_words(one, rows) for one in error.errors())
        raise ResourceError(f"{path.name}: {found}") from error


def each_once(rows: Sequence[Material], *, where: str) -> Sequence[Material]:
    """Return the rows, unless two have one code.

    Raises
    ------
    ResourceError
        Naming every code that stands twice, and in which rows.
    """
    twice = [code for code, count in Counter(row.code for row in rows).items() if count > 1]
    if not twice:
        return rows
    told = [
        f"{code} stands in rows "
        + " and ".join(str(i) for i, row in enumerate(rows, start=1) if row.code == code)
        for code in twice
    ]
    raise ResourceError(f"In {where}, {'; '.join(told)}. Give each material its own code.")


def _words(fault: ErrorDetails, rows: Sequence[Any]) -> str:
    number, *field = fault["loc"]
    row = rows[int(number)] if isinstance(number, int) and number < len(rows) else {}
    code = row.get("code", "without a code") if isinstance(row, dict) else "?"
    column = ".".join(str(part) for part in field) or "row"
    return f"Row {int(number) + 1} ({code}), {column}: {fault['msg']}."
