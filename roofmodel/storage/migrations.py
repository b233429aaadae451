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
    renamed = OLD_NAMES.get(name) if isinstance(name, str) else None
    return name if renamed is None else renamed.value


_NEVER_ENTERED = {
    "gutter_mm": 100.0,
    "gutter_outlets": 1,
    "box_outlet_mm": 63.0,
    "box_outlets": 1,
    "panel_least_pitch_deg": 5.0,
    "run_error_mm": 0.0,
}
"""Defaults that version 3 wrote into every file, whether anybody had entered them or not."""


def _without_defaults(data: dict[str, Any]) -> dict[str, Any]:
    """Leave out the facts of the site that stand at the old defaults.

    From version 4 on a fact nobody entered is left out of the file, so that no gate takes it for
    known. Somebody who had entered the very same figure enters it once more.
    """
    site = data.get("site")
    if not isinstance(site, dict):
        return data
    kept = {
        name: value
        for name, value in site.items()
        if name not in _NEVER_ENTERED or value != _NEVER_ENTERED[name]
    }
    return {**data, "site": kept}


def _as_they_are(data: dict[str, Any]) -> dict[str, Any]:
    """Version 5 adds where goods are delivered and in which colours; nobody entered them before."""
    return data


def _without_photographs(data: dict[str, Any]) -> dict[str, Any]:
    """Version 6 adds the photographs of the job; nobody entered them before."""
    return data


STEPS: Mapping[int, Step] = {
    1: _boards_by_method,
    2: reading_names_2.renamed,
    3: _without_defaults,
    4: _as_they_are,
    5: _without_photographs,
}
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
