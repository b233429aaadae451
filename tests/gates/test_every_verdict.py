"""Gates by verdicts: each cell has an example job that comes out so, or a reason why it cannot be.

The answers about house and neighbours have their own cases in `consent/test_every_consent.py`,
which stand in the same table.
"""

import json
from functools import cache

import pytest

from roofmodel.foundation import resources
from roofmodel.foundation.outcome import Outcome
from roofmodel.refit.method import Method
from roofmodel.storage import job_file
from roofmodel.workbench.job import reckoning
from tests import acceptance_jobs
from tests.gates.consent import test_every_consent as consents

JOBS = acceptance_jobs.JOBS
PASS, ASSUMED, NC = Outcome.PASS, Outcome.ASSUMED, Outcome.NOT_CALCULABLE
AGAIN, FAIL = Outcome.MEASURE_AGAIN, Outcome.FAIL
ROUND, NEW, SWAP = Method.BUILD_ROUND, Method.NEW_ROOF, Method.PANEL_SWAP

_STANDING = JOBS["J01"]["standing"]
_WALL = {**_STANDING, "wall_above_mm": 2_500.0}
_LOW_WALL = {**_STANDING, "wall_above_mm": 150.0}
_ZONE_3 = {"snow_zone": 3, "altitude_m": 100.0}
_ZONE_5 = {"snow_zone": 5, "altitude_m": 400.0}
_ZONE_1 = {"snow_zone": 1, "altitude_m": 0.0, "house_depth_m": 4.0}
_GUTTER = {"gutter_mm": 112.0, "gutter_outlets": 2, "downpipe_mm": 70.0}
_OUTLET = {"box_outlet_mm": 75.0, "box_outlets": 2}
_BOX = {
    **_GUTTER,
    "box_width_mm": 200.0,
    "box_depth_mm": 100.0,
    "box_fall_mm": 20.0,
    "box_rain_l_s_m2": 0.05,
    "box_rain_source": "an invented letter",
}
_WEATHER = {
    "name": "an invented station",
    "source": "invented",
    "temperature_c": [4, 4, 6, 8, 11, 14, 16, 16, 14, 11, 7, 5],
    "humidity_percent": [86, 84, 81, 78, 77, 77, 77, 79, 81, 84, 86, 87],
}
_OWN_LIMIT = {"climate": _WEATHER, "nation": "England", "u_limit_source": "an invented letter"}
_BAR = {"bar_shape": "hollow box", "bar_depth_mm": 150.0, "bar_wall_mm": 4.0}


def pitched(pitch_deg):
    return {"survey": {**JOBS["J01"]["survey"], "pitch_deg": pitch_deg}}


def barred(width_mm, bays=3):
    return {"bars": [{"facet": "F1", "width_mm": width_mm, "bays": bays}]}


def battened(spacing_mm):
    layers = JOBS["J01"]["refit"]["stacks"][0]["layers"]
    changed = [{**one, "spacing_mm": spacing_mm} if "spacing_mm" in one else one for one in layers]
    return {"refit": {"stacks": [{"method": "build-round", "layers": changed}]}}


def standing(**more):
    return {"standing": {**_LOW_WALL, **more}}


# One job serves as many cells as it can: each is reckoned once.
EXAMPLES = {
    "plain": ("J01", {}),
    "no bars": ("J01", {"bars": []}),
    "14.1°": ("J01", pitched(14.1)),
    "10°": ("J01", {**pitched(10.0), **standing(bar_depth_mm=None)}),
    "pitch nobody states": ("J01", {**pitched(10.0)}),
    "high sill, low door": (
        "J01",
        {
            **standing(sill_height_mm=3_150.0),
            "site": {"door_head_mm": 1_800.0, "least_ceiling_mm": 1_800.0, **_ZONE_1},
            "heat": {"wall_glazing_m2": 12.0},
        },
    ),
    "sill, door, ceiling on the edge": (
        "J01",
        {
            **standing(sill_height_mm=3_050.0),
            "site": {"door_head_mm": 1_911.0, "least_ceiling_mm": 1_911.0},
        },
    ),
    "low sill, high door": (
        "J01",
        {
            **standing(sill_height_mm=2_900.0),
            "site": {"door_head_mm": 2_100.0, "least_ceiling_mm": 2_100.0},
        },
    ),
    "thin deck": ("J01", {"refit": {}}),
    "wide bars": ("J10", {}),
    "bars of 44": ("J10", barred(44.0)),
    "bars of 40": ("J10", barred(40.0)),
    "battens 600": ("J01", battened(600.0)),
    "battens 700": ("J01", battened(700.0)),
    "two wide bays": ("J10", barred(60.0, bays=2)),
    "bays as wide as the board": (
        "J10",
        {**barred(60.0, bays=2), "survey": {**JOBS["J10"]["survey"], "width_mm": 2_538.0}},
    ),
    "long panels": ("J02", {}),
    "panels as long as stock": (
        "J02",
        {
            "survey": {**JOBS["J02"]["survey"], "projection_mm": 2_940.0},
            "heat": {"u_limit_w_m2k": 3.0, "u_limit_source": "an invented letter"},
        },
    ),
    "glass": ("J07", {}),
    "hips": ("J04", {}),
    "box gutter": ("J05", {}),
    "box gutter read": (
        "J05",
        {"site": {**_BOX, **_OUTLET, "box_overflow": True, "box_weir_mm": 500.0}},
    ),
    "box gutter too small": (
        "J05",
        {
            "site": {
                **_BOX,
                "box_outlet_mm": 40.0,
                "box_outlets": 1,
                "box_overflow": True,
                "box_weir_mm": 10.0,
                "box_rain_l_s_m2": 0.2,
            }
        },
    ),
    "no overflow": ("J05", {"site": {"box_overflow": False}}),
    "box gutter, outlets not seen": ("J05", {"site": _BOX}),
    "house roof into the box gutter": (
        "J05",
        {
            "standing": {**JOBS["J05"]["standing"], "house_roof_m2": 30.0},
            "site": {"box_outlet_mm": 63.0, "box_outlets": 1},
        },
    ),
    "snow, low wall": ("J01", {**standing(), "site": {**_ZONE_1, **_GUTTER}}),
    "snow, wall": ("J01", {"standing": _WALL, "site": {**_ZONE_3, "plate_fixings_mm": 500.0}}),
    "snow, wall, fixings not seen": ("J01", {"standing": _WALL, "site": _ZONE_3}),
    "snow, plate fixed far apart": (
        "J01",
        {"standing": _WALL, "site": {**_ZONE_5, "plate_fixings_mm": 1_500.0}},
    ),
    "snow of the hills": ("J01", {"standing": _WALL, "site": _ZONE_5}),
    "a limit no roof meets": (
        "J01",
        {"heat": {"u_limit_w_m2k": 0.02, "u_limit_source": "an invented letter"}},
    ),
    "own limit, weather": (
        "J01",
        {"site": _ZONE_5, "heat": {**_OWN_LIMIT, "u_limit_w_m2k": 0.9, "wall_glazing_m2": 0.1}},
    ),
    "limit a bar may miss": ("J01", {"heat": {**_OWN_LIMIT, "u_limit_w_m2k": 0.25}}),
    "valley": ("wing", {"site": _ZONE_1}),
    "valley of the hills": ("wing", {"site": _ZONE_5}),
    "bearer": ("J10", {"refit": {"bearers_per_bay": 1}}),
    "one outlet just": (
        "J01",
        {
            "site": {
                "gutter_mm": 112.0,
                "gutter_outlets": 1,
                "downpipe_mm": 30.0,
                "rain_l_s_m2": 0.0789,
                "rain_source": "an invented letter",
            }
        },
    ),
    "outlets not counted": ("J01", {"site": {"gutter_mm": 50.0, "downpipe_mm": 70.0}}),
    "narrow gutter": (
        "J05",
        {"site": {**_GUTTER, "gutter_mm": 50.0, "gutter_outlets": 1, **_OUTLET}},
    ),
    "bars read": ("J01", {**standing(**_BAR, bar_proof_n_mm2=160.0), "site": _ZONE_1}),
    "bars read, alloy not known": ("J01", {**standing(**_BAR), "site": _ZONE_1}),
    "thin bars read": (
        "J01",
        {**standing(**{**_BAR, "bar_depth_mm": 50.0, "bar_wall_mm": 2.0}), "site": _ZONE_1},
    ),
    "bars of foil": ("J01", {**standing(**{**_BAR, "bar_wall_mm": 1.0}), "site": _ZONE_1}),
    "bars read, no snow": ("J01", standing(**_BAR, bar_proof_n_mm2=160.0)),
    "lights clear": ("J01", battened(600.0)),
    "surveyed": ("surveyed-lean-to", {}),
    "a slip of 100 mm": ("surveyed-lean-to", {"BD": 5_176.0}),
}

CELLS = {
    "survey: readings": {PASS: ("surveyed", ROUND), AGAIN: ("plain", ROUND)},
    "survey: closures": {PASS: ("surveyed", ROUND), AGAIN: ("a slip of 100 mm", ROUND)},
    "pitch": {PASS: ("plain", ROUND), AGAIN: ("14.1°", ROUND), FAIL: ("10°", ROUND)},
    "pitch: valley": {AGAIN: ("valley", ROUND)},
    "headroom: sill": {
        PASS: ("high sill, low door", ROUND),
        AGAIN: ("sill, door, ceiling on the edge", ROUND),
        FAIL: ("low sill, high door", ROUND),
    },
    "headroom: doors": {
        PASS: ("high sill, low door", ROUND),
        AGAIN: ("sill, door, ceiling on the edge", ROUND),
        FAIL: ("low sill, high door", ROUND),
    },
    "headroom: ceiling": {
        PASS: ("high sill, low door", ROUND),
        AGAIN: ("sill, door, ceiling on the edge", ROUND),
        FAIL: ("low sill, high door", ROUND),
    },
    "bars": {PASS: ("plain", ROUND), AGAIN: ("no bars", ROUND), FAIL: ("no bars", SWAP)},
    "bars: depth": {ASSUMED: ("10°", ROUND)},
    "deck": {PASS: ("plain", ROUND), AGAIN: ("no bars", ROUND), FAIL: ("thin deck", ROUND)},
    "fixings: deck": {
        PASS: ("wide bars", ROUND),
        AGAIN: ("bars of 44", ROUND),
        FAIL: ("bars of 40", ROUND),
    },
    "fixings: ceiling board": {
        PASS: ("plain", NEW),
        AGAIN: ("battens 600", ROUND),
        FAIL: ("battens 700", ROUND),
    },
    "stock: width": {
        PASS: ("plain", ROUND),
        AGAIN: ("bays as wide as the board", ROUND),
        FAIL: ("two wide bays", ROUND),
    },
    "stock: length": {
        PASS: ("plain", SWAP),
        AGAIN: ("panels as long as stock", SWAP),
        FAIL: ("long panels", SWAP),
    },
    "load: dead": {PASS: ("glass", SWAP), AGAIN: ("plain", SWAP), FAIL: ("plain", ROUND)},
    "load: bars": {PASS: ("glass", SWAP), AGAIN: ("box gutter", ROUND), NC: ("plain", ROUND)},
    "load: total": {PASS: ("glass", SWAP), AGAIN: ("plain", ROUND)},
    "load: deck": {
        PASS: ("snow, low wall", ROUND),
        AGAIN: ("plain", ROUND),
        NC: ("snow, wall", ROUND),
    },
    "load: ties": {PASS: ("glass", SWAP), AGAIN: ("hips", ROUND)},
    "load: wind": {NC: ("plain", ROUND)},
    "load: snow": {
        PASS: ("snow, low wall", ROUND),
        AGAIN: ("plain", ROUND),
        FAIL: ("snow of the hills", ROUND),
    },
    "load: snow drift": {
        PASS: ("snow, low wall", ROUND),
        AGAIN: ("plain", ROUND),
        FAIL: ("snow, wall", ROUND),
    },
    "load: snow in valleys": {
        PASS: ("valley", ROUND),
        FAIL: ("valley of the hills", ROUND),
    },
    "member: wall plate": {
        PASS: ("snow, wall", NEW),
        ASSUMED: ("snow, wall, fixings not seen", NEW),
        AGAIN: ("plain", NEW),
        FAIL: ("snow, plate fixed far apart", NEW),
    },
    "member: bar": {
        PASS: ("bars read", ROUND),
        ASSUMED: ("bars read, alloy not known", ROUND),
        NC: ("bars of foil", ROUND),
        AGAIN: ("bars read, no snow", ROUND),
        FAIL: ("thin bars read", ROUND),
    },
    "member": {PASS: ("plain", ROUND), AGAIN: ("plain", NEW), FAIL: ("bearer", ROUND)},
    "rainwater: gutter": {
        PASS: ("snow, low wall", ROUND),
        ASSUMED: ("plain", ROUND),
        AGAIN: ("one outlet just", ROUND),
        FAIL: ("narrow gutter", ROUND),
    },
    "rainwater: downpipe": {
        PASS: ("snow, low wall", ROUND),
        ASSUMED: ("outlets not counted", ROUND),
        AGAIN: ("plain", ROUND),
        FAIL: ("one outlet just", ROUND),
    },
    "rainwater: box gutter": {
        PASS: ("box gutter read", ROUND),
        ASSUMED: ("box gutter", ROUND),
        NC: ("box gutter too small", ROUND),
        FAIL: ("house roof into the box gutter", ROUND),
    },
    "rainwater: storm on": {
        PASS: ("box gutter read", ROUND),
        ASSUMED: ("box gutter, outlets not seen", ROUND),
        AGAIN: ("box gutter", ROUND),
        FAIL: ("box gutter too small", ROUND),
    },
    "rainwater: overflow": {
        PASS: ("box gutter read", ROUND),
        AGAIN: ("box gutter", ROUND),
        FAIL: ("no overflow", ROUND),
    },
    "rainwater: spill weir": {
        PASS: ("box gutter read", ROUND),
        AGAIN: ("box gutter", ROUND),
        FAIL: ("box gutter too small", ROUND),
    },
    "rainwater: size": {PASS: ("box gutter read", ROUND), AGAIN: ("box gutter", ROUND)},
    "thermal": {
        PASS: ("own limit, weather", NEW),
        AGAIN: ("plain", ROUND),
        NC: ("panels as long as stock", SWAP),
        FAIL: ("a limit no roof meets", NEW),
    },
    "thermal, any one point": {
        PASS: ("own limit, weather", NEW),
        AGAIN: ("plain", ROUND),
        FAIL: ("limit a bar may miss", ROUND),
    },
    "heat loss": {PASS: ("plain", ROUND), AGAIN: ("box gutter", ROUND)},
    "condensation": {
        PASS: ("own limit, weather", NEW),
        AGAIN: ("plain", ROUND),
        NC: ("plain", SWAP),
    },
    "mould": {
        PASS: ("own limit, weather", NEW),
        AGAIN: ("plain", NEW),
        NC: ("plain", ROUND),
        FAIL: ("plain", SWAP),
    },
    "dew point": {AGAIN: ("plain", ROUND), FAIL: ("plain", SWAP)},
    "vapour rules": {PASS: ("plain", SWAP), AGAIN: ("plain", ROUND)},
    "summer peak": {NC: ("plain", ROUND), AGAIN: ("box gutter", ROUND)},
    "rain noise": {NC: ("plain", ROUND), AGAIN: ("plain", SWAP)},
    "daylight left": {
        PASS: ("high sill, low door", ROUND),
        AGAIN: ("plain", ROUND),
        FAIL: ("own limit, weather", NEW),
    },
    "lights": {PASS: ("battens 600", ROUND), FAIL: ("plain", ROUND)},
    "hands": {PASS: ("hips", NEW), AGAIN: ("surveyed", ROUND)},
    "access": {AGAIN: ("plain", ROUND)},
}

_NO_DEFAULT = "nothing it rests on has a default that nobody entered"
_FIGURE = "its figure is always calculated, or what it lacks is asked for"
_ONLY = "it is asked only where it is open, and goes away with the answer"
_NO_LIMIT = "it has no limit that could be missed"
CANNOT = {
    "survey: readings": {FAIL: "what is not read is read, it is not wrong"},
    "survey: closures": {FAIL: "readings that disagree are taken again"},
    "pitch: valley": dict.fromkeys((PASS, NC, FAIL), "no maker's figure for liners is here"),
    "bars: depth": dict.fromkeys((PASS, NC, AGAIN, FAIL), _ONLY),
    "deck": {NC: "only boards whose span table is here are sold as a deck"},
    "load: dead": {NC: _FIGURE},
    "load: bars": {FAIL: "no maker's span table is here; “member: bar” fails"},
    "load: total": {FAIL: "whether more is too much is the engineer's to say"},
    "load: deck": {FAIL: "the board maker's span table at that load is not here"},
    "load: ties": {FAIL: _NO_LIMIT},
    "load: wind": dict.fromkeys((PASS, AGAIN, FAIL), "wind keeps no number of ours"),
    "load: snow in valleys": {AGAIN: "it is asked only where the snow is known"},
    "rainwater: box gutter": {AGAIN: "what is led into it decides by far more than its error"},
    "rainwater: size": {FAIL: _NO_LIMIT},
    "thermal, any one point": {NC: "a bar it cannot tell of is measured again"},
    "heat loss": {FAIL: _NO_LIMIT},
    "condensation": {FAIL: "see tests/gates/damp: no stack that ships wets without drying"},
    "dew point": {PASS: "see tests/gates/damp: only insulation outside the deck is warm enough"},
    "vapour rules": {FAIL: "see tests/gates/damp: no stack that ships has its order wrong"},
    "summer peak": dict.fromkeys((PASS, FAIL), "an indication never passes, and has no limit"),
    "rain noise": dict.fromkeys((PASS, FAIL), "an indication never passes, and has no limit"),
    "lights": {AGAIN: "where lights stand is entered, not measured"},
    "hands": {FAIL: "a roof need not be its own mirror image"},
    "access": dict.fromkeys((PASS, FAIL), "a glazed roof counts as fragile, always"),
}


@cache
def drawn(example):
    code, changes = EXAMPLES[example]
    if code in JOBS:
        return acceptance_jobs.drawn(code, **changes)
    path = resources.sample_roofs() / f"{code}{job_file.SUFFIX}"
    job = json.loads(path.read_text(encoding="utf-8"))
    for reading in job.get("readings", ()):
        reading["value"] = changes.get(reading["name"], reading["value"])
    job["site"] = changes.get("site", job.get("site", {}))
    return reckoning.reckon(job_file.loads(json.dumps(job)))


@cache
def verdicts(example, method):
    found = drawn(example)
    return found.verdicts(found.option_of(method))


def gate_of(name):
    """Return the row of the table a check belongs to: the longest that fits."""
    fits = [
        row for row in CELLS if name == row or name.startswith((f"{row}:", f"{row} ", f"{row}, 4"))
    ]
    return max(fits, key=len, default=None)


@pytest.mark.parametrize(
    ("gate", "outcome"),
    [
        pytest.param(gate, outcome, id=f"{gate}, {outcome}")
        for gate, row in CELLS.items()
        for outcome in row
    ],
)
def test_each_cell_has_a_job_that_comes_out_so(gate, outcome):
    found = [one for one in verdicts(*CELLS[gate][outcome]) if gate_of(one.name) == gate]

    assert outcome in {one.outcome for one in found}, [(one.name, one.outcome) for one in found]


@pytest.mark.parametrize("gate", CELLS)
def test_a_cell_without_a_job_says_why_it_cannot_be(gate):
    reasons = {ASSUMED: _NO_DEFAULT, NC: _FIGURE, **CANNOT.get(gate, {})}

    assert [one for one in Outcome if one not in CELLS[gate] and one not in reasons] == []
    assert [one for one in CANNOT.get(gate, {}) if one in CELLS[gate]] == []


def test_every_gate_of_every_job_here_has_a_row_here_or_among_the_consents():
    names = {
        one.name for row in CELLS.values() for example in row.values() for one in verdicts(*example)
    }

    assert {name for name in names if gate_of(name) is None} - set(consents.CASES) == set()


@pytest.mark.parametrize("gate", consents.CASES)
def test_no_answer_about_the_house_is_assumed_or_a_figure_nobody_calculates(gate):
    """What is asked has no default, and is known or not: three of five verdicts are left."""
    assert {outcome for _, outcome in consents.CASES[gate]} <= {PASS, AGAIN, FAIL}
