"""Steps that turn an older job file into one of this version, one version at a time."""

from collections.abc import Callable, Mapping
from typing import Any

Step = Callable[[dict[str, Any]], dict[str, Any]]

STEPS: Mapping[int, Step] = {}
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
