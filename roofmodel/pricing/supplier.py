"""Who delivers what and how many working days ahead it is ordered, as data the firm edits."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from pydantic import ConfigDict, TypeAdapter, with_config

from roofmodel.foundation import resources, toml_rows
from roofmodel.foundation.errors import DimensionError, Fault

_FORBID = ConfigDict(extra="forbid")
_LEAD = re.compile(r"\?|\d{1,3}(-\d{1,3})?")


@with_config(_FORBID)
@dataclass(frozen=True, slots=True)
class Supplier:
    """Kind of supplier, and the working days to order ahead."""

    supplier: str
    lead: str

    def __post_init__(self) -> None:
        """Refuse a lead time no calendar can take."""
        if not _LEAD.fullmatch(self.lead):
            text = f"“{self.lead}” is not a lead time."
            remedy = "Enter working days, such as 3 or 1-2, or ? if it is not known."
            raise DimensionError([Fault("lead", text, remedy)])


@with_config(_FORBID)
@dataclass(frozen=True, slots=True, kw_only=True)
class Suppliers:
    """Who delivers what: by category of the material where it is named, else by group."""

    not_ordered: tuple[str, ...]
    group: Mapping[str, Supplier]
    category: Mapping[str, Supplier]

    def of(self, group: str, category: str) -> Supplier:
        """Return who delivers a material; one nobody entered is said, never left out."""
        return self.category.get(category) or self.group.get(group) or _NOT_ENTERED

    @property
    def longest_lead_days(self) -> int:
        """The longest lead time of any supplier [working days]."""
        every = (*self.group.values(), *self.category.values())
        leads = [one.lead.rpartition("-")[2] for one in every]
        return max((int(days) for days in leads if days.isdigit()), default=0)


_NOT_ENTERED = Supplier("supplier not entered", "?")
_SUPPLIERS = TypeAdapter(Suppliers)


@cache
def shipped() -> Suppliers:
    """Return the shipped suppliers; they are invented.

    Raises
    ------
    ResourceError
        If the file is wrong; the text names the field.
    """
    return of_table(
        resources.read_toml(resources.folder() / "suppliers.toml"), name="suppliers.toml"
    )


def of_table(table: Mapping[str, Any], *, name: str) -> Suppliers:
    """Return the suppliers of a table; ``name`` is what errors call its file.

    Raises
    ------
    ResourceError
        If a field is missing or wrong.
    """
    # A firm that withdrew every category leaves none.
    return toml_rows.of_table({"group": {}, "category": {}, **table}, _SUPPLIERS, name=name)
