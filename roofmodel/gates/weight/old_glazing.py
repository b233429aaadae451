"""What the old glazing weighs, where its kind and thickness were read."""

from dataclasses import dataclass
from functools import cache
from typing import Any

from roofmodel.foundation import resources
from roofmodel.foundation.errors import ResourceError
from roofmodel.foundation.source import Source
from roofmodel.survey.taped.standing import Glazing, Standing


@dataclass(frozen=True, slots=True, kw_only=True)
class OldGlazing:
    """One kind of glazing of one thickness, with its mass."""

    kind: Glazing
    thickness_mm: float
    mass_kg_m2: float
    source: Source

    def __post_init__(self) -> None:
        """Refuse a sheet of no mass."""
        if not 0.0 < self.mass_kg_m2 < 200.0:
            text = f"old_glazing.toml: {self.kind} of {self.mass_kg_m2:g} kg/m² is not possible."
            raise ResourceError(text)

    @property
    def words(self) -> str:
        """What is printed."""
        return f"{self.kind} {self.thickness_mm:g} mm"


@cache
def shipped() -> tuple[OldGlazing, ...]:
    """Return the shipped rows.

    Raises
    ------
    ResourceError
        If the file is wrong.
    """
    table = resources.read_toml(resources.folder() / "standards" / "old_glazing.toml")
    return tuple(_row(row) for row in table.get("glazing", []))


def of_standing(standing: Standing) -> OldGlazing | None:
    """Return the old glazing: the row of its thickness, else the next thinner one.

    None where kind or thickness was not read, or the sheet is thinner than any row.
    """
    if standing.glazing is None or standing.glazing_mm is None:
        return None
    fitting = [
        row
        for row in shipped()
        if row.kind is standing.glazing and row.thickness_mm <= standing.glazing_mm
    ]
    return max(fitting, key=lambda row: row.thickness_mm, default=None)


def _row(row: dict[str, Any]) -> OldGlazing:
    try:
        return OldGlazing(
            kind=Glazing(row["kind"]),
            thickness_mm=float(row["thickness_mm"]),
            mass_kg_m2=float(row["mass_kg_m2"]),
            source=Source(**row["source"]),
        )
    except (KeyError, TypeError, ValueError) as error:
        text = f"old_glazing.toml, {row.get('kind', 'a row')}: {error}."
        raise ResourceError(text) from error
