"""Job files as they never should be: samples with something changed at random."""

import copy
import json
from pathlib import Path

import numpy as np

SAMPLES = sorted((Path(__file__).parents[2] / "sample_roofs").glob("*.roofjob.json"))
ODD = (
    None, True, False, 0, -1, 1, 2, 0.0, -0.0, 0.1, 1e-9, 1e9, -1e9, 1e308, 10**12, "", " ", "x",
    "NaN", "\ud800", "\x00", "F1", "F99", [], {}, [[]], [1, 2], {"a": 1}, "a" * 300, "AB", 14.0,
)  # fmt: skip
"""Values that have been typed, pasted or broken into files."""


def places(value, path=()):
    """Yield the path of every value within a value."""
    yield path
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from places(inner, (*path, key))
    elif isinstance(value, list):
        for i, inner in enumerate(value):
            yield from places(inner, (*path, i))


def mutated(random: np.random.Generator) -> str:
    """Return the text of a sample with one to three changes."""
    data = json.loads(SAMPLES[random.integers(len(SAMPLES))].read_text(encoding="utf-8"))
    for _ in range(random.integers(1, 3)):
        _change(data, random)
    text = json.dumps(data)
    if random.random() < 0.05:
        cut = int(random.integers(len(text)))
        text = text[:cut] + text[cut + int(random.integers(1, 40)) :]
    return text


def _change(data, random):
    path = [p for p in places(data) if p][random.integers(sum(1 for _ in places(data)) - 1)]
    where = data
    for step in path[:-1]:
        where = where[step]
    old = where[path[-1]]
    match random.choice([0, 1, 1, 1, 2, 2, 3, 4, 5]):
        case 0:
            where[path[-1]] = copy.deepcopy(ODD[random.integers(len(ODD))])
        case 1 if isinstance(old, int | float) and not isinstance(old, bool):
            where[path[-1]] = old * float(10.0 ** random.uniform(-3, 3))
        case 2 if isinstance(old, int | float) and not isinstance(old, bool):
            where[path[-1]] = old + type(old)(random.integers(-50, 50))
        case 3 if isinstance(where, dict):
            del where[path[-1]]
        case 4 if isinstance(where, list):
            where.insert(path[-1], copy.deepcopy(old))
        case _:
            where[path[-1]] = copy.deepcopy(ODD[random.integers(len(ODD))])
