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
from roofmodel.survey.taped.findings import Finding, Severity
from roofmodel.survey.verdict import extra_reading, protection, state
from roofmodel.survey.verdict.extra_reading import ExtraReading
from roofmodel.survey.verdict.protection import Protection
from roofmodel.survey.verdict.state import SurveyState


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Examination:
    """The fitted roof, what its readings are worth, and what they leave to be done.

    ``remarks`` are about the building and the way it was read; they keep no survey open.
    """

    adjusted: Adjusted
    closures: tuple[Closure, ...]
    unchecked: tuple[tuple[str, tuple[str, ...]], ...]
    suspicions: tuple[Suspicion, ...]
    extra: ExtraReading | None
    protection: Protection
    pitches: tuple[Pitch, ...]
    twists: tuple[Twist, ...]
    remarks: tuple[str, ...]
    state: SurveyState

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Why the survey is open or, where it agrees, in what a slip could hide all the same."""
        if self.state.open or not self.protection.thin:
            return self.state.findings
        return (*self.state.findings, _thin(self.protection))


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
    extra = extra_reading.best(suspicions[0], adjusted) if suspicions else None
    shown = protection.of(adjusted)
    return Examination(
        adjusted=adjusted,
        closures=closures,
        unchecked=closure.unchecked(network, readings),
        suspicions=suspicions,
        extra=extra,
        protection=shown,
        pitches=pitch_routes.of_survey(network, readings),
        twists=twist.twists(adjusted),
        remarks=_remarks(adjusted, readings),
        state=state.survey_state(
            adjusted,
            closures,
            suspicions,
            answers=answers,
            protected=shown.protected,
            settled_by=extra.text if extra else "",
        ),
    )


def _thin(shown: Protection) -> Finding:
    """Return a note on a survey that agrees where a slip could hide all the same."""
    names = ", ".join(one.line.name for one in shown.thin)
    line = shown.next_line
    remedy = "" if line is None else f"Read {line.name} next: {line.label}."
    text = f"Not yet checked: {protection.STATED} could hide in {names}."
    return Finding("readings", Severity.NOTE, text, remedy)


def _remarks(adjusted: Adjusted, readings: Sequence[Reading]) -> tuple[str, ...]:
    return (
        *(again.text for again in repeat.third_readings(adjusted.network, readings)),
        *squareness.remarks(adjusted),
        *(one.text for one in twist.twists(adjusted) if one.grade is not Grade.FLAT),
    )
