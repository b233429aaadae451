"""Everything there is to say about a survey's readings, in one go."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from roofmodel.survey.fit import adjustment, closure, pitch_routes, squareness, suspect, twist
from roofmodel.survey.fit.adjustment import Adjusted
from roofmodel.survey.fit.closure import Closure
from roofmodel.survey.fit.pitch_routes import Pitch
from roofmodel.survey.fit.suspect import Suspicion
from roofmodel.survey.fit.twist import Grade, Twist
from roofmodel.survey.readings import repeat
from roofmodel.survey.readings.network import Network
from roofmodel.survey.readings.reading import Reading
from roofmodel.survey.verdict import extra_reading, state
from roofmodel.survey.verdict.extra_reading import ExtraReading
from roofmodel.survey.verdict.state import SurveyState


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Examination:
    """The fitted roof, what its readings are worth, and what they leave to be done.

    ``remarks`` are about the building and the way it was read; they keep no survey open.
    """

    adjusted: Adjusted
    closures: tuple[Closure, ...]
    suspicions: tuple[Suspicion, ...]
    extra: ExtraReading | None
    pitches: tuple[Pitch, ...]
    twists: tuple[Twist, ...]
    remarks: tuple[str, ...]
    state: SurveyState


def examine(
    network: Network, readings: Sequence[Reading], *, answers: Mapping[str, str] | None = None
) -> Examination:
    """Return the examination of readings; ``answers`` are choices already made, by their query.

    Raises
    ------
    DimensionError
        If a reading has no line on this shape's survey sheet, or is in another unit.
    """
    adjusted = adjustment.adjust(network, readings)
    closures = closure.table(network, readings)
    suspicions = suspect.find_all(adjusted)
    return Examination(
        adjusted=adjusted,
        closures=closures,
        suspicions=suspicions,
        extra=extra_reading.best(suspicions[0], adjusted) if suspicions else None,
        pitches=pitch_routes.of_survey(network, readings),
        twists=twist.twists(adjusted),
        remarks=_remarks(adjusted, readings),
        state=state.survey_state(adjusted, closures, suspicions, answers=answers),
    )


def _remarks(adjusted: Adjusted, readings: Sequence[Reading]) -> tuple[str, ...]:
    return (
        *(again.text for again in repeat.third_readings(adjusted.network, readings)),
        *squareness.remarks(adjusted),
        *(one.text for one in twist.twists(adjusted) if one.grade is not Grade.FLAT),
    )
