"""How far a material may be from what its row says: standard errors by category, each sourced."""

from dataclasses import dataclass
from functools import cache
from typing import Any

from roofmodel.buildups.material import CATEGORIES, Material
from roofmodel.foundation import resources
from roofmodel.foundation.errors import ResourceError
from roofmodel.foundation.source import Source

FILE = "material_errors.toml"


@dataclass(frozen=True, slots=True, kw_only=True)
class MaterialError:
    """Standard errors of one kind of material: thickness [mm], the rest as shares of the figure."""

    thickness_mm: float = 0.0
    conductivity_share: float = 0.0
    mass_share: float = 0.0
    source: Source

    def __post_init__(self) -> None:
        """Refuse an error below nothing, or one that leaves the figure without meaning."""
        shares = (self.conductivity_share, self.mass_share)
        if not (0.0 <= self.thickness_mm <= 10.0 and all(0.0 <= one <= 0.5 for one in shares)):
            text = f"{FILE}: an error of {self.thickness_mm:g} mm or of {shares} is not possible."
            raise ResourceError(f"{text} Enter 0 to 10 mm, and 0 to 50 %.")


@cache
def shipped() -> dict[str, MaterialError]:
    """Return the shipped errors by category of material.

    Raises
    ------
    ResourceError
        If the file is wrong: an unknown category, one that stands twice, or an impossible error.
    """
    found: dict[str, MaterialError] = {}
    for row in _table().get("material", []):
        try:
            error, categories = _error(row), list(row["categories"])
        except (KeyError, TypeError, ValueError) as wrong:
            raise ResourceError(f"{FILE}: {wrong}.") from wrong
        for category in categories:
            if category not in CATEGORIES or category in found:
                raise ResourceError(f"{FILE}: “{category}” is unknown or appears twice.")
            found[category] = error
    return found


@cache
def old_glazing() -> MaterialError:
    """Return the error of what the table of old glazing says; only its mass has one."""
    try:
        return _error(_table()["old_glazing"])
    except (KeyError, TypeError, ValueError) as wrong:
        raise ResourceError(f"{FILE}, old_glazing: {wrong}.") from wrong


def of(material: Material) -> MaterialError | None:
    """Return the errors of a material; None where its category has none."""
    return shipped().get(material.category)


def _table() -> dict[str, Any]:
    return resources.read_toml(resources.folder() / FILE)


def _error(row: dict[str, Any]) -> MaterialError:
    return MaterialError(
        thickness_mm=float(row.get("thickness_mm", 0.0)),
        conductivity_share=float(row.get("conductivity_percent", 0.0)) / 100.0,
        mass_share=float(row.get("mass_percent", 0.0)) / 100.0,
        source=Source(**row["source"]),
    )
