"""Straps against uplift and spread: a schedule to order and fix by, which an engineer confirms.

Wind has no figure here, and a strap carries nothing that was not calculated. What is printed is how
many straps the usual spacing gives on each plate, so that none is forgotten.
"""

import math

from roofmodel.foundation.outcome import Outcome
from roofmodel.foundation.source import Source
from roofmodel.gates.answer.result import Gate
from roofmodel.refit.refit import Refit
from roofmodel.shapes.roof import Line, LineKind, Roof

MOST_APART_MM = 2_000.0
"""Straps stand no farther apart than this along a plate."""

ACROSS_RAFTERS = 3
"""A strap that steadies a gable reaches over so many rafters, with noggings between them."""

LEAST_LENGTH_MM = 1_000.0
"""A strap that holds a plate down runs at least this far down the wall."""

SOURCE = Source(
    "Approved Document A, from memory",
    "straps at most 2 m apart, 1 m long at plates, over three rafters at gables",
    verified=False,
)
NAME = "frame: straps"
_PLATES = ((LineKind.EAVES, "eaves plate"), (LineKind.BOX_GUTTER, "plate at the box gutter"))


def of_roof(refit: Refit) -> tuple[Gate, ...]:
    """Return the schedule of straps of a roof; always for the engineer to confirm."""
    rows = tuple(_rows(refit.site.roof))
    count = sum(straps(line) for kind, _ in _PLATES for line in refit.site.roof.lines_of(kind))
    sideways = sum(straps(line) for line in refit.site.roof.lines_of(LineKind.VERGE))
    gables = (
        f" Where a verge stands on a wall, {sideways} more of 30 × 5 mm hold the walls to the "
        f"slope, each over {ACROSS_RAFTERS} rafters."
        if sideways
        else ""
    )
    return (
        Gate(
            name=NAME,
            question="Is the roof strapped down, and held together at the eaves?",
            outcome=Outcome.MEASURE_AGAIN,
            reason=f"At {MOST_APART_MM / 1000.0:g} m and at both ends {count} straps of "
            f"{LEAST_LENGTH_MM / 1000.0:g} m hold the plates down.{gables} No figure here says "
            "whether the walls below are heavy enough, or what keeps the eaves from "
            "spreading.",
            remedy="Have the engineer confirm number, fixing and ties; the frames of glazed "
            "doors cannot take straps.",
            value=float(count),
            unit="straps",
            source=SOURCE,
            details=rows,
        ),
    )


def straps(line: Line) -> int:
    """Return how many straps a plate takes: one at each end, the rest at most so far apart."""
    return math.ceil(line.length_mm / MOST_APART_MM - 1e-9) + 1


def _rows(roof: Roof) -> list[tuple[str, str]]:
    every = (*_PLATES, (LineKind.VERGE, "verge, if on a wall,"))
    return [
        (
            f"{words} {number}",
            f"{line.length_mm / 1000.0:.2f} m: {straps(line)} straps, "
            f"{line.length_mm / (straps(line) - 1):.0f} mm apart",
        )
        for kind, words in every
        for number, line in enumerate(roof.lines_of(kind), start=1)
    ]
