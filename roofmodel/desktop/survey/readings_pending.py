"""Texts of the readings form that are no part of the job yet, and what is asked about them."""

from dataclasses import dataclass

from roofmodel.desktop.job.open_job import READINGS
from roofmodel.desktop.kit import number_text
from roofmodel.survey.readings.reading import Unit
from roofmodel.survey.taped.findings import Finding, Severity

Field = tuple[str, int]
"""A field of the form: the name of its line, and which of its readings."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pending:
    """What is asked or wrong about a text, and the values it may mean."""

    finding: Finding
    typed_value: float | None = None
    meant: tuple[float, ...] = ()

    @property
    def words(self) -> str:
        """What is said beside the field; buttons speak for the remedy of a question."""
        if self.typed_value is not None:
            return self.finding.text
        return f"{self.finding.text} {self.finding.remedy}"

    def choices(self, unit: Unit) -> list[str]:
        """Return the words of a button for each value it may mean, the typed one last."""
        if self.typed_value is None:
            return []
        meant = [f"{number_text.shown(value)} {unit.value}" for value in self.meant]
        return [*meant, f"{number_text.shown(self.typed_value)} {unit.value} is right"]


def finding(name: str, severity: Severity, text: str, remedy: str) -> Finding:
    """Return a finding about a line of the survey sheet."""
    return Finding(f"{READINGS}.{name}", severity, text, remedy)
