"""Steps that turn an older job file into one of this version, one version at a time."""

from collections.abc import Callable, Mapping
from typing import Any

from roofmodel.refit.method import OLD_NAMES
from roofmodel.storage import reading_names_2

Step = Callable[[dict[str, Any]], dict[str, Any]]


def _boards_by_method(data: dict[str, Any]) -> dict[str, Any]:
    """Version 1 listed the sheets to lay; from 2 on they follow from the method's layers.

    What remains of the list is where a sheet differs from the catalogue.
    """
    boards = data.get("boards")
    if not isinstance(boards, list):
        return data
    kept = [one for one in boards if not isinstance(one, dict) or set(one) != {"material"}]
    rest = {name: value for name, value in data.items() if name != "boards"}
    return {**rest, "boards": kept} if kept else rest


def with_old_names(data: dict[str, Any]) -> dict[str, Any]:
    """Return the fields with the method called as it is now, whatever it was called before."""
    refit = data.get("refit")
    if not isinstance(refit, dict):
        return data
    changed = {**refit, "method": _today(refit["method"])} if "method" in refit else dict(refit)
    stacks = refit.get("stacks")
    if isinstance(stacks, list):
        changed["stacks"] = [
            {**one, "method": _today(one["method"])}
            if isinstance(one, dict) and "method" in one
            else one
            for one in stacks
        ]
    return {**data, "refit": changed}


def _today(name: object) -> object:
    """Return a method's name of today; whatever else it is stays for the check of the fields."""
    found = OLD_NAMES.get(name) if isinstance(name, str) else None
    return name if found is None else found.value


STEPS: Mapping[int, Step] = {1: _boards_by_method, 2: reading_names_2.renamed}
"""``STEPS[n]`` takes the fields of a version n file and returns those of version n + 1."""


def migrated(
    data: dict[str, Any], *, version: int, to: int, steps: Mapping[int, Step] = STEPS
) -> dict[str, Any]:
    """Return the fields of an older file as version ``to`` would hold them.

    Raises
    ------
    KeyError
        If a step is missing.
    """
    for number in range(version, to):
        data = steps[number](data)
    return data
