"""What one check answers: outcome, number, limit, why, what to do, and how it came out."""

import math
from dataclasses import dataclass
from enum import StrEnum

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.foundation.figure import Figure
from roofmodel.foundation.outcome import Outcome
from roofmodel.foundation.source import UNKNOWN, Source


class Sense(StrEnum):
    """On which side of its limit a figure passes."""

    AT_MOST = "at most"
    AT_LEAST = "at least"


@dataclass(frozen=True, slots=True, kw_only=True)
class Gate:
    """One question and its answer.

    ``value``, ``limit`` and ``uncertainty`` (a standard error) are in ``unit``; None where there is
    no such number. ``band`` holds the ends between which the figure surely lies, whatever was
    measured: such as a bar that may be hollow or solid; None where it is one figure.
    ``sense`` says that the verdict is the plain comparison of value and limit, which the
    errors of what was entered may still turn to "measure again". ``field`` is the entry that
    decides, as the job file names it. ``source`` is where the rule stands, ``inputs`` are the
    figures it takes and where they stand. ``details`` is the derivation, one row of words and
    figure for each step.
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
    band: tuple[float, float] | None = None
    sense: Sense | None = None
    field: str = ""
    source: Source | None = None
    inputs: tuple[Figure | Source, ...] = ()
    details: tuple[tuple[str, str], ...] = ()

    def __post_init__(self) -> None:
        """Refuse numbers that are none, and an answer that leaves its reader alone."""
        faults = [
            Fault(
                name, f"{self.name}: {value} is not a number.", "Leave it out if it is not known."
            )
            for name in ("value", "limit", "uncertainty")
            if (value := getattr(self, name)) is not None and not math.isfinite(value)
        ]
        if self.band is not None and not -math.inf < self.band[0] <= self.band[1] < math.inf:
            text = f"{self.name}: {self.band[0]} to {self.band[1]} is no band."
            faults.append(Fault("band", text, "Give its lower end first."))
        if self.outcome is not Outcome.PASS and not self.remedy:
            text = f"{self.name} {self.outcome}, but no remedy is given."
            faults.append(Fault("remedy", text, "Say what to do."))
        if self.outcome is Outcome.ASSUMED and not self.field:
            text = f"{self.name} is assumed but does not say which field nobody entered."
            faults.append(Fault("field", text, "Name the field."))
        if self.source is None:
            text = f"{self.name} does not say where its limit or its figure comes from."
            faults.append(Fault("source", text, "Name the document, or say that there is none."))
        if not self.reason:
            faults.append(Fault("reason", f"{self.name} has no reason.", "Say why."))
        if faults:
            raise DimensionError(faults)

    @property
    def verified(self) -> bool:
        """Whether somebody of us read the rule, and every figure it takes, where they stand."""
        return self.figure.verified

    @property
    def figure(self) -> Figure:
        """Its figure with error, source and inputs; the question alone where it has no number."""
        return Figure(
            name=self.name,
            value=self.value,
            unit=self.unit,
            error=self.uncertainty,
            source=self.source or UNKNOWN,
            inputs=self.inputs,
        )

    @property
    def source_words(self) -> str:
        """Where the rule stands and what its figure was made from, in one line."""
        return self.figure.words

    @property
    def margin(self) -> float | None:
        """What is left to the limit, below 0 where it is missed; None without a comparison.

        Of a band it is the worse end that passes, and the better end that fails.
        """
        return self.margin_at(self.outcome)

    def margin_at(self, outcome: Outcome) -> float | None:
        """Return what is left to the limit at the end of the band that counts for an outcome."""
        if self.sense is None or self.value is None or self.limit is None:
            return None
        low, high = self.band or (self.value, self.value)
        rooms = (
            (self.limit - high, self.limit - low)
            if self.sense is Sense.AT_MOST
            else (low - self.limit, high - self.limit)
        )
        return rooms[1] if outcome is Outcome.FAIL else rooms[0]
