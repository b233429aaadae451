"""Steps that turn an older job file into one of this version, one version at a time."""

from collections.abc import Callable, Mapping
from typing import Any

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
