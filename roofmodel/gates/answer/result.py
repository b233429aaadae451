"""What one check answers: outcome, number, limit, why, what to do, and how it came out."""

import math
from dataclasses import dataclass
from enum import StrEnum

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.foundation.source import Source


class Outcome(StrEnum):
    """How a question is answered; whoever signs decides, the program only computes."""

    HOLDS = "holds"
    RE_MEASURE = "re-measure"
    DOES_NOT_HOLD = "does not hold"
    NOT_CALCULABLE = "not calculable by this method"

    @property
    def short(self) -> str:
        """The outcome in at most 14 letters, for lists."""
        return "not calculable" if self is Outcome.NOT_CALCULABLE else self.value


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One question and its answer.

    ``value``, ``limit`` and ``uncertainty`` are in ``unit``; None where there is no such number.
    ``details`` is the derivation, one row of words and figure for each step.
    """

    name: str
    question: str
    outcome: Outcome
    reason: str
    remedy: str = ""
    value: float | None = None
    unit: str = ""
    limit: float | None = None
    uncertainty: float | None = None
    source: Source | None = None
    details: tuple[tuple[str, str], ...] = ()

    def __post_init__(self) -> None:
        """Refuse numbers that are none, and an answer that leaves its reader alone."""
        faults = [
            Fault(name, f"{self.name}: {value} is no number.", "Leave it out if it is not known.")
            for name in ("value", "limit", "uncertainty")
            if (value := getattr(self, name)) is not None and not math.isfinite(value)
        ]
        if self.outcome is not Outcome.HOLDS and not self.remedy:
            text = f"{self.name} {self.outcome} and nothing is said to be done."
            faults.append(Fault("remedy", text, "Say what to do."))
        if not self.reason:
            faults.append(Fault("reason", f"{self.name} has no reason.", "Say why."))
        if faults:
            raise DimensionError(faults)


def against_most(value: float, limit: float, uncertainty: float = 0.0) -> Outcome:
    """Return how a value stands to a limit it must not exceed, each way by its uncertainty.

    Examples
    --------
    >>> against_most(0.14, 0.15).value, against_most(0.149, 0.15, 0.002).value
    ('holds', 're-measure')
    """
    if value + uncertainty <= limit:
        return Outcome.HOLDS
    return Outcome.RE_MEASURE if value - uncertainty <= limit else Outcome.DOES_NOT_HOLD


def against_least(value: float, limit: float, uncertainty: float = 0.0) -> Outcome:
    """Return how a value stands to a limit it must reach, each way by its uncertainty."""
    if value - uncertainty >= limit:
        return Outcome.HOLDS
    return Outcome.RE_MEASURE if value + uncertainty >= limit else Outcome.DOES_NOT_HOLD
