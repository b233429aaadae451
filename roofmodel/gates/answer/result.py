"""What one check answers: outcome, number, limit, why, what to do, and how it came out."""

import math
from dataclasses import dataclass

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.foundation.outcome import Outcome
from roofmodel.foundation.source import Source


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
        if self.outcome is not Outcome.PASS and not self.remedy:
            text = f"{self.name} {self.outcome} and nothing is said to be done."
            faults.append(Fault("remedy", text, "Say what to do."))
        if not self.reason:
            faults.append(Fault("reason", f"{self.name} has no reason.", "Say why."))
        if faults:
            raise DimensionError(faults)
