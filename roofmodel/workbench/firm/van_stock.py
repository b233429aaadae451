"""What the firm has on its van, which orders take off: a list of its own in the firm's folder."""

from collections.abc import Mapping
from decimal import Decimal
from pathlib import Path
from typing import Annotated

from pydantic import ConfigDict, Field, TypeAdapter, with_config
from pydantic.dataclasses import dataclass

from roofmodel.foundation import resources, toml_rows
from roofmodel.foundation.errors import ResourceError

FILE = "van_stock.toml"
"""Name of the list in the firm's folder."""


@with_config(ConfigDict(extra="forbid"))
@dataclass(frozen=True)
class OnVan:
    """So many packs of one material, parts of a pack too."""

    material: Annotated[str, Field(min_length=1)]
    packs: Annotated[Decimal, Field(ge=0, le=1000)]


_ROWS: TypeAdapter[tuple[OnVan, ...]] = TypeAdapter(tuple[OnVan, ...])


def read(path: Path | None) -> Mapping[str, Decimal]:
    """Return code to packs of a list, whose rows are ``[[stock]]``; nothing where there is none.

    Raises
    ------
    ResourceError
        If the file is wrong, or names a material twice; the text names the row.
    """
    if path is None or not path.exists():
        return {}
    table = resources.read_toml(path)
    rows = toml_rows.of_rows(table, "stock", _ROWS, name=path.name)
    found: dict[str, Decimal] = {}
    for number, row in enumerate(rows, start=1):
        if row.material in found:
            raise ResourceError(
                f"{path.name}, stock {number}: “{row.material}” is listed twice. Keep one row, "
                "with all its packs."
            )
        found[row.material] = row.packs
    return found
