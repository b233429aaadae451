"""How each reading sits in the fit: residual, redundancy, and the slip that would show."""

import math
from dataclasses import dataclass

from roofmodel.survey.fit import chance
from roofmodel.survey.readings.network import Assumption
from roofmodel.survey.readings.reading import Reading

FALSE_ALARM = 0.05
"""Share of faultless surveys in which a reading is suspected all the same."""

CONTROLLED = 0.01
"""Below this redundancy no other reading controls one."""

SURELY = 2.33
"""Standard errors beyond the limit at which 99 of 100 slips are noticed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Residual:
    """How one reading, or one assumption, sits in the fit.

    ``redundancy`` is the share of a slip in it that would show as its residual: 0 when nothing
    else controls it, 1 when all else does. ``normalised`` is the residual in its own standard
    errors. ``place`` is where the reading stands among the readings, None for an assumption.
    """

    source: Reading | Assumption
    place: int | None
    adjusted: float
    adjusted_error: float
    redundancy: float
    normalised: float
    smallest_slip: float

    @property
    def name(self) -> str:
        """Name of its line, or of the assumption."""
        return self.source.name

    @property
    def checked(self) -> bool:
        """Whether anything else controls it."""
        return self.redundancy > CONTROLLED

    @property
    def usual(self) -> float:
        """How large its residual is as a rule, where nothing is wrong: its own standard error."""
        return self.source.standard_error * math.sqrt(self.redundancy)

    @property
    def residual(self) -> float:
        """What was read less what the fit makes of it."""
        return self.source.value - self.adjusted


def suspected_beyond(count: int) -> float:
    """Return the normalised residual that one faultless survey in twenty reaches somewhere."""
    return -chance.not_below(FALSE_ALARM / 2.0 / max(count, 1))


def residual(
    source: Reading | Assumption, place: int | None, read: float, variance: float, limit: float
) -> Residual:
    """Return how a source sits in a fit that reads ``read`` there, known to ``variance``."""
    error = source.standard_error
    redundancy = min(max(1.0 - variance / error**2, 0.0), 1.0)
    controlled = redundancy > CONTROLLED
    own = error * math.sqrt(redundancy)
    return Residual(
        source=source,
        place=place,
        adjusted=read,
        adjusted_error=math.sqrt(variance),
        redundancy=redundancy,
        normalised=(source.value - read) / own if controlled else 0.0,
        smallest_slip=(limit + SURELY) * error / math.sqrt(redundancy) if controlled else math.inf,
    )
