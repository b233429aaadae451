"""Finds and reads the data shipped with the program."""

import tomllib
from pathlib import Path
from typing import Any

from roofmodel.foundation.errors import ResourceError

_PACKAGE = Path(__file__).resolve().parent.parent


def folder() -> Path:
    """Return the folder of shipped data: beside the package, or inside it once installed."""
    for candidate in (_PACKAGE / "_resources", _PACKAGE.parent / "resources"):
        if candidate.is_dir():
            return candidate
    raise ResourceError("The folder `resources` is missing. Install the program again.")


def sample_roofs() -> Path:
    """Return the folder of sample jobs: beside the package, or inside it once installed."""
    for candidate in (_PACKAGE / "_sample_roofs", _PACKAGE.parent / "sample_roofs"):
        if candidate.is_dir():
            return candidate
    raise ResourceError("The folder `sample_roofs` is missing. Install the program again.")


def read_toml(path: Path) -> dict[str, Any]:
    """Return the tables of a TOML file.

    Raises
    ------
    ResourceError
        If the file is missing or is not TOML; the text names the file and the line.
    """
    try:
        return tomllib.loads(path.read_text(encoding="utf-8"))
    except FileNotFoundError as error:
        raise ResourceError(f"The data file {path.name} is missing.") from error
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        raise ResourceError(f"{path.name} cannot be read: {error}.") from error
