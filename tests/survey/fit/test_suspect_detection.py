"""How surely a planted slip is noticed, and how surely it is traced to the line it is in.

Seeded surveys of random roofs with the recommended readings, each reading with an error of its own
standard error and written down in whole mm or tenths of a degree. One slip is planted in a reading
drawn at random, its size drawn evenly on a logarithmic scale from 5 to 50 standard errors (15 to
150 mm for a tape, 1° to 10° for the inclinometer). The figures are printed.
"""

import math
import sys
from collections import Counter, defaultdict
from dataclasses import dataclass

import numpy as np
import pytest
from scipy import special

from roofmodel.survey.fit import adjustment, closure, suspect
from roofmodel.survey.fit.closure import Verdict
from roofmodel.survey.verdict import state
from tests.survey import random_surveys

SEED = 20240501
BANDS = (6.0, 8.0, 12.0, 20.0, math.inf)


@dataclass
class Study:
    """Counts of one shape; `bands` holds slips, detected and located by the size of the slip."""

    surveys: int
    readings: int = 0
    alarms: int = 0
    over_limit: int = 0
    opened: int = 0
    foreseen: float = 0.0
    misled: int = 0
    bands: dict = None

    def total(self, part):
        return sum(band[part] for band in self.bands.values()) / self.surveys

    @property
    def detected(self):
        return self.total(1)

    @property
    def located(self):
        return self.total(2)


def study(network, surveys, *, size=None):
    rng = np.random.default_rng(SEED)
    found = Study(surveys, bands=defaultdict(Counter))
    for _ in range(surveys):
        clean = random_surveys.survey(network, random_surveys.true_points(network, rng), rng)
        sound = adjustment.adjust(network, clean)
        found.readings = len(clean)
        found.alarms += not sound.fits
        table = closure.table(network, clean)
        found.over_limit += any(c.verdict is not Verdict.HOLDS for c in table)
        found.opened += state.survey_state(sound, table).open
        wrong, slip = random_surveys.plant(clean, rng, size)
        found.foreseen += foreseen(sound, slip)
        line = clean[slip.place].name
        located = suspect.find(adjusted := adjustment.adjust(network, wrong)).located
        found.misled += located not in (None, line)
        band = next(band for band in BANDS if abs(slip.size) < band)
        found.bands[band] += Counter({0: 1, 1: int(not adjusted.fits), 2: int(located == line)})
    return found


def foreseen(sound, slip):
    """Return how surely a slip shows, by the redundancy of its reading alone."""
    residual = sound.residuals[slip.place]
    return float(special.ndtr(abs(slip.size) * math.sqrt(residual.redundancy) - sound.limit))


def told(name, found):
    bands = "  ".join(
        f"<{edge:g}: {band[1] / band[0]:.3f}/{band[2] / band[0]:.3f}"
        for edge, band in sorted(found.bands.items())
    )
    rate = {
        "false alarms": found.alarms, "clean survey open": found.opened,
        "clean closure over its limit": found.over_limit, "wrong line": found.misled,
        "foreseen": found.foreseen,
    }  # fmt: skip
    figures = ", ".join(f"{what} {count / found.surveys:.3f}" for what, count in rate.items())
    return (
        f"{name}: {found.readings} readings, {found.surveys} surveys; detected "
        f"{found.detected:.4f}, located {found.located:.4f}, {figures}; "
        f"detected/located by standard errors {bands}\n"
    )


@pytest.mark.parametrize("name", ["lean-to", "three-facet end", "T wing"])
def test_slips_are_detected_and_located_in_a_small_sample(name, capsys):
    surveys = 30 if name in random_surveys.PLANS else 60
    found = study(random_surveys.SHAPES[name], surveys)
    with capsys.disabled():
        sys.stdout.write("\n" + told(name, found))

    assert found.detected >= 0.93
    assert found.located >= 0.90
    assert found.misled <= 1
    assert found.opened <= 10


@pytest.mark.slow
@pytest.mark.parametrize("name", random_surveys.SHAPES)
def test_99_of_100_slips_are_detected_and_95_located(name, capsys):
    found = study(random_surveys.SHAPES[name], 1000)
    with capsys.disabled():
        sys.stdout.write("\n" + told(name, found))

    assert found.detected >= 0.99
    assert found.located >= 0.95
    assert found.misled / found.surveys <= 0.005
    # The more closures a sheet has, the more of them go over their limit by chance.
    assert found.opened / found.surveys <= (0.12 if name in random_surveys.PLANS else 0.10)


@pytest.mark.slow
def test_slips_of_just_5_standard_errors_show_as_their_redundancy_foresees(capsys):
    """At the limit of detection it is the redundancy of the reading that decides."""
    slips, seen, traced, expected, shares = (Counter() for _ in range(5))
    for name, network in random_surveys.SHAPES.items():
        rng = np.random.default_rng([SEED, len(name)])
        for _ in range(300):
            points = random_surveys.true_points(network, rng)
            clean = random_surveys.survey(network, points, rng)
            sound = adjustment.adjust(network, clean)
            wrong, slip = random_surveys.plant(clean, rng, 5.0)
            tool = network.line(clean[slip.place].name).tool
            adjusted = adjustment.adjust(network, wrong)
            slips[tool] += 1
            seen[tool] += not adjusted.fits
            traced[tool] += suspect.find(adjusted).located == clean[slip.place].name
            expected[tool] += foreseen(sound, slip)
            shares[tool] += sound.residuals[slip.place].redundancy
    lines = [
        f"{tool}: {n} slips, redundancy {shares[tool] / n:.2f}, detected {seen[tool] / n:.3f} "
        f"(foreseen {expected[tool] / n:.3f}), located {traced[tool] / n:.3f}\n"
        for tool, n in sorted(slips.items())
    ]
    with capsys.disabled():
        sys.stdout.write("\nSlips of 5 standard errors, all shapes\n" + "".join(lines))

    for tool, n in slips.items():
        chance = 4.0 * math.sqrt(0.25 / n)
        assert seen[tool] / n >= expected[tool] / n - chance
    assert sum(seen.values()) / sum(slips.values()) > 0.8
