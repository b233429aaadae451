"""The few values typed for a whole roof, as readings, until the lines behind them are read.

A width, a projection, a pitch or a height entered for the roof counts as a reading of one line.
It gives way as soon as any line that shows the same thing was read on site.
"""

from collections.abc import Iterable

from roofmodel.shapes.footprint import SideKind
from roofmodel.survey.readings import line_name
from roofmodel.survey.readings.measure import Measure
from roofmodel.survey.readings.network import Network, SheetLine, reading
from roofmodel.survey.readings.plan_topology import Pair
from roofmodel.survey.readings.reading import Reading
from roofmodel.survey.sheets import networks
from roofmodel.survey.sheets.hipped_end import HippedEnd
from roofmodel.survey.taped.survey import (
    GableSurvey,
    HippedSurvey,
    LeanToSurvey,
    PolygonalEndSurvey,
    RoofSurvey,
)

NOTE = "entered for the whole roof"

_Entered = dict[str, float | None]
_HEIGHTS = (Measure.HEIGHT, Measure.MIDDLE_HEIGHT)


def readings(
    survey: RoofSurvey, read: Iterable[str] = (), *, network: Network | None = None
) -> tuple[Reading, ...]:
    """Return what the values of a survey stand for, but for what the lines in ``read`` show.

    A shape without a network has none; one lettered from its own roof says itself what was typed.
    Whoever has made the ``network`` of the survey already gives it.
    """
    network = network or networks.of_survey(survey)
    if network is None:
        return ()
    known = set(read)
    if network.plan is not None:
        return tuple(
            reading(network.line(one.line), one.value, note=NOTE)
            for one in network.entered
            if not known & one.shown_by
        )
    return tuple(
        reading(network.line(name), value, note=NOTE)
        for name, value in _entered(survey, network).items()
        if value is not None and not known & _showing(network, name)
    )


def _entered(survey: RoofSurvey, network: Network) -> _Entered:
    match survey:
        case LeanToSurvey():
            slopes: _Entered = {
                line_name.pitch(("C", "D"), "A"): survey.pitch_deg,
                line_name.height("A"): survey.wall_plate_height_mm,
            }
        case GableSurvey():
            slopes = {
                **_both_ends(("B", "C"), survey.right_pitch_deg),
                **_both_ends(("D", "A"), survey.left_pitch_deg),
                line_name.height("Q"): survey.ridge_height_mm,
            }
        case HippedSurvey():
            slopes = _hipped(survey)
        case PolygonalEndSurvey():
            slopes = _polygonal_end(survey)
        case _:
            return {}
    return {
        "AB": survey.width_mm,
        _projection(network).name: survey.projection_mm,
        line_name.height("C"): survey.eaves_height_mm,
        **slopes,
    }


def _both_ends(side: Pair, pitch_deg: float | None) -> _Entered:
    """Return the pitch of a facet at both ends of its ridge."""
    return {line_name.pitch(side, top): pitch_deg for top in ("Q", "P")}


def _hipped(survey: HippedSurvey) -> _Entered:
    end = HippedEnd(end_facets=1, back=SideKind(survey.rear))
    values: _Entered = {
        **_both_ends(end.right, survey.right_pitch_deg),
        line_name.pitch(end.ends[0], "P"): survey.front_pitch_deg,
        **_both_ends(end.left, survey.left_pitch_deg),
    }
    return values | _back(end, survey.rear_pitch_deg)


def _polygonal_end(survey: PolygonalEndSurvey) -> _Entered:
    end = HippedEnd(end_facets=survey.end_facets, back=SideKind(survey.rear))
    values: _Entered = {
        line_name.pitch(end.right, "P"): survey.pitch_deg,
        line_name.height("P"): survey.ridge_height_mm,
    }
    return values | _back(end, survey.rear_pitch_deg)


def _back(end: HippedEnd, pitch_deg: float | None) -> _Entered:
    return {line_name.pitch(end.back_side, "Q"): pitch_deg} if end.rear_facet else {}


def _projection(network: Network) -> SheetLine:
    """Return the line the projection is taped on: the first of the recommended ones."""
    return next(line for line in _projections(network) if line.times)


def _projections(network: Network) -> list[SheetLine]:
    """Return the lines square off the first side to corners of the plan."""
    first = network.corners[:2]
    return [
        line
        for line in network.lines
        if line.measure is Measure.SQUARE_OFF
        and line.points[0] in network.corners
        and line.points[1:] == first
    ]


def _showing(network: Network, name: str) -> set[str]:
    """Return the lines that show what a line shows for the roof as a whole."""
    line = network.line(name)
    if line.measure is Measure.PLAN_LENGTH:
        return {name, line_name.length(network.corners[2], network.corners[-1])}
    if line.measure is Measure.SQUARE_OFF:
        sides = {"BC", line_name.length(network.corners[-1], "A")}
        return sides | {one.name for one in _projections(network)}
    if line.measure is Measure.PITCH:
        return _showing_pitch(network, line)
    eaves = {corner for facet in network.facets for corner in facet.eaves}
    heights = [one for one in network.lines if one.measure in _HEIGHTS]
    low = line.points[0] in eaves
    return {one.name for one in heights if (one.points[0] in eaves) == low}


def _showing_pitch(network: Network, line: SheetLine) -> set[str]:
    """Return the lines that show the pitch entered on one line.

    A polygonal end has one pitch all round but for a facet at the back, as a lean-to has one;
    elsewhere each facet has its own.
    """
    side = line.points[1:]
    back = network.corners[:2] if network.sides[0].slopes else ()
    pitches = [one for one in network.lines if one.measure is Measure.PITCH]
    if side == back or (len(network.corners) == 4 and len(network.facets) > 1):
        return {one.name for one in pitches if one.points[1:] == side}
    return {one.name for one in pitches if one.points[1:] != back}
