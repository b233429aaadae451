"""The few values typed for a whole roof, as readings, until the lines behind them are read.

A width, a projection, a pitch or a height entered for the roof counts as a reading of one line.
It gives way as soon as any line that shows the same thing was read on site.
"""

from collections.abc import Iterable

from roofmodel.survey import networks
from roofmodel.survey.network import Network, reading
from roofmodel.survey.reading import Reading
from roofmodel.survey.survey import (
    GableSurvey,
    HippedSurvey,
    LeanToSurvey,
    PolygonalEndSurvey,
    RoofSurvey,
)

NOTE = "entered for the whole roof"


def readings(survey: RoofSurvey, read: Iterable[str] = ()) -> tuple[Reading, ...]:
    """Return what the values of a survey stand for, but for what the lines in ``read`` show."""
    network = networks.of_survey(survey)
    known = set(read)
    values = {
        "AB": survey.width_mm,
        f"{_front(network)} off wall": survey.projection_mm,
        "height C": survey.eaves_height_mm,
        **_slopes(survey),
    }
    return tuple(
        reading(network.line(name), value, note=NOTE)
        for name, value in values.items()
        if value is not None and not known & _showing(network, name)
    )


def _slopes(survey: RoofSurvey) -> dict[str, float | None]:
    match survey:
        case LeanToSurvey():
            return {"pitch left": survey.pitch_deg, "height A": survey.wall_plate_height_mm}
        case GableSurvey():
            return {
                "pitch F1 at wall": survey.right_pitch_deg,
                "pitch F1 at gable": survey.right_pitch_deg,
                "pitch F2 at wall": survey.left_pitch_deg,
                "pitch F2 at gable": survey.left_pitch_deg,
                "height Q": survey.ridge_height_mm,
            }
        case HippedSurvey():
            return {
                "pitch F1 at wall": survey.right_pitch_deg,
                "pitch F1 at hip": survey.right_pitch_deg,
                "pitch F2": survey.front_pitch_deg,
                "pitch F3 at wall": survey.left_pitch_deg,
                "pitch F3 at hip": survey.left_pitch_deg,
            }
        case PolygonalEndSurvey():
            return {"pitch F1 at hip": survey.pitch_deg, "height P": survey.ridge_height_mm}


def _front(network: Network) -> str:
    """Return the corner the projection is taped to: the last of the recommended ones."""
    squared = [line for line in network.lines if line.name.endswith(" off wall") and line.times]
    return next(line.points[0] for line in squared if line.points[0] in network.corners)


def _showing(network: Network, name: str) -> set[str]:
    """Return the lines that show what a line shows for the roof as a whole."""
    names = {line.name for line in network.lines}
    if name == "AB":
        return {"AB", network.corners[2] + network.corners[-1]}
    if name.endswith(" off wall"):
        sides = {"BC", network.corners[-1] + "A"}
        return sides | {n for n in names if n.endswith(" off wall") and n[0] in network.corners}
    if name.startswith("pitch "):
        return {n for n in names if n.startswith(_same_pitch(network, name))}
    eaves = {f"height {corner}" for facet in network.facets for corner in facet.eaves}
    tops = {n for n in names if n.startswith("height ")} - eaves
    return eaves if name in eaves else tops


def _same_pitch(network: Network, name: str) -> str:
    """Return how the names begin of the lines that show the pitch entered under a name.

    A polygonal end has one pitch all round, as a lean-to has; elsewhere each facet has its own.
    """
    one_pitch = len(network.facets) == 1 or len(network.corners) > 4
    return "pitch " if one_pitch else name[: len("pitch F1")]
