"""What moves the figures of a report, and the figures with it: value, error, source and inputs.

A report is numbers under names, made by a pure function of a roof. The same function is put to the
roofs beside the job's; what a number moves by is its error, and what moved it is its input.
"""

import math
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, cast

from roofmodel.foundation.errors import DimensionError
from roofmodel.foundation.figure import Figure
from roofmodel.foundation.source import Source
from roofmodel.workbench.job.measured import Measured

SHAPE = Source("shape, counts and choices as entered for the job", "", verified=False)
"""What a figure rests on that no measured value moves."""

Report = Mapping[str, Any]
"""Numbers, texts and lists of them under names, as it is written as JSON."""

_UNITS = (
    ("_mm", "mm"),
    ("_m2", "m²"),
    ("_m", "m"),
    ("_deg", "°"),
    ("_kg", "kg"),
    ("_gbp", "GBP"),
)

_WHO = ("name", "mark", "kind", "facet", "facets", "code")
"""Entries that say which thing a part of a report is about."""


def numbers(report: object, path: str = "") -> Iterator[tuple[str, float]]:
    """Yield every number of a report with its path, such as ``facets[0].pitch_deg``.

    Examples
    --------
    >>> list(numbers({"area_m2": 2.0, "facets": [{"name": "F1", "corners": [1, 2]}]}))
    [('area_m2', 2.0), ('facets[0].corners[0]', 1.0), ('facets[0].corners[1]', 2.0)]
    """
    if isinstance(report, bool):
        return
    if isinstance(report, int | float):
        yield path, float(report)
    elif isinstance(report, Mapping):
        for name, part in report.items():
            yield from numbers(part, f"{path}.{name}" if path else str(name))
    elif isinstance(report, Sequence) and not isinstance(report, str):
        for i, part in enumerate(report):
            yield from numbers(part, f"{path}[{i}]")


def moved(here: object, there: object, path: str = "") -> Iterator[tuple[str, float]]:
    """Yield by how much the numbers of another report differ from those of this one.

    Parts that are about other things, or lists of another length, are not compared.
    """
    if isinstance(here, Mapping) and isinstance(there, Mapping):
        if _about(here) == _about(there):
            for name in here.keys() & there.keys():
                yield from moved(here[name], there[name], f"{path}.{name}" if path else str(name))
    elif isinstance(here, list | tuple) and isinstance(there, list | tuple):
        for i, pair in enumerate(zip(here, there, strict=False) if len(here) == len(there) else ()):
            yield from moved(*pair, f"{path}[{i}]")
    elif _number(here) and _number(there) and here != there:
        yield path, float(cast(float, there)) - float(cast(float, here))


def _about(report: Report) -> tuple[str, ...]:
    """Return which thing a part of a report is about."""
    return tuple(str(report[name]) for name in _WHO if _says(report.get(name)))


def _says(thing: object) -> bool:
    if isinstance(thing, list | tuple):
        return all(isinstance(one, str) for one in thing)
    return isinstance(thing, str)


def _number(thing: object) -> bool:
    return isinstance(thing, int | float) and not isinstance(thing, bool)


def unit_of(path: str) -> str:
    """Return the unit a path says by its name; empty for counts and shares.

    Examples
    --------
    >>> unit_of("facets[0].corner_angles_deg[2]"), unit_of("bays[1].area_m2"), unit_of("packs")
    ('°', 'm²', '')
    """
    name = path.rpartition(".")[2].partition("[")[0]
    return next((unit for ending, unit in _UNITS if name.endswith(ending)), "")


def label(report: Report, path: str) -> str:
    """Return a path in words: what the number is about, and what it is.

    Examples
    --------
    >>> label({"facets": [{"name": "F1", "pitch_deg": 15.0}]}, "facets[0].pitch_deg")
    'F1 pitch'
    """
    thing: Any = report
    about: list[str] = []
    steps = re.findall(r"([^.\[\]]+)|\[(\d+)\]", path)
    for name, place in steps:
        thing = thing[name] if name else thing[int(place)]
        if isinstance(thing, Mapping):
            who = [thing[key] for key in ("mark", "kind", "where", "code", "name") if key in thing]
            about += [str(who[0])] if who else []
            facets = thing.get("facets")
            if "kind" in thing and isinstance(facets, list | tuple):
                about += map(str, facets)
    name = next(name for name, _ in reversed(steps) if name)
    for ending, _ in _UNITS:
        name = name.removesuffix(ending)
    number = f" {int(steps[-1][1]) + 1}" if steps[-1][1] else ""
    return " ".join((*about, name.replace("_", " "))) + number


@dataclass(slots=True)
class Moves:
    """What moves the numbers of one report, and by how much."""

    checked: bool
    _parts: dict[str, list[tuple[float, Measured]]] = field(default_factory=dict)

    def add(self, one: Measured, here: Report, make: Callable[[], Report]) -> None:
        """Take in the report of a neighbour; one that is no roof tells nothing."""
        try:
            there = make()
        except DimensionError:
            return
        for path, by in moved(here, there):
            self._parts.setdefault(path, []).append((by, one))

    def figure(self, path: str, value: float, source: Source, *rests: Figure | Source) -> Figure:
        """Return a number of the report as a figure: what moves it first, then what it rests on."""
        parts = sorted(self._parts.get(path, ()), key=lambda part: -abs(part[0]))
        inputs = tuple(one.figure(checked=self.checked) for _, one in parts)
        return Figure(
            name=path,
            value=value,
            unit=unit_of(path),
            error=math.hypot(*(by for by, _ in parts)) if parts else None,
            source=source,
            inputs=(*inputs, *rests),
        )


def table(figures: Mapping[str, Figure]) -> dict[str, Any]:
    """Return figures as JSON carries them: each input once, and numbered."""
    places: dict[Figure | Source, int] = {}
    inputs: list[dict[str, Any]] = []

    def place(one: Figure | Source) -> int:
        if one not in places:
            row = _plain(one)
            row["from"] = [place(other) for other in getattr(one, "inputs", ())]
            places[one] = len(inputs)
            inputs.append(row)
        return places[one]

    rows = {}
    for path, one in figures.items():
        row = _plain(one)
        row["from"] = [place(other) for other in one.inputs]
        rows[path] = row
    return {"figures": rows, "inputs": inputs}


def plain(figure: Figure) -> dict[str, Any]:
    """Return one figure as JSON carries it, its inputs within it."""
    row = _plain(figure)
    row["from"] = [
        plain(one) if isinstance(one, Figure) else {**_plain(one), "from": []}
        for one in figure.inputs
    ]
    return row


def _plain(one: Figure | Source) -> dict[str, Any]:
    figure = one if isinstance(one, Figure) else Figure(name=one.words, source=one)
    return {
        "name": figure.name,
        "value": figure.value,
        "unit": figure.unit,
        "error": None if figure.error is None else float(f"{figure.error:.3g}"),
        "source": figure.source.words,
        "kind": figure.kind.value,
        "read": figure.source.verified,
        "verified": figure.verified,
    }
