"""The job with another survey: its readings go along, and those without a line there are kept."""

from collections.abc import Sequence
from dataclasses import replace

from roofmodel.shapes.footprint import Footprint
from roofmodel.storage.job import Job, KeptReadings
from roofmodel.survey.readings.reading import Reading
from roofmodel.survey.sheets import carried
from roofmodel.survey.sheets.carried import Sheet
from roofmodel.survey.taped.free_plan import PlanSide
from roofmodel.survey.taped.survey import RoofSurvey


def with_survey(job: Job, survey: RoofSurvey, *, last_good: RoofSurvey | None = None) -> Job:
    """Return a job with another shape or other sizes, every reading kept.

    Parameters
    ----------
    job
        The job as it is.
    survey
        What is entered for the roof as a whole from now on.
    last_good
        The survey its readings were last lettered by, for a job whose own makes no roof.
    """
    before = carried.sheet(job.survey)
    if before is None and last_good is not None:
        before = carried.sheet(last_good)
    after = carried.sheet(survey)
    changed = replace(job, survey=survey)
    if before is None or after is None or before.network.lines == after.network.lines:
        return changed
    moved = carried.carried(job.readings, before, after)
    kept = _kept(job.kept_readings, before.name, moved.without_line)
    readings, kept = _back(moved.readings, kept, after)
    return replace(
        changed,
        readings=readings,
        kept_readings=kept,
        answers=() if moved.relettered else job.answers,
    )


def set_aside(job: Job, names: Sequence[str]) -> Job:
    """Return the job with the readings of some lines kept apart; they take no part in the fit."""
    aside = tuple(one for one in job.readings if one.name in names)
    rest = tuple(one for one in job.readings if one.name not in names)
    return replace(job, readings=rest, kept_readings=_kept(job.kept_readings, "", aside))


def plan_sides(footprint: Footprint | None) -> tuple[PlanSide, ...]:
    """Return the sides of a plan as they are entered; a plain lean-to where there is none."""
    if footprint is None:
        return (
            PlanSide(x_mm=3000.0, y_mm=0.0, kind="house wall"),
            PlanSide(x_mm=0.0, y_mm=0.0, kind="verge"),
            PlanSide(x_mm=0.0, y_mm=2500.0, kind="eaves", pitch_deg=15.0),
            PlanSide(x_mm=3000.0, y_mm=2500.0, kind="verge"),
        )
    return tuple(
        PlanSide(
            x_mm=round(corner[0], 1) + 0.0,
            y_mm=round(corner[1], 1) + 0.0,
            kind=side.kind.value,
            pitch_deg=None if side.pitch_deg is None else round(side.pitch_deg, 3),
            level_mm=side.level_mm,
        )
        for corner, side in zip(footprint.corners_mm, footprint.sides, strict=True)
    )


def _kept(
    groups: Sequence[KeptReadings], sheet: str, more: Sequence[Reading]
) -> tuple[KeptReadings, ...]:
    """Return what is kept with more readings of one sheet."""
    if not more:
        return tuple(groups)
    by_sheet = {group.sheet: group.readings for group in groups}
    by_sheet[sheet] = (*by_sheet.get(sheet, ()), *more)
    return tuple(KeptReadings(sheet=name, readings=read) for name, read in by_sheet.items())


def _back(
    readings: Sequence[Reading], groups: Sequence[KeptReadings], sheet: Sheet
) -> tuple[tuple[Reading, ...], tuple[KeptReadings, ...]]:
    """Return the readings with those that had waited for this sheet, and what still waits.

    A line that was read again meanwhile keeps the later reading.
    """
    names = [line.name for line in sheet.network.lines]
    taken = {one.name for one in readings}
    home = [one for group in groups if group.sheet == sheet.name for one in group.readings]
    coming = [one for one in home if one.name in names and one.name not in taken]
    left = tuple(one for one in home if one not in coming)
    rest = [group for group in groups if group.sheet != sheet.name]
    if left:
        rest.append(KeptReadings(sheet=sheet.name, readings=left))
    in_order = sorted([*readings, *coming], key=lambda one: names.index(one.name))
    return tuple(in_order), tuple(rest)
