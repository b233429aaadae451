"""A pitch known by two routes, heights over a run and the inclinometer, and what it is good for."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from roofmodel.foundation import outcome
from roofmodel.foundation.outcome import Outcome
from roofmodel.survey.fit import adjustment
from roofmodel.survey.readings.network import Network, SheetLine, mean_values
from roofmodel.survey.readings.reading import STANDARD_ERROR, Reading, Tool
from roofmodel.survey.sheets.slope_closures import PITCH_DEG

_NOT_KNOWN_DEG = 5.0
"""A route less sharp than this says nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PitchRoute:
    """A pitch by one route, with its standard error [°]."""

    name: str
    pitch_deg: float
    standard_error_deg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Pitch:
    """A pitch by one route or by two that are compared before they are combined."""

    name: str
    routes: tuple[PitchRoute, ...]

    @property
    def apart_deg(self) -> float:
        """How far the routes lie apart [°]."""
        pitches = [route.pitch_deg for route in self.routes]
        return max(pitches) - min(pitches)

    @property
    def agree(self) -> bool:
        """Whether the routes may be taken together."""
        return self.apart_deg <= PITCH_DEG

    @property
    def combined(self) -> PitchRoute | None:
        """The pitch by all routes, each with the weight of its sharpness; None if they differ."""
        if not self.agree:
            return None
        weights = [route.standard_error_deg**-2.0 for route in self.routes]
        pitches = [route.pitch_deg for route in self.routes]
        mean = sum(w * p for w, p in zip(weights, pitches, strict=True)) / sum(weights)
        return PitchRoute(
            name="both methods" if len(self.routes) > 1 else self.routes[0].name,
            pitch_deg=mean,
            standard_error_deg=sum(weights) ** -0.5,
        )

    def against(self, least_deg: float) -> Outcome:
        """Return whether the pitch is at least so much [°], with 95 % confidence.

        Routes that differ never prove a pitch; they disprove one that both fall short of.
        """
        if self.combined is not None:
            return _outcome(self.combined, least_deg)
        outcomes = {_outcome(route, least_deg) for route in self.routes}
        if outcomes == {Outcome.FAIL}:
            return Outcome.FAIL
        return Outcome.MEASURE_AGAIN

    def text(self, least_deg: float | None) -> str:
        """Return the figures as one line, with the verdict where a minimum pitch is known."""
        figures = "; ".join(
            f"{route.pitch_deg:.2f}° ±{route.standard_error_deg:.2f}° by {route.name}"
            for route in self.routes
        )
        apart = "" if self.agree else f"; they differ by {self.apart_deg:.1f}°"
        if least_deg is None:
            return f"{self.name}: {figures}{apart}"
        return f"{self.name}, {least_deg:g}° needed: {self.against(least_deg)} ({figures}{apart})"


def by_inclinometer(
    readings_deg: Sequence[float],
    *,
    standard_error_deg: float = STANDARD_ERROR[Tool.INCLINOMETER],
) -> PitchRoute:
    """Return the pitch from readings of the inclinometer, each as sharp as said [°]."""
    count = len(readings_deg)
    return PitchRoute(
        name="inclinometer",
        pitch_deg=sum(readings_deg) / count,
        standard_error_deg=standard_error_deg / math.sqrt(count),
    )


def of_survey(network: Network, readings: Sequence[Reading]) -> tuple[Pitch, ...]:
    """Return the pitch of each bar on the survey sheet by the routes that were measured.

    The first route is the roof fitted to every reading but those of the inclinometer.
    """
    lines = [line for line in network.lines if line.tool is Tool.INCLINOMETER]
    names = {line.name for line in lines}
    fit = adjustment.adjust(network, [r for r in readings if r.name not in names])
    means = mean_values(readings)
    pitches = []
    for line in lines:
        routes = [*_fitted(fit, line), *_read(line, readings, means)]
        if routes:
            pitches.append(Pitch(name=line.name, routes=tuple(routes)))
    return tuple(pitches)


def _fitted(fit: adjustment.Adjusted, line: SheetLine) -> list[PitchRoute]:
    pitch_deg, error_deg = fit.reads_line(line)
    if error_deg > _NOT_KNOWN_DEG:
        return []
    name = "rise over run"
    return [PitchRoute(name=name, pitch_deg=pitch_deg, standard_error_deg=error_deg)]


def _read(
    line: SheetLine, readings: Sequence[Reading], means: dict[str, float]
) -> list[PitchRoute]:
    if line.name not in means:
        return []
    errors = [r.standard_error for r in readings if r.name == line.name]
    return [
        PitchRoute(
            name="inclinometer",
            pitch_deg=means[line.name],
            standard_error_deg=math.hypot(*errors) / len(errors),
        )
    ]


def _outcome(route: PitchRoute, least_deg: float) -> Outcome:
    return outcome.against_least(route.pitch_deg, least_deg, route.standard_error_deg)
