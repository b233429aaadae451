"""Reads lists of rows from shipped TOML files and says in which row and field a fault stands."""

from pathlib import Path

from pydantic import TypeAdapter, ValidationError

from roofmodel.foundation import resources
from roofmodel.foundation.errors import ResourceError


def read[Rows](path: Path, key: str, adapter: TypeAdapter[Rows]) -> Rows:
    """Return the rows under a key of a file.

    Parameters
    ----------
    path
        The TOML file.
    key
        Name of its list, which is also what a row is called.
    adapter
        What the rows are to be.

    Raises
    ------
    ResourceError
        If the file cannot be read, or a row is wrong; the text names row and field.
    """
    table = resources.read_toml(path)
    try:
        return adapter.validate_python(table.get(key, []))
    except ValidationError as error:
        fault = error.errors()[0]
        row, *field = fault["loc"] or (0,)
        where = ".".join(str(part) for part in field) or "row"
        number = int(row) + 1 if isinstance(row, int) else row
        raise ResourceError(
            f"{path.name}, {key} {number}, {where}: {fault['msg']}. Correct that row."
        ) from error


def one[Rows](path: Path, adapter: TypeAdapter[Rows]) -> Rows:
    """Return a whole file as one entry.

    Raises
    ------
    ResourceError
        If the file cannot be read, or a field is wrong; the text names the field.
    """
    table = resources.read_toml(path)
    try:
        return adapter.validate_python(table)
    except ValidationError as error:
        fault = error.errors()[0]
        where = ".".join(str(part) for part in fault["loc"]) or "file"
        raise ResourceError(f"{path.name}, {where}: {fault['msg']}. Correct it.") from error
