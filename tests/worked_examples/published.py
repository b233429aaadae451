"""Reads the published tables in `shared/`."""

import tomllib
from pathlib import Path
from typing import Any

FOLDER = Path(__file__).resolve().parents[2] / "shared"


def rows(file: str, table: str) -> list[dict[str, Any]]:
    """Return the rows of one table of a file in `shared/`."""
    return tomllib.loads((FOLDER / file).read_text(encoding="utf-8"))[table]
