"""The firm's materials by their codes."""

import difflib
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from functools import cache
from typing import Any

from roofmodel.buildups import catalogue_rows
from roofmodel.buildups.material import Material
from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.foundation import resources
from roofmodel.foundation.errors import ResourceError


class CatalogueError(ResourceError):
    """A material was asked for that the catalogue does not have."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Catalogue:
    """Materials in the order they are listed, by code; ``version`` rises with every change.

    ``saw_kerf_mm`` is what the firm's saw takes between two pieces, of boards and lengths alike;
    ``price_days`` how many days a price is good for. Either is None in a catalogue of own rows that
    leaves it as shipped; ``withdrawn`` are shipped codes such a catalogue does without, ``copied``
    marks of the shipped rows its own were made from.
    """

    name: str
    version: int
    valid_from: date
    materials: Mapping[str, Material]
    saw_kerf_mm: float | None = None
    price_days: int | None = None
    withdrawn: tuple[str, ...] = ()
    copied: Mapping[str, str] = field(default_factory=dict)

    @property
    def stale_days(self) -> int:
        """A price older than so many days is out of date: by this catalogue, else as shipped."""
        return shipped_price_days() if self.price_days is None else self.price_days

    @property
    def kerf_mm(self) -> float:
        """The saw cut [mm]: that of this catalogue, else that of the shipped one."""
        return shipped_kerf_mm() if self.saw_kerf_mm is None else self.saw_kerf_mm

    def material(self, code: str) -> Material:
        """Return a material.

        Raises
        ------
        CatalogueError
            If there is none of that code; the text names the nearest ones.
        """
        found = self.materials.get(code)
        if found is not None:
            return found
        near = difflib.get_close_matches(code, self.materials, n=3, cutoff=0.5)
        hint = f"Did you mean {' or '.join(near)}?" if near else "Look the code up, or add the row."
        raise CatalogueError(f"There is no material “{code}” in the catalogue. {hint}")

    def sheet_goods(self) -> dict[str, SheetGood]:
        """Return what is cut from sheets, each in its usual size."""
        return {
            code: material.sheet_good(saw_kerf_mm=self.kerf_mm)
            for code, material in self.materials.items()
            if material.sheet is not None
        }

    def is_stale(self, material: Material, today: date) -> bool:
        """Return whether the price of a material is out of date; one without a price is not."""
        price = material.price
        return price is not None and (today - price.dated).days > self.stale_days

    def stale(self, today: date) -> tuple[Material, ...]:
        """Return the materials whose price is out of date."""
        return tuple(one for one in self.materials.values() if self.is_stale(one, today))

    def with_material(self, material: Material) -> "Catalogue":
        """Return the catalogue with a row added, or put in the place of the one of its code."""
        return replace(self, materials={**self.materials, material.code: material})

    def without(self, code: str) -> "Catalogue":
        """Return the catalogue without a row."""
        rest = {known: one for known, one in self.materials.items() if known != code}
        return replace(self, materials=rest)


@cache
def shipped_kerf_mm() -> float:
    """Return the saw cut that ships with the program [mm]: the one place it stands.

    Raises
    ------
    ResourceError
        If the head of the catalogue is missing.
    """
    return float(_shipped_head()["saw_kerf_mm"])


@cache
def shipped_price_days() -> int:
    """Return how many days a price is good for by what ships: the one place it stands.

    Raises
    ------
    ResourceError
        If the head of the catalogue is missing.
    """
    return int(_shipped_head()["price_days"])


def _shipped_head() -> dict[str, Any]:
    return resources.read_toml(resources.folder() / "catalogue" / "catalogue.toml")


@cache
def shipped() -> Catalogue:
    """Return the catalogue that comes with the program.

    Raises
    ------
    ResourceError
        If a file of it is missing or wrong.
    """
    folder = resources.folder() / "catalogue"
    head = _shipped_head()
    rows = [
        row
        for part in head.get("parts", [])
        for row in catalogue_rows.materials(folder / str(part))
    ]
    return Catalogue(
        name=str(head["name"]),
        version=int(head["version"]),
        valid_from=head["valid_from"],
        materials={row.code: row for row in catalogue_rows.each_once(rows, where="the catalogue")},
        saw_kerf_mm=shipped_kerf_mm(),
        price_days=shipped_price_days(),
    )
