"""What one check answers: outcome, number, limit, why, what to do, and how it came out."""

import math
from dataclasses import dataclass
from enum import StrEnum

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.foundation.outcome import Outcome
from roofmodel.foundation.source import Source


class Sense(StrEnum):
    """On which side of its limit a figure passes."""

    AT_MOST = "at most"
    AT_LEAST = "at least"


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One question and its answer.

    ``value``, ``limit`` and ``uncertainty`` (a standard error) are in ``unit``; None where there is
    no such number. ``sense`` says that the verdict is the plain comparison of both, which the
    errors of what was entered may still turn to "measure again". ``field`` is the entry that
    decides, as the job file names it. ``source`` is where the rule stands, ``inputs`` where the
    figures it takes stand. ``details`` is the derivation, one row of words and figure
    for each step.
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
    sense: Sense | None = None
    field: str = ""
    source: Source | None = None
    inputs: tuple[Source, ...] = ()
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
        return bool(self.source and self.source.verified) and all(s.verified for s in self.inputs)

    @property
    def source_words(self) -> str:
        """The source, and the first input nobody of us has read where the rule itself was read."""
        unread = [one for one in self.inputs if not one.verified]
        if self.source is None or not self.source.verified or not unread:
            return str(self.source or "")
        return f"{self.source}; rests on {unread[0]}"

    @property
    def margin(self) -> float | None:
        """What is left to the limit, below 0 where it is missed; None without a comparison."""
        if self.sense is None or self.value is None or self.limit is None:
            return None
        room = self.limit - self.value
        return room if self.sense is Sense.AT_MOST else -room
