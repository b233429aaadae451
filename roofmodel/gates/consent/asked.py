"""The two answers every gate of consent has in common: not known, and told by one fact."""

from dataclasses import dataclass

from roofmodel.foundation.outcome import Outcome
from roofmodel.foundation.source import Source
from roofmodel.gates.answer.result import Gate


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """What a gate is called, asks, and stands on."""

    name: str
    asks: str
    source: Source

    def answer(self, outcome: Outcome, reason: str, remedy: str = "") -> Gate:
        """Return an answer without a figure."""
        return Gate(
            name=self.name,
            question=self.asks,
            outcome=outcome,
            reason=reason,
            remedy=remedy,
            source=self.source,
        )

    def unknown(self, what: str, remedy: str) -> Gate:
        """Return that a fact is missing, and what to do to have it."""
        return self.answer(Outcome.MEASURE_AGAIN, f"It is not known {what}.", remedy)
