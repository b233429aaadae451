"""Lines of the survey sheet up to a point of the roof, and what is assumed of a ridge P-Q."""

from collections.abc import Sequence

from roofmodel.survey.readings import line_name
from roofmodel.survey.readings.measure import Measure
from roofmodel.survey.readings.network import Assumption, SheetLine
from roofmodel.survey.readings.reading import Tool
from roofmodel.survey.sheets.plan_lines import LEVEL_MM

MIDWAY_MM = 100.0
"""How far a ridge nobody measured may lie from the middle (common practice, no source)."""
EQUAL_PITCH_DEG = 2.0
"""How far pitches nobody measured may differ (common practice, no source)."""

Side = tuple[str, str]


def off(point: str, side: Side, what: str, *, times: int = 2) -> SheetLine:
    """Return the line for the plan distance of an upper point square off a side."""
    return SheetLine(
        name=line_name.off(point, side),
        label=f"{point} square off {what}, plumbed down",
        tool=Tool.PLUMB,
        measure=Measure.SQUARE_OFF,
        points=(point, *side),
        times=times,
    )


def bar(facet: str, top: str, side: Side, *, times: int = 2) -> SheetLine:
    """Return the line for the length of a bar that runs square from the eaves to a point."""
    return SheetLine(
        name=line_name.bar(side, top),
        label=f"Bar of {facet}, eaves {side[0]}{side[1]} square up to {top}",
        tool=Tool.SLOPE_TAPE,
        measure=Measure.BAR_LENGTH,
        points=(top, *side),
        times=times,
    )


def pitch(facet: str, top: str, side: Side, *, times: int = 1) -> SheetLine:
    """Return the line for the pitch of a bar by inclinometer."""
    return SheetLine(
        name=line_name.pitch(side, top),
        label=f"Pitch of {facet} on the bar up to {top}, inclinometer",
        tool=Tool.INCLINOMETER,
        measure=Measure.PITCH,
        points=(top, *side),
        times=times,
    )


def level_ridge() -> Assumption:
    """Return that the ridge is taken to be level until somebody levels it."""
    return Assumption(
        name=line_name.level("P", "Q"),
        label="ridge assumed to be level",
        measure=Measure.ABOVE,
        points=("P", "Q"),
        value=0.0,
        standard_error=LEVEL_MM,
    )


def midway(point: str, right: Side, left: Side) -> Assumption:
    """Return that a ridge end is taken to lie midway between two sides."""
    return Assumption(
        name=f"{point} midway",
        label=f"{point} assumed to lie midway between the sides",
        measure=Measure.OFF_DIFFERENCE,
        points=(point, *right, *left),
        value=0.0,
        standard_error=MIDWAY_MM,
    )


def same_pitch(top: str, sides: Sequence[Side], like: Side) -> list[Assumption]:
    """Return that facets are taken to have the pitch of another."""
    return [
        Assumption(
            name=f"pitch over {p}{q}",
            label=f"facet over {p}{q} assumed to have the same pitch as the one over "
            f"{like[0]}{like[1]}",
            measure=Measure.PITCH_DIFFERENCE,
            points=(top, p, q, *like),
            value=0.0,
            standard_error=EQUAL_PITCH_DEG,
        )
        for p, q in sides
    ]
