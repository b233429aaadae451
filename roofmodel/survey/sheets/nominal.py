"""The few values typed for a whole roof, as readings, until the lines behind them are read.

A width, a projection, a pitch or a height entered for the roof counts as a reading of one line.
It gives way as soon as any line that shows the same thing was read on site.
"""

from collections.abc import Iterable

from roofmodel.shapes.footprint import SideKind
from roofmodel.survey.readings.network import Network, reading
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


def readings(survey: RoofSurvey, read: Iterable[str] = ()) -> tuple[Reading, ...]:
    """Return what the values of a survey stand for, but for what the lines in ``read`` show.

    A shape without a network has none; one lettered from its own roof says itself what was typed.
    """
    network = networks.of_survey(survey)
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
                "pitch left": survey.pitch_deg,
                "height A": survey.wall_plate_height_mm,
            }
        case GableSurvey():
            slopes = {
                "pitch F1 at wall": survey.right_pitch_deg,
                "pitch F1 at gable": survey.right_pitch_deg,
                "pitch F2 at wall": survey.left_pitch_deg,
                "pitch F2 at gable": survey.left_pitch_deg,
                "height Q": survey.ridge_height_mm,
            }
        case HippedSurvey():
            slopes = _hipped(survey)
        case PolygonalEndSurvey():
            slopes = _polygonal_end(survey)
        case _:
            return {}
    return {
        "AB": survey.width_mm,
        f"{_front(network)} off wall": survey.projection_mm,
        "height C": survey.eaves_height_mm,
        **slopes,
    }


def _hipped(survey: HippedSurvey) -> _Entered:
    end = HippedEnd(end_facets=1, back=SideKind(survey.rear))
    right, front, left = (end.facet(side) for side in (end.right, end.ends[0], end.left))
    found: _Entered = {
        f"pitch {right}{end.rear}": survey.right_pitch_deg,
        f"pitch {right} at hip": survey.right_pitch_deg,
        f"pitch {front}": survey.front_pitch_deg,
        f"pitch {left}{end.rear}": survey.left_pitch_deg,
        f"pitch {left} at hip": survey.left_pitch_deg,
    }
    return found | ({"pitch F1": survey.rear_pitch_deg} if end.rear_facet else {})


def _polygonal_end(survey: PolygonalEndSurvey) -> _Entered:
    end = HippedEnd(end_facets=survey.end_facets, back=SideKind(survey.rear))
    found: _Entered = {
        f"pitch {end.facet(end.right)} at hip": survey.pitch_deg,
        "height P": survey.ridge_height_mm,
    }
    return found | ({"pitch F1": survey.rear_pitch_deg} if end.rear_facet else {})


def _front(network: Network) -> str:
    """Return the corner the projection is taped to: the first of the recommended ones."""
    return next(
        line.points[0]
        for line in network.lines
        if line.name.endswith(" off wall") and line.times and line.points[0] in network.corners
    )


def _showing(network: Network, name: str) -> set[str]:
    """Return the lines that show what a line shows for the roof as a whole."""
    names = {line.name for line in network.lines}
    if name == "AB":
        return {"AB", network.corners[2] + network.corners[-1]}
    if name.endswith(" off wall"):
        sides = {"BC", network.corners[-1] + "A"}
        return sides | {n for n in names if n.endswith(" off wall") and n[0] in network.corners}
    if name.startswith("pitch "):
        return _showing_pitch(network, name, names)
    eaves = {f"height {corner}" for facet in network.facets for corner in facet.eaves}
    tops = {n for n in names if n.startswith("height ")} - eaves
    return eaves if name in eaves else tops


def _showing_pitch(network: Network, name: str, names: set[str]) -> set[str]:
    """Return the lines that show the pitch entered under a name.

    A polygonal end has one pitch all round but for a facet at the back, as a lean-to has one;
    elsewhere each facet has its own.
    """
    facet = name[: len("pitch F1")]
    back = "pitch F1" if network.sides[0].slopes else ""
    if facet == back or (len(network.corners) == 4 and len(network.facets) > 1):
        return {n for n in names if n.startswith(facet)}
    return {n for n in names if n.startswith("pitch ") and n != back}
