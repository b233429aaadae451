"""The firm's recipes, norms, suppliers, extras, presets and ways of laying, as a job uses them."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from roofmodel.cutting.laying import rule_set
from roofmodel.cutting.laying.rule_set import RuleSet
from roofmodel.foundation.errors import ResourceError
from roofmodel.pricing import offered_extra, supplier
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
    return Tables(
        stacks=_of(table.STACKS, folder, stack.of_table, known.stacks),
        ways=_of(table.WAYS, folder, rule_set.of_table, known.ways),
        recipes=_of(table.RECIPES, folder, _recipes, known.recipes),
        norms=_of(table.NORMS, folder, _norms, known.norms),
        suppliers=_of(table.SUPPLIERS, folder, supplier.of_table, known.suppliers),
        extras=_of(table.EXTRAS, folder, offered_extra.of_table, known.extras),
    )


def _of[Typed](one: Table, folder: Path, read: Callable[..., Typed], shipped_one: Typed) -> Typed:
    """Return a table as it is used; the shipped one where the firm has no rows of its own."""
    own = one.own(folder)
    if not own:
        return shipped_one
    return read(one.as_read(one.layers.under(own).rows), name=one.file)


def _recipes(found: Mapping[str, Any], *, name: str) -> tuple[Recipe, ...]:
    rows = recipe.of_table(found, name=name)
    for row in rows:
        if row.count is not None and row.count not in counts.COUNTS:
            told = f"{name}, {row.code or row.material}: no count is called “{row.count}”."
            raise ResourceError(f"{told} Choose one of {', '.join(counts.COUNTS)}.")
    return rows


def _norms(found: Mapping[str, Any], *, name: str) -> tuple[Task, ...]:
    rows = labour.of_table(found, name=name)
    # A task that the firm withdrew is not waited for.
    known = {row.id for row in (*rows, *labour.shipped())}
    for row in rows:
        for other in (*row.after, *row.best_after):
            if other not in known:
                told = f"{name}, {row.code or row.id}: it comes after “{other}”, which is no task."
                raise ResourceError(f"{told} Choose one of {', '.join(sorted(known))}.")
    return rows
