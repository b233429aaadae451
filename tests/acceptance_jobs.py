"""The acceptance jobs as job files, so that every room tests the same roofs."""

import json
from dataclasses import replace
from datetime import date

from roofmodel.storage import job_file
from roofmodel.workbench.job import named_release, reckoning

_LEAN_TO = {
    "shape": "lean-to",
    "eaves_height_mm": 2100.0,
    "left_end": "verge",
    "right_end": "verge",
}
_POLYCARBONATE = {"glazing": "polycarbonate", "glazing_mm": 25.0, "bar_depth_mm": 75.0}
_THICK_DECK = [
    {"material": "PLS-25", "zone": "room", "lie": "over", "thickness_mm": 2.0},
    {"material": "BRD-PB12", "zone": "room", "lie": "over"},
    {"material": "TIM-CB38", "zone": "room", "lie": "across", "spacing_mm": 400.0},
    {"material": "INS-MF30", "zone": "room", "lie": "over"},
    {"material": "TIM-B25", "zone": "room", "lie": "along"},
    {"material": "INS-PIR75", "zone": "bars", "lie": "between"},
    {"material": "BRD-OSB22", "zone": "outside", "lie": "over"},
    {"material": "MEM-BR15", "zone": "outside", "lie": "over"},
    {"material": "TIL-LW", "zone": "outside", "lie": "over", "thickness_mm": 25.0},
]


def _bars(facet, bays, **more):
    return {"facet": facet, "width_mm": 60.0, "bays": bays, **more}


JOBS = {
    "J01": {
        "survey": {**_LEAN_TO, "width_mm": 4000.0, "projection_mm": 2800.0, "pitch_deg": 15.0},
        "bars": [_bars("F1", 6, bars=7)],
        "standing": _POLYCARBONATE,
        "refit": {"stacks": [{"method": "build-round", "layers": _THICK_DECK}]},
        "lights": [
            {"facet": "F1", "body_mm": 85.0, "depth_mm": 35.0, "slope_shares": [0.55]},
        ],
    },
    "J02": {
        "survey": {
            **_LEAN_TO,
            "width_mm": 3500.0,
            "projection_mm": 3000.0,
            "wall_plate_height_mm": 2680.0,
        },
        "bars": [_bars("F1", 6)],
        "standing": {"glazing": "polycarbonate", "glazing_mm": 16.0, "sill_height_mm": 2750.0},
        "refit": {"method": "panel-swap"},
    },
    "J04": {
        "survey": {
            "shape": "polygonal-end",
            "width_mm": 3500.0,
            "projection_mm": 3600.0,
            "eaves_height_mm": 2100.0,
            "pitch_deg": 25.0,
            "end_facets": 3,
            "rear": "house wall",
        },
        "bars": [
            _bars("F1", 3, corner="right", over_mm=1850.0),
            *(_bars(facet, 2) for facet in ("F2", "F3", "F4")),
            _bars("F5", 3, corner="left", over_mm=1850.0),
        ],
        "standing": _POLYCARBONATE,
    },
    "J05": {
        "survey": {
            "shape": "polygonal-end",
            "width_mm": 4000.0,
            "projection_mm": 4800.0,
            "eaves_height_mm": 2100.0,
            "pitch_deg": 22.0,
            "end_facets": 3,
            "rear": "box gutter",
            "rear_pitch_deg": 22.0,
        },
        "standing": {**_POLYCARBONATE, "wall_above_mm": 2500.0},
    },
    "J06": {
        "survey": {
            "shape": "hipped",
            "width_mm": 3000.0,
            "projection_mm": 3400.0,
            "eaves_height_mm": 2100.0,
            "left_pitch_deg": 25.0,
            "right_pitch_deg": 25.0,
            "front_pitch_deg": 35.0,
            "rear": "house wall",
        },
        "refit": {"method": "new-roof"},
    },
    "J07": {
        "survey": {
            "shape": "gable",
            "width_mm": 3800.0,
            "projection_mm": 4200.0,
            "eaves_height_mm": 2100.0,
            "left_pitch_deg": 30.0,
            "right_pitch_deg": 30.0,
        },
        "bars": [_bars("F1", 7), _bars("F2", 7)],
        "standing": {
            "glazing": "glass",
            "glazing_mm": 24.0,
            "bar_depth_mm": 75.0,
            "tie_bars": 2,
        },
    },
    "J10": {
        "survey": {**_LEAN_TO, "width_mm": 3150.0, "projection_mm": 2500.0, "pitch_deg": 18.0},
        "bars": [_bars("F1", 3, bars=4)],
        "standing": _POLYCARBONATE,
        "lights": [
            {"facet": "F1", "body_mm": 85.0, "depth_mm": 60.0, "slope_shares": [0.25, 0.75]}
        ],
    },
}
"""Fields of each job by its code, as its file holds them."""


def job(code, **changes):
    """Return an acceptance job; ``changes`` replace fields of its file."""
    fields = {**JOBS[code], **changes}
    return job_file.loads(json.dumps({"schema_version": 2, "code": code, **fields}))


def drawn(code, **changes):
    """Return an acceptance job, reckoned."""
    return reckoning.reckon(job(code, **changes))


def released(code, method=None, **changes):
    """Return an acceptance job, reckoned, that an invented surveyor released for one method."""
    found = drawn(code, **changes)
    option = found.option if method is None else found.option_of(method)
    given = named_release.released(found.job, option, by="invented surveyor", on=date(2026, 11, 2))
    return replace(found, job=replace(found.job, released=given))
