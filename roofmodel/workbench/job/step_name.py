"""What a step of the history is called, told from the job before it and the job after."""

from collections.abc import Sequence
from dataclasses import fields

from roofmodel.foundation import entered
from roofmodel.storage.job import Job
from roofmodel.survey.taped.free_plan import PlanSide
from roofmodel.survey.taped.survey import RoofSurvey

_PARTS = {
    "readings": "readings",
    "kept_readings": "readings",
    "answers": "decision on a reading",
    "bars": "bars",
    "standing": "existing roof",
    "refit": "method and layers",
    "lights": "lights",
    "site": "site",
    "house": "house",
    "heat": "heat and damp",
    "photos": "photographs",
}
_SIDE = {"kind": "what is there", "pitch_deg": "pitch", "level_mm": "level"}


def of_step(before: Job, after: Job) -> str:
    """Return a step's name, such as ``width 3000 to 3100``; several changes name the first."""
    if before.survey != after.survey:
        return _of_survey(before.survey, after.survey)
    for one in fields(Job):
        if getattr(before, one.name) != getattr(after, one.name):
            return _PARTS.get(one.name, one.name.replace("_", " "))
    return "nothing"


def _of_survey(before: RoofSurvey, after: RoofSurvey) -> str:
    if before.shape != after.shape:
        return "shape"
    changed = [
        one.name
        for one in fields(before)
        if getattr(before, one.name) != getattr(after, one.name, None)
    ]
    if changed == ["sides"]:
        return _of_sides(getattr(before, "sides", ()), getattr(after, "sides", ()))
    if len(changed) != 1:
        return "sizes"
    (name,) = changed
    label = entered.label(type(before), name)
    label = label[:1].lower() + label[1:]
    old, new = getattr(before, name), getattr(after, name)
    if isinstance(old, int | float) and isinstance(new, int | float):
        return f"{label} {old:g} to {new:g}"
    return label


def _of_sides(before: Sequence[PlanSide], after: Sequence[PlanSide]) -> str:
    """Return what changed on the sides of a plan; a side that moves takes two corners along."""
    if len(before) != len(after):
        return "sides of the plan"
    changed = [i for i, (a, b) in enumerate(zip(before, after, strict=True)) if a != b]
    if len(changed) != 1:
        return "plan"
    old, new = before[changed[0]], after[changed[0]]
    names = [name for name in _SIDE if getattr(old, name) != getattr(new, name)]
    what = _SIDE[names[0]] if names else "corner"
    return f"side {changed[0] + 1}: {what}"
