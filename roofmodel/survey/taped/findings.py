"""Remarks about an entered job: what is doubtful or wrong, and what to do."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from roofmodel.foundation.errors import Fault, Offer


class Severity(StrEnum):
    """How far a finding stops the job."""

    NOTE = "note"
    QUESTION = "question"
    STOP = "stop"


@dataclass(frozen=True, slots=True)
class Finding:
    """One remark about one field of the job, named by its path in the job file.

    ``offer`` is there where the remedy is one value.
    """

    field: str
    severity: Severity
    text: str
    remedy: str
    offer: Offer | None = None

    def __str__(self) -> str:
        """Return the finding as one line."""
        return f"{self.field}: {self.text} {self.remedy}"


def stops(faults: Iterable[Fault], *, under: str) -> list[Finding]:
    """Return faults as findings that stop the job; ``under`` is the path above their fields."""
    return [
        Finding(f"{under}.{fault.field}", Severity.STOP, fault.text, fault.remedy, fault.offer)
        for fault in faults
    ]
