"""Surveys of random roofs, none quite square or level, with reading errors and planted slips."""

from dataclasses import dataclass, replace

import numpy as np
from numpy.random import Generator

from roofmodel.shapes.footprint import SideKind
from roofmodel.survey import measure, networks
from roofmodel.survey.measure import Points
from roofmodel.survey.network import Network, reading
from roofmodel.survey.reading import Reading, Unit

SHAPES = {
    "lean-to": networks.lean_to(),
    "gable": networks.gable(),
    "hipped": networks.hipped(),
    "three-facet end": networks.polygonal_end(3),
    "four-facet end": networks.polygonal_end(4),
    "five-facet end": networks.polygonal_end(5),
    "hipped, box gutter": networks.hipped(SideKind.BOX_GUTTER),
    "three-facet end, box gutter": networks.polygonal_end(3, SideKind.BOX_GUTTER),
    "five-facet end, box gutter": networks.polygonal_end(5, SideKind.BOX_GUTTER),
}

OUT_OF_SQUARE_MM = 20.0
UNEQUAL_CANTS_MM = 40.0
OUT_OF_LEVEL_MM = 4.0

STRAIGHT_DEG = 179.0

SMALLEST, LARGEST = 5.0, 50.0
"""Sizes of planted slips, in standard errors of the reading: 15 to 150 mm for a tape."""


@dataclass(frozen=True)
class Slip:
    """A reading that was made wrong on purpose: its place, and by how many standard errors."""

    place: int
    size: float


def true_points(network: Network, rng: Generator) -> Points:
    """Return the points of a random roof as a builder leaves it, (n, 3) [mm]."""
    width = rng.uniform(2400.0, 4500.0)
    ratio = rng.uniform(1.15, 1.6) if network.sides[0].slopes else rng.uniform(0.8, 1.4)
    fronts = [line.name for line in network.lines if line.name.endswith(" off wall") and line.times]
    pitches = [line.name for line in network.lines if line.name.startswith("pitch")]
    values = {
        "AB": width,
        **dict.fromkeys(fronts, width * ratio),
        "height C": rng.uniform(2000.0, 2400.0),
        **dict.fromkeys(pitches, rng.uniform(15.0, 30.0)),
    }
    guess = network.start(values)
    points = np.array([guess[name] for name in network.points])
    spread = np.tile([OUT_OF_SQUARE_MM, OUT_OF_SQUARE_MM, OUT_OF_LEVEL_MM], (len(points), 1))
    for i, name in enumerate(network.points):
        if len(network.corners) > 4 and name in network.corners[2:]:
            spread[i, :2] = UNEQUAL_CANTS_MM
    moved = points + rng.normal(size=points.shape) * spread
    fixed = np.ones(points.size, dtype=bool)
    fixed[list(network.free)] = False
    moved.reshape(-1)[fixed] = points.reshape(-1)[fixed]
    return _plumb_gable(network, moved) if network.shape == "gable" else moved


def _plumb_gable(network: Network, points: Points) -> Points:
    """Stand the apex of the gable above the front line."""
    c, d, p = (network.points.index(name) for name in "CDP")
    share = (points[p, 0] - points[c, 0]) / (points[d, 0] - points[c, 0])
    points[p, 1] = points[c, 1] + share * (points[d, 1] - points[c, 1])
    return points


def survey(network: Network, points: Points, rng: Generator | None) -> tuple[Reading, ...]:
    """Return the recommended readings of a roof; without a generator they are free of error."""
    lines = network.recommended
    wanted = [(line.measure, network.index(line.points)) for line in lines]
    exact = measure.instrument(wanted).values(points)
    found = [reading(line, float(value)) for line, value in zip(lines, exact, strict=True)]
    if rng is None:
        return tuple(found)
    return tuple(_written(r, r.value + rng.normal() * r.standard_error) for r in found)


def plant(readings: tuple[Reading, ...], rng: Generator, size: float | None = None):
    """Return the readings with one slip of a size, or of any size, and where it is."""
    place = int(rng.integers(len(readings)))
    share = rng.uniform()
    size = SMALLEST * (LARGEST / SMALLEST) ** share if size is None else size
    size *= rng.choice([-1.0, 1.0])
    wrong = readings[place]
    if wrong.unit is Unit.DEG and wrong.value + size * wrong.standard_error >= STRAIGHT_DEG:
        size = -size  # a plan angle of 180° and more is refused at the door
    return slipped(readings, Slip(place, size)), Slip(place, size)


def slipped(readings: tuple[Reading, ...], slip: Slip) -> tuple[Reading, ...]:
    """Return the readings with a slip in one of them."""
    wrong = readings[slip.place]
    wrong = _written(wrong, wrong.value + slip.size * wrong.standard_error)
    return (*readings[: slip.place], wrong, *readings[slip.place + 1 :])


def _written(read: Reading, value: float) -> Reading:
    """Return a reading as it is written down: whole millimetres, tenths of a degree."""
    return replace(read, value=round(value, 1 if read.unit is Unit.DEG else 0))
