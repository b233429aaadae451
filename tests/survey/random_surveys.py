"""Surveys of random roofs, none quite square or level, with reading errors and planted slips."""

from dataclasses import dataclass, replace

import numpy as np
from numpy.random import Generator

from roofmodel.shapes.footprint import SideKind
from roofmodel.survey.readings import measure
from roofmodel.survey.readings.measure import Points
from roofmodel.survey.readings.network import Network, reading
from roofmodel.survey.readings.reading import Reading, Unit
from roofmodel.survey.sheets import networks
from roofmodel.survey.taped.free_plan import FreePlanSurvey, PlanSide
from roofmodel.survey.taped.joined_plan import SideLeanToSurvey, WingSurvey
from roofmodel.survey.taped.survey import LeanToSurvey

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

LOW = {"eaves_height_mm": 2100.0}
BROAD = {"width_mm": 4500.0, "projection_mm": 2500.0, **LOW}
WING = {
    "width_mm": 6000.0, "projection_mm": 2500.0, "wing_width_mm": 2400.0,
    "wing_projection_mm": 1800.0, "pitch_deg": 25.0, **LOW,
}  # fmt: skip


def free_plan(*sides):
    """Return a survey of a plan by its sides: x, y, kind, pitch, and level where it is not 0."""
    return FreePlanSurvey(
        sides=tuple(
            PlanSide(x_mm=x, y_mm=y, kind=kind, pitch_deg=pitch, level_mm=sum(level))
            for x, y, kind, pitch, *level in sides
        ),
        **LOW,
    )


SURVEYS = {
    "lean-to, one end hipped": LeanToSurvey(pitch_deg=20, left_end="hip", **BROAD),
    "lean-to, both ends hipped": LeanToSurvey(
        pitch_deg=20, left_end="hip", right_end="hip", right_pitch_deg=30, **BROAD
    ),
    "L wing": WingSurvey(wing_from_right_mm=0.0, **WING),
    "T wing": WingSurvey(wing_from_right_mm=1800.0, **WING),
    "P plan": SideLeanToSurvey(
        width_mm=3500, projection_mm=4400, end_facets=3, lean_to_width_mm=1800,
        lean_to_projection_mm=1500, pitch_deg=22, **LOW,
    ),
    "plan with a notch": free_plan(
        (4000, 0, "house wall", None), (2000, 0, "box gutter", 20), (2000, 800, "box gutter", 20),
        (0, 800, "eaves", 25), (0, 3500, "eaves", 25), (4000, 3500, "eaves", 25),
    ),
    "plan with a raised box gutter": free_plan(
        (4000, 0, "box gutter", 20, 150), (0, 0, "eaves", 25), (0, 4500, "eaves", 25),
        (4000, 4500, "eaves", 25),
    ),
    "gable on eaves of two levels": free_plan(
        (4000, 0, "house wall", None), (0, 0, "eaves", 25), (0, 3500, "verge", None),
        (4000, 3500, "eaves", 30, 200),
    ),
}  # fmt: skip
"""Shapes that are lettered from the roof their typed values make."""

PLANS = {name: networks.of_survey(survey) for name, survey in SURVEYS.items()}
SHAPES |= PLANS

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
    if network.plan is not None:
        return _true_plan(network, rng)
    width = rng.uniform(2400.0, 4500.0)
    ratio = rng.uniform(1.15, 1.6) if network.sides[0].slopes else rng.uniform(0.8, 1.4)
    fronts = [line.name for line in network.lines if line.name[1:] == " off AB" and line.times]
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


def _true_plan(network: Network, rng: Generator) -> Points:
    """Return the points of a random roof over a plan: stretched three ways, then moved."""
    guess = network.start({})
    points = np.array([guess[name] for name in network.points])
    foot = points[network.points.index(network.corners[1])].copy()
    foot[2] = points[:, 2].min()
    points = foot + (points - foot) * rng.uniform([0.75, 0.75, 0.7], [1.2, 1.2, 1.3])
    moved = points + rng.normal(size=points.shape) * np.array(
        [OUT_OF_SQUARE_MM, OUT_OF_SQUARE_MM, OUT_OF_LEVEL_MM]
    )
    fixed = np.ones(points.size, dtype=bool)
    fixed[list(network.free)] = False
    moved.reshape(-1)[fixed] = points.reshape(-1)[fixed]
    return _stand_upright(network, moved)


def _stand_upright(network: Network, points: Points) -> Points:
    """Stand the points over verges, walls and raised eaves on their sides of the plan."""
    at = network.points.index
    for top in network.plan.tops:
        for i in network.plan.on_sides(top):
            p, q = (points[at(corner)] for corner in network.plan.side_pairs[i])
            along = (q - p)[:2] / np.hypot(*(q - p)[:2])
            spot = points[at(top)]
            spot[:2] = p[:2] + along * float(along @ (spot - p)[:2])
    return points


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
