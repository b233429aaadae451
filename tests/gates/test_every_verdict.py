"""Gates by verdicts: each cell that can be has one example job, and comes out as it says.

A cell left out cannot be: only a figure that is measured is measured again, only a default nobody
entered is assumed, and what nobody can compute here never passes.
"""

import pytest

from roofmodel.foundation.outcome import Outcome
from roofmodel.refit.method import Method
from tests import acceptance_jobs

JOBS = acceptance_jobs.JOBS
# Other figures than the old defaults, which an old file drops as never entered.
_READ = {"gutter_mm": 112.0, "gutter_outlets": 2, "box_outlet_mm": 75.0, "box_outlets": 2}
_SNOW = {"snow_zone": 3, "altitude_m": 100.0}
_STANDING = JOBS["J01"]["standing"]
_WALL = {**_STANDING, "wall_above_mm": 2_500.0}
_ROUND, _NEW, _SWAP = Method.BUILD_ROUND, Method.NEW_ROOF, Method.PANEL_SWAP


def pitched(pitch_deg):
    return {"survey": {**JOBS["J01"]["survey"], "pitch_deg": pitch_deg}}


def silled(sill_mm):
    return {"standing": {**_STANDING, "sill_height_mm": sill_mm}}


def barred(width_mm, bays=3):
    return {"bars": [{"facet": "F1", "width_mm": width_mm, "bays": bays}]}


CELLS = [
    ("survey: readings", Outcome.MEASURE_AGAIN, "J01", _ROUND, {}),
    ("pitch", Outcome.PASS, "J01", _ROUND, {}),
    ("pitch", Outcome.MEASURE_AGAIN, "J01", _ROUND, pitched(14.1)),
    ("pitch", Outcome.FAIL, "J01", _ROUND, pitched(10.0)),
    ("bars", Outcome.PASS, "J01", _ROUND, {}),
    ("bars", Outcome.MEASURE_AGAIN, "J01", _ROUND, {"bars": []}),
    ("bars", Outcome.FAIL, "J01", _SWAP, {"bars": []}),
    (
        "bars: depth",
        Outcome.ASSUMED,
        "J01",
        _ROUND,
        {"standing": {"glazing": "glass", "glazing_mm": 24}},
    ),
    ("headroom: sill", Outcome.PASS, "J01", _ROUND, silled(3_150.0)),
    ("headroom: sill", Outcome.MEASURE_AGAIN, "J01", _ROUND, {}),
    ("headroom: sill", Outcome.FAIL, "J01", _ROUND, silled(2_900.0)),
    ("headroom: doors", Outcome.PASS, "J01", _ROUND, {"site": {"door_head_mm": 1_800.0}}),
    ("headroom: doors", Outcome.MEASURE_AGAIN, "J01", _ROUND, {}),
    ("headroom: doors", Outcome.FAIL, "J01", _ROUND, {"site": {"door_head_mm": 2_100.0}}),
    ("deck", Outcome.PASS, "J01", _ROUND, {}),
    ("deck", Outcome.MEASURE_AGAIN, "J01", _ROUND, {"bars": []}),
    ("deck", Outcome.FAIL, "J01", _ROUND, {"refit": {}}),
    ("fixings: deck", Outcome.PASS, "J10", _ROUND, {}),
    ("fixings: deck", Outcome.MEASURE_AGAIN, "J10", _ROUND, barred(44.0)),
    ("fixings: deck", Outcome.FAIL, "J10", _ROUND, barred(40.0)),
    ("fixings: ceiling board", Outcome.PASS, "J01", _NEW, {}),
    ("stock: width", Outcome.PASS, "J01", _ROUND, {}),
    ("stock: width", Outcome.FAIL, "J10", _ROUND, barred(60.0, bays=2)),
    ("stock: length", Outcome.PASS, "J01", _SWAP, {}),
    ("stock: length", Outcome.FAIL, "J02", _SWAP, {}),
    ("load: snow", Outcome.PASS, "J01", _ROUND, {"site": _SNOW}),
    ("load: snow", Outcome.MEASURE_AGAIN, "J01", _ROUND, {}),
    ("load: snow drift", Outcome.FAIL, "J01", _ROUND, {"site": _SNOW, "standing": _WALL}),
    ("load: deck", Outcome.MEASURE_AGAIN, "J01", _ROUND, {}),
    ("load: deck", Outcome.NOT_CALCULABLE, "J01", _ROUND, {"site": _SNOW, "standing": _WALL}),
    ("load: wind", Outcome.NOT_CALCULABLE, "J01", _ROUND, {}),
    ("member: wall plate", Outcome.ASSUMED, "J01", _NEW, {"site": _SNOW, "standing": _WALL}),
    (
        "member: wall plate",
        Outcome.PASS,
        "J01",
        _NEW,
        {"site": {**_SNOW, "plate_fixings_mm": 600.0}, "standing": _WALL},
    ),
    ("member: bearer", Outcome.FAIL, "J10", _ROUND, {"refit": {"bearers_per_bay": 1}}),
    ("rainwater: gutter", Outcome.ASSUMED, "J01", _ROUND, {}),
    ("rainwater: gutter", Outcome.PASS, "J01", _ROUND, {"site": _READ}),
    ("rainwater: gutter", Outcome.FAIL, "J05", _ROUND, {"site": {**_READ, "gutter_mm": 50.0}}),
    ("rainwater: box", Outcome.ASSUMED, "J05", _ROUND, {}),
    ("rainwater: box", Outcome.PASS, "J05", _ROUND, {"site": _READ}),
    ("mould", Outcome.NOT_CALCULABLE, "J01", _ROUND, {}),
    ("summer peak", Outcome.NOT_CALCULABLE, "J01", _ROUND, {}),
    ("rain noise", Outcome.NOT_CALCULABLE, "J01", _ROUND, {}),
    ("lights", Outcome.FAIL, "J10", _ROUND, {}),
]


@pytest.mark.parametrize(
    ("gate", "outcome", "code", "method", "changes"), CELLS, ids=lambda one: str(one)[:24]
)
def test_each_cell_has_a_job_that_comes_out_so(gate, outcome, code, method, changes):
    drawn = acceptance_jobs.drawn(code, **changes)
    checks = drawn.verdicts(drawn.option_of(method))
    named = [one for one in checks if one.name == gate or one.name.startswith((f"{gate}:", gate))]
    assert outcome in {one.outcome for one in named}, [(one.name, one.outcome) for one in named]


def test_every_verdict_has_its_cells():
    assert {outcome for _, outcome, _, _, _ in CELLS} == set(Outcome)
