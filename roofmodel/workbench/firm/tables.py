"""The firm's recipes, norms, suppliers, extras, presets and ways of laying, as a job uses them."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from roofmodel.cutting.laying import rule_set
from roofmodel.cutting.laying.rule_set import RuleSet
from roofmodel.foundation.errors import ResourceError
from roofmodel.foundation.layered import Own
from roofmodel.pricing import offered_extra, rates, supplier
from roofmodel.pricing.offered_extra import OfferedExtra
from roofmodel.pricing.supplier import Suppliers
from roofmodel.quantities import counts, labour, recipe
from roofmodel.quantities.labour import Task
from roofmodel.quantities.recipe import Recipe
from roofmodel.refit import stack
from roofmodel.refit.method import Method
from roofmodel.refit.stack import MethodStack
from roofmodel.workbench.firm import table
from roofmodel.workbench.firm.table import Table

FOLDER = "firm"
"""Name of the folder of everything that is the firm's, within the user's own data."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tables:
    """What ships, with the firm's own rows over it."""

    stacks: Mapping[Method, MethodStack]
    ways: Mapping[str, RuleSet]
    recipes: Sequence[Recipe]
    norms: Sequence[Task]
    suppliers: Suppliers
    extras: Sequence[OfferedExtra]


@cache
def shipped() -> Tables:
    """Return the tables as they ship.

    Raises
    ------
    ResourceError
        If a shipped file is wrong.
    """
    return Tables(
        stacks=stack.shipped(),
        ways=rule_set.shipped(),
        recipes=recipe.shipped(),
        norms=labour.shipped(),
        suppliers=supplier.shipped(),
        extras=offered_extra.shipped(),
    )


def load(folder: Path | None) -> Tables:
    """Return the tables with the rows of a firm's folder over them.

    Raises
    ------
    ResourceError
        If a file of it is wrong; the text names file, row and field.
    """
    known = shipped()
    if folder is None:
        return known
    own = {one: rows for one in READERS if (rows := one.own(folder))}
    found = {one: read(one, rows) for one, rows in own.items()}
    return Tables(
        stacks=found.get(table.STACKS, known.stacks),
        ways=found.get(table.WAYS, known.ways),
        recipes=found.get(table.RECIPES, known.recipes),
        norms=found.get(table.NORMS, known.norms),
        suppliers=found.get(table.SUPPLIERS, known.suppliers),
        extras=found.get(table.EXTRAS, known.extras),
    )


def read(one: Table, own: Own[Any]) -> Any:  # noqa: ANN401 - each table reads as something else
    """Return a table as it is used with the firm's rows over it.

    Raises
    ------
    ResourceError
        If a row cannot stand; the text names row and field.
    """
    return READERS[one](one.as_read(one.layers.under(own).rows), name=one.file)


def _recipes(found: Mapping[str, Any], *, name: str) -> tuple[Recipe, ...]:
    rows = recipe.of_table(found, name=name)
    for row in rows:
        if row.count is not None and row.count not in counts.COUNTS:
            told = f"{name}, {row.code or row.material}: there is no count called “{row.count}”."
            raise ResourceError(f"{told} Choose one of {', '.join(counts.COUNTS)}.")
    return rows


def _norms(found: Mapping[str, Any], *, name: str) -> tuple[Task, ...]:
    rows = labour.of_table(found, name=name)
    # A task that the firm withdrew is not waited for.
    known = {row.id for row in (*rows, *labour.shipped())}
    for row in rows:
        for other in (*row.after, *row.best_after):
            if other not in known:
                told = (
                    f"{name}, {row.code or row.id}: it comes after “{other}”, which is not a task."
                )
                raise ResourceError(f"{told} Choose one of {', '.join(sorted(known))}.")
    return rows


READERS: Mapping[Table, Callable[..., Any]] = {
    table.STACKS: stack.of_table,
    table.WAYS: rule_set.of_table,
    table.RECIPES: _recipes,
    table.NORMS: _norms,
    table.SUPPLIERS: supplier.of_table,
    table.EXTRAS: offered_extra.of_table,
    table.RATES: rates.of_table,
}
"""What reads each table; the texts of the offer are read where the logo is looked for."""
