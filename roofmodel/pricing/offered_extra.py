"""What a customer may add to an offer or have otherwise, as data the firm edits."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import ROUND_HALF_UP, Decimal
from functools import cache
from typing import Annotated, Any

from pydantic import ConfigDict, Field, TypeAdapter

from roofmodel.buildups.catalogue import Catalogue
from roofmodel.buildups.material import Material, Price
from roofmodel.foundation import resources, toml_rows
from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.refit.method import Method

_HUNDRED, _PENNY = Decimal(100), Decimal("0.01")


@dataclass(frozen=True, slots=True, kw_only=True)
class WindowWanted:
    """A roof window by its row of the catalogue and the size of its opening [mm]."""

    material: str
    width_mm: float
    height_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Dearer:
    """Materials, by category or code, that cost so many per cent more in another make."""

    percent: Annotated[Decimal, Field(ge=-90, le=400)]
    categories: tuple[str, ...] = ()
    codes: tuple[str, ...] = ()

    def applied_to(self, catalogue: Catalogue) -> Catalogue:
        """Return the catalogue with these materials at their other price."""
        changed = {
            code: self._dearer(one)
            for code, one in catalogue.materials.items()
            if code in self.codes or one.category in self.categories
        }
        return replace(catalogue, materials={**catalogue.materials, **changed})

    def _dearer(self, material: Material) -> Material:
        sheet = material.sheet
        if sheet is not None:
            sizes = tuple(replace(size, price=self._of(size.price)) for size in sheet.sizes)
            sheet = replace(sheet, sizes=sizes)
        return replace(material, price=self._of(material.price), sheet=sheet)

    def _of(self, price: Price | None) -> Price | None:
        if price is None:
            return None
        amount = price.amount * (_HUNDRED + self.percent) / _HUNDRED
        return replace(price, amount=amount.quantize(_PENNY, rounding=ROUND_HALF_UP))


@dataclass(frozen=True, slots=True, kw_only=True)
class OfferedExtra:
    """One thing a customer may add or have otherwise: what it changes, and for which methods.

    ``source`` says where sizes and percentages come from; those that ship are invented.
    """

    id: str
    name: str
    changes: str
    methods: tuple[Method, ...]
    source: str
    lights: Annotated[int, Field(ge=0, le=40)] = 0
    window: WindowWanted | None = None
    dearer: tuple[Dearer, ...] = ()

    def __post_init__(self) -> None:
        """Refuse an extra that changes nothing."""
        if not (self.lights or self.window or self.dearer):
            text = f"The extra “{self.id}” changes nothing."
            raise DimensionError(
                [Fault("lights", text, "Enter lights, a window or a dearer make.")]
            )

    def catalogue(self, known: Catalogue) -> Catalogue:
        """Return the catalogue the extra is priced with."""
        for one in self.dearer:
            known = one.applied_to(known)
        return known


KEY = "extra"
"""What a row is called in a file."""
_EXTRAS = TypeAdapter(tuple[OfferedExtra, ...], config=ConfigDict(extra="forbid", defer_build=True))


@cache
def shipped() -> tuple[OfferedExtra, ...]:
    """Return the shipped extras in the order the offer lists them; they are invented.

    Raises
    ------
    ResourceError
        If the file is wrong; the text names extra and field.
    """
    name = "offered_extras.toml"
    return of_table(resources.read_toml(resources.folder() / name), name=name)


def of_table(table: Mapping[str, Any], *, name: str) -> tuple[OfferedExtra, ...]:
    """Return the extras of a table; ``name`` is what errors call its file.

    Raises
    ------
    ResourceError
        If one is wrong; the text names extra and field.
    """
    return toml_rows.of_rows(table, KEY, _EXTRAS, name=name)
