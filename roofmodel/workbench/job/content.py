"""What is released for cutting: a short name for everything the pieces of a method follow from."""

import dataclasses
import json
from typing import Any

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.foundation import fingerprint
from roofmodel.storage import job_file
from roofmodel.storage.job import Job
from roofmodel.workbench.job.options import Option

LETTERS = 6

_CUT_FROM = ("survey", "readings", "answers", "bars", "standing", "boards")
"""Entries of a job that its pieces follow from; those of the refit are named apart."""

_NOT_CUT_FROM = {"method", "counting"}
"""Entries of the refit that change no piece: the method is named by itself."""

_OF_A_SHEET = (
    "code",
    "length_mm",
    "width_mm",
    "thickness_mm",
    "strength_axis",
    "faces",
    "hip_edges",
    "kerf_mm",
    "trim_mm",
    "board_gap_mm",
    "wall_gap_mm",
    "minimum_piece_mm",
    "stagger_mm",
)


def name(job: Job, option: Option) -> str:
    """Return the short name of what a method's pieces follow from.

    Entries of the job, the layers of the method with their thickness, and what the catalogue says
    of their sheets. Another width, stock size, saw cut, layer or reading gives another name; a
    price, a customer or a note does not.
    """
    entered = json.loads(job_file.dumps(job))
    refit = entered.get("refit", {})
    content: dict[str, Any] = {key: entered.get(key) for key in _CUT_FROM}
    content["refit"] = {key: refit[key] for key in refit if key not in _NOT_CUT_FROM}
    content["method"] = option.method.value
    content["sheets"] = [_sheet(one.good) for layer in option.sheets for one in layer.sizes]
    if option.refit is not None:
        content["layers"] = [
            [layer.material.code, round(layer.inside_mm, 3), round(layer.outside_mm, 3)]
            for layer in option.refit.layers
        ]
    return fingerprint.letters(json.dumps(content, sort_keys=True), LETTERS)


def _sheet(good: SheetGood) -> dict[str, object]:
    fields = dataclasses.asdict(good)
    return {key: fields[key] for key in _OF_A_SHEET}
