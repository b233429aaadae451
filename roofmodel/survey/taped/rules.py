"""Questions put to a survey: each function looks at one kind of doubt and never changes a value."""

import math
from collections.abc import Callable, Sequence

from roofmodel.buildups.minimum_pitch import MinimumPitch
from roofmodel.foundation.errors import DimensionError, Fault, Offer
from roofmodel.foundation.outcome import Outcome, against_least
from roofmodel.shapes import solid
from roofmodel.shapes.roof import LineKind, Roof
from roofmodel.survey.taped import to_shape
from roofmodel.survey.taped.findings import Finding, Severity, stops
from roofmodel.survey.taped.free_plan import FreePlanSurvey
from roofmodel.survey.taped.survey import (
    GableSurvey,
    HippedSurvey,
    LeanToSurvey,
    PolygonalEndSurvey,
    RoofSurvey,
)

SHORT_SIZE_MM = 1000.0
LONG_SIZE_MM = 12_000.0
LOW_EAVES_MM, HIGH_EAVES_MM = 1500.0, 4000.0
STEEP_PITCH_DEG = 40.0

UNDER = "survey"
"""Where the survey stands in the job file; every finding's field starts with it."""


def findings(
    survey: RoofSurvey, roof: Roof | DimensionError, covering: MinimumPitch | None = None
) -> list[Finding]:
    """Return every remark about a survey, the ones that stop the job first.

    Parameters
    ----------
    survey
        What was entered.
    roof
        The roof it makes, or why it makes none.
    covering
        What the chosen method lays, and its minimum pitch; None where it lays nothing.
    """
    if isinstance(roof, DimensionError):
        faults = [_as_entered(fault, survey) for fault in roof.faults]
        return [*stops(faults, under=UNDER), *_short_or_long(survey, None)]
    remarks = [finding for rule in RULES for finding in rule(survey, roof)]
    return [*remarks, *_flat(survey, roof, covering)]


def _short_or_long(survey: RoofSurvey, _roof: Roof | None) -> list[Finding]:
    """Ask about plan sizes that look like another unit."""
    questions: list[Finding] = []
    for field in ("width_mm", "projection_mm"):
        value: float | None = getattr(survey, field, None)
        if value is None:
            continue
        what = field.removesuffix("_mm")
        if value < SHORT_SIZE_MM:
            text = f"A {what} of {value:g} mm is very short for a roof."
            questions.append(_question(field, text, *_meant(value)))
        elif value > LONG_SIZE_MM:
            text = f"A {what} of {value:g} mm is very long for a conservatory."
            questions.append(_question(field, text, "Measure it again; if it is right, leave it."))
    return questions


def _meant(value_mm: float) -> tuple[str, Offer | None]:
    """Return the likely meaning of a size that is too small, as a question and as a value."""
    for factor, unit in ((10.0, "cm"), (1000.0, "m")):
        meant_mm = round(value_mm * factor, 3)
        if SHORT_SIZE_MM <= meant_mm <= LONG_SIZE_MM:
            said = f"{meant_mm:g} mm"
            return f"Did you mean {said} ({value_mm:g} {unit})?", Offer(said, meant_mm)
    return "Enter it in mm.", None


def _eaves_height(survey: RoofSurvey, _roof: Roof) -> list[Finding]:
    """Ask about eaves nobody could stand under, or reach."""
    height_mm = survey.eaves_height_mm
    if LOW_EAVES_MM <= height_mm <= HIGH_EAVES_MM:
        return []
    text = f"Eaves {height_mm:g} mm above the floor are unusual."
    return [_question("eaves_height_mm", text, "Measure from finished floor level, in mm.")]


def _steep(survey: RoofSurvey, roof: Roof) -> list[Finding]:
    """Ask about pitches steeper than conservatory roofs are."""
    return [
        _question(
            _slope_field(survey, facet_name),
            f"{facet_name} has a pitch of {pitch_deg:.1f}°, which is steep for a conservatory.",
            "Check the rise and run, or the inclinometer reading; if it is right, leave it.",
        )
        for facet_name, pitch_deg in _pitches(roof)
        if pitch_deg > STEEP_PITCH_DEG
    ]


def _flat(survey: RoofSurvey, roof: Roof, covering: MinimumPitch | None) -> list[Finding]:
    """Say when a facet is too flat for what is laid on it."""
    if covering is None or covering.deg is None:
        return []
    return [
        _question(
            _slope_field(survey, facet_name),
            f"{facet_name} has a pitch of {pitch_deg:.2f}°; {covering.words}.",
            "Change the shape, use the panel swap, or measure the pitch again.",
            _steeper(survey, pitch_deg, covering.deg),
        )
        for facet_name, pitch_deg in _pitches(roof)
        if against_least(pitch_deg, covering.deg) is Outcome.FAIL
    ]


def _met_in_a_point(survey: RoofSurvey, roof: Roof) -> list[Finding]:
    """Say where hips that cross by less than the tape is good for are taken to meet in a point."""
    if not isinstance(survey, HippedSurvey | PolygonalEndSurvey) or roof.lines_of(LineKind.RIDGE):
        return []
    more_mm = to_shape.short_of_a_point_mm(survey)
    if not more_mm:
        return []
    text = (
        f"The hips cross {more_mm:.1f} mm before there is a ridge; the tape is good for no less, "
        "so they are taken to meet in one point."
    )
    return [
        Finding(
            f"{UNDER}.projection_mm",
            Severity.NOTE,
            text,
            "Measure projection, width and pitches again if there is a ridge.",
        )
    ]


def _cheeks(_survey: RoofSurvey, roof: Roof) -> list[Finding]:
    """Name the cheeks between facets of unequal height, which are in no figure."""
    return [
        Finding(
            f"{UNDER}.sides",
            Severity.NOTE,
            f"{one.upper} ends in the open over {one.lower}: between them stands a cheek "
            f"{one.length_mm:.0f} mm long and up to {one.height_mm:.0f} mm high.",
            "Frame, insulate, clad and flash it; it is in no list and in no price.",
        )
        for one in solid.cheeks(roof)
    ]


def _steeper(survey: RoofSurvey, pitch_deg: float, least_deg: float) -> Offer | None:
    """Return how much higher the top of a lean-to makes it steep enough; None for other shapes."""
    if not isinstance(survey, LeanToSurvey):
        return None
    now, then = (math.tan(math.radians(one)) for one in (pitch_deg, least_deg))
    # Rounded up: a millimetre less would leave it too flat.
    more_mm = math.ceil(survey.projection_mm * (then - now) - 1e-6)
    words = f"{more_mm} mm more at the wall gives {least_deg:g}°"
    if survey.wall_plate_height_mm is not None:
        return Offer(words, survey.wall_plate_height_mm + more_mm)
    return Offer(words, least_deg)


RULES: tuple[Callable[[RoofSurvey, Roof], list[Finding]], ...] = (
    _short_or_long,
    _eaves_height,
    _steep,
    _met_in_a_point,
    _cheeks,
)


def _pitches(roof: Roof) -> list[tuple[str, float]]:
    """Return one facet for each different pitch: a doubt is voiced once, not per facet."""
    seen: dict[float, str] = {}
    for facet in roof.facets:
        seen.setdefault(round(facet.pitch_deg, 6), facet.name)
    return [(name, pitch_deg) for pitch_deg, name in seen.items()]


def _slope_field(survey: RoofSurvey, facet_name: str) -> str:
    """Return the entered field a facet's pitch comes from."""
    if isinstance(survey, FreePlanSurvey):
        sloping = [i for i, side in enumerate(survey.sides) if side.pitch_deg is not None]
        return f"sides.{_of_facet(facet_name, sloping)}.pitch_deg"
    for top in ("wall_plate_height_mm", "ridge_height_mm"):
        if getattr(survey, top, None) is not None:
            return top
    if isinstance(survey, HippedSurvey | GableSurvey):
        return _side_field(survey, facet_name)
    return "pitch_deg"


def _side_field(survey: HippedSurvey | GableSurvey, facet_name: str) -> str:
    """Return the field of a side's own pitch; facets go right, front, left, after the rear."""
    if isinstance(survey, GableSurvey):
        return {"F1": "right_pitch_deg", "F2": "left_pitch_deg"}[facet_name]
    order = ["right_pitch_deg", "front_pitch_deg", "left_pitch_deg"]
    if survey.rear_pitch_deg is not None:
        order.insert(0, "rear_pitch_deg")
    return _of_facet(facet_name, order)


def _of_facet[T](facet_name: str, fields: Sequence[T]) -> T:
    """Return the field of a facet; of the last one where a side carries several facets."""
    return fields[min(int(facet_name[1:]), len(fields)) - 1]


def _as_entered(fault: Fault, survey: RoofSurvey) -> Fault:
    """Return a fault of a derived pitch under the height it was derived from."""
    if isinstance(survey, FreePlanSurvey) or getattr(survey, fault.field, None) is not None:
        return fault
    return Fault(_slope_field(survey, "F1"), fault.text, fault.remedy)


def _question(field: str, text: str, remedy: str, offer: Offer | None = None) -> Finding:
    return Finding(f"{UNDER}.{field}", Severity.QUESTION, text, remedy, offer)
