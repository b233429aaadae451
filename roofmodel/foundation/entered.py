"""A field that somebody fills in, declared once: what it is called, its unit, range and words.

The job file's schema, the forms of the window and the text of an error are all made from the one
declaration, so a field that is added is in all of them at once.
"""

import types
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from enum import Enum
from functools import cache
from typing import Annotated, Any, Literal, Union, cast, get_args, get_origin, get_type_hints

from roofmodel.foundation.errors import Fault

Number = float | Decimal
Choices = tuple[tuple[Any, str], ...]
"""Each value a field may have, and the words for it."""

RAIN = "l/s m²"
"""Unit of a design rain."""

_YES_OR_NO: Choices = ((False, "no"), (True, "yes"))
_NO_SPACE_BEFORE = ("°",)
_LONGEST_IN_FIGURES = 1e12


@dataclass(frozen=True, slots=True, kw_only=True)
class Entered:
    """What is known of a field besides its type; stands in the field's ``Annotated``.

    Parameters
    ----------
    label
        What the field is called, in the form and in errors.
    where
        What is entered and where it is measured or read.
    unit
        Unit of a number.
    low, high
        Least and most, both allowed, or neither where ``between``.
    between
        The value must lie between ``low`` and ``high``, neither of them allowed.
    longest
        Most letters of a text.
    empty
        What stands in the field while nothing is entered: what is taken, or that it is not known.
    choices
        Values with their words, where those of the type will not do.
    """

    label: str
    where: str
    unit: str = ""
    low: Number | None = None
    high: Number | None = None
    between: bool = False
    longest: int | None = None
    empty: str = ""
    choices: Choices = ()

    def fault(self, name: str, value: object) -> Fault | None:
        """Return what is wrong with a value that is out of range or too long; None if it is not."""
        if isinstance(value, str) and self.longest is not None and len(value) > self.longest:
            text = f"{self.label}: the text has {len(value)} characters."
            return Fault(name, text, f"Shorten it to {self.longest} at most.")
        if not isinstance(value, int | float | Decimal) or self.low is None or self.high is None:
            return None
        # Written as what is allowed: a value that is no number is not.
        inside = self.low < value < self.high if self.between else self.low <= value <= self.high
        if inside:
            return None
        text = f"{self.label}: {self.quantity(value)} is out of range."
        return Fault(name, text, f"Enter {self._range}.")

    def quantity(self, value: Number) -> str:
        """Return a value with its unit."""
        space = "" if self.unit in ("", *_NO_SPACE_BEFORE) else " "
        return f"{figures(value)}{space}{self.unit}"

    @property
    def _range(self) -> str:
        assert self.low is not None
        assert self.high is not None
        if self.between:
            return f"more than {self.quantity(self.low)} and less than {self.quantity(self.high)}"
        return f"{figures(self.low)} to {self.quantity(self.high)}"

    def __get_pydantic_json_schema__(
        self, core_schema: object, handler: Callable[[object], dict[str, Any]]
    ) -> dict[str, Any]:
        """Tell the published schema; nothing is enforced by it, its wording is for no user."""
        unit = f" [{self.unit}]" if self.unit else ""
        told = {**handler(core_schema), "title": self.label, "description": f"{self.where}{unit}"}
        if self.low is not None:
            told["exclusiveMinimum" if self.between else "minimum"] = float(self.low)
        if self.high is not None:
            told["exclusiveMaximum" if self.between else "maximum"] = float(self.high)
        if self.longest is not None:
            told["maxLength"] = self.longest
        if self.choices:
            told["enum"] = [value for value, _ in self.choices] + [None] * ("anyOf" in told)
        return told


@dataclass(frozen=True, slots=True)
class EnteredField:
    """A field of an entry: its declaration, and what follows from its type."""

    name: str
    says: Entered
    type: object
    may_be_empty: bool

    @property
    def choices(self) -> Choices:
        """The values it may have with their words; empty where it is typed."""
        offered = self.says.choices or _choices_of(self.type)
        return ((None, self.says.empty), *offered) if offered and self.may_be_empty else offered

    @property
    def is_whole(self) -> bool:
        """Whether it takes whole numbers only."""
        return self.type is int

    @property
    def is_text(self) -> bool:
        """Whether it takes any text."""
        return self.type is str

    @property
    def is_day(self) -> bool:
        """Whether it takes a date."""
        return self.type is date


@cache
def fields_of(entry: type) -> Mapping[str, EnteredField]:
    """Return the declared fields of a class by name, in their order."""
    by_name = {}
    for name, hint in get_type_hints(entry, include_extras=True).items():
        if get_origin(hint) is not Annotated:
            continue
        kind, *about = get_args(hint)
        says = next((one for one in about if isinstance(one, Entered)), None)
        if says is not None:
            by_name[name] = EnteredField(name, says, *_without_none(kind))
    return by_name


def label(entry: type, name: str) -> str:
    """Return what a field of a class is called, for the middle of a sentence."""
    words = fields_of(entry)[name].says.label
    # “Ridge height” becomes “ridge height”, but “U calculated” stays.
    return words[0].lower() + words[1:] if words[1:2].islower() else words


def faults(entry: object) -> list[Fault]:
    """Return a fault for every field of an entry out of range; None is no value and has none."""
    declared = fields_of(cast("type", type(entry)))
    possible = (one.says.fault(name, getattr(entry, name)) for name, one in declared.items())
    return [fault for fault in possible if fault is not None]


def figures(value: Number) -> str:
    """Return a number in plain figures, without powers of ten."""
    if not abs(float(value)) < _LONGEST_IN_FIGURES:
        return f"{value:g}"
    text = f"{value:.6f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _without_none(kind: object) -> tuple[object, bool]:
    """Return a type without the None it allows, and whether it does."""
    if get_origin(kind) not in (Union, types.UnionType):
        return kind, False
    rest = [one for one in get_args(kind) if one is not type(None)]
    return rest[0], len(rest) < len(get_args(kind))


def _choices_of(kind: object) -> Choices:
    if kind is bool:
        return _YES_OR_NO
    if get_origin(kind) is Literal:
        return tuple((value, str(value)) for value in get_args(kind))
    if isinstance(kind, type) and issubclass(kind, Enum):
        return tuple((one, getattr(one, "printed", one.value)) for one in kind)
    return ()
