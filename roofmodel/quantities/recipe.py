"""What each driver drags with it, as data: the recipes of the three methods."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Annotated, Any, Literal

from pydantic import ConfigDict, Field, TypeAdapter

from roofmodel.foundation import resources, toml_rows
from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.foundation.source import Source
from roofmodel.quantities import driver as drivers_known
from roofmodel.quantities.driver import Driver, Place
from roofmodel.refit.method import Method


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """So much for each unit of a driver: a rate, or the length one piece of it covers."""

    driver: str
    rate: float | None = None
    divide: float | None = None

    def __post_init__(self) -> None:
        """Refuse a term with no rate, or with two, or of a quantity nobody takes off."""
        given = [x for x in (self.rate, self.divide) if x is not None]
        if len(given) != 1 or not given[0] > 0.0:
            text = f"The term of {self.driver} needs one rate above 0, or one length to divide by."
            raise DimensionError([Fault("rate", text, "Give `rate` or `divide`.")])
        if self.driver not in drivers_known.NAMES:
            text = f"No quantity of a roof is called “{self.driver}”."
            raise DimensionError([Fault("driver", text, drivers_known.meant(self.driver))])

    def value(self, driver: Driver) -> float:
        """Return the share of this term."""
        return (
            driver.value * self.rate if self.rate is not None else driver.value / (self.divide or 1)
        )

    def words(self, driver: Driver) -> str:
        """Return the term as a formula shows it."""
        if self.divide is not None:
            return f"{driver.printed} ÷ {self.divide:g}"
        return driver.printed if self.rate == 1.0 else f"{self.rate:g} × {driver.printed}"


PRACTICE = Source("trade practice, from memory", "rates and counts of a recipe", verified=False)
"""The source of a recipe that names none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Recipe:
    """One line of a take-off before it meets a roof.

    Neither terms nor count means that it stands at zero until somebody asks for it. ``through_mm``
    are the thicknesses of boards a screw holds through: more than the first, at most the second.
    ``code`` tells recipes of one material apart; where there is one only, it needs none.
    """

    material: str
    methods: tuple[Method, ...]
    group: str
    terms: tuple[Term, ...] = ()
    count: str | None = None
    waste: Literal["material", "none"] = "material"
    round_up: Annotated[float | None, Field(gt=0.0)] = None
    through_mm: tuple[float, float] | None = None
    note: str = ""
    code: str = ""
    source: Source = PRACTICE

    def lacks(self, drivers: Mapping[str, Driver]) -> str:
        """Return what must be entered before the terms are known; empty if nothing."""
        return next((lack for t in self.terms if (lack := drivers[t.driver].lacks)), "")

    def sum(self, drivers: Mapping[str, Driver]) -> tuple[float, str, Place]:
        """Return the sum of the terms, its formula in words, and where it comes from."""
        place = Place()
        for term in self.terms:
            place += drivers[term.driver].place
        value = sum(term.value(drivers[term.driver]) for term in self.terms)
        return value, " + ".join(term.words(drivers[term.driver]) for term in self.terms), place


KEY = "recipe"
"""What a row is called in a file."""
_ROWS = TypeAdapter(tuple[Recipe, ...], config=ConfigDict(extra="forbid", defer_build=True))


@cache
def shipped() -> tuple[Recipe, ...]:
    """Return the shipped recipes in the order a take-off lists them.

    Raises
    ------
    ResourceError
        If the file is wrong; the text names row and field.
    """
    return of_table(resources.read_toml(resources.folder() / "recipes.toml"), name="recipes.toml")


def of_table(table: Mapping[str, Any], *, name: str) -> tuple[Recipe, ...]:
    """Return the recipes of a table; ``name`` is what errors call its file.

    Raises
    ------
    ResourceError
        If one is wrong; the text names row and field.
    """
    return toml_rows.of_rows(table, KEY, _ROWS, name=name)


def of_method(method: Method, recipes: Sequence[Recipe] | None = None) -> tuple[Recipe, ...]:
    """Return the recipes of one method, of the shipped ones when none are given."""
    known = shipped() if recipes is None else recipes
    return tuple(recipe for recipe in known if method in recipe.methods)
