"""How each line sits in the fit of all readings, in the words and colours of the form."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.kit import number_text, theme
from roofmodel.desktop.survey import survey_lamp
from roofmodel.survey.fit.residual import Residual
from roofmodel.survey.readings.reading import Reading, Unit
from roofmodel.survey.sheets import nominal
from roofmodel.survey.verdict.examination import Examination
from roofmodel.survey.verdict.protection import LineProtection

OFF_TIP = "What was read less what the fitted roof has there, and in brackets how far out is usual."
_NOTABLE = 2.0
"""Standard errors beyond which one reading in twenty lies."""
_LIKELY = 0.01


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """What the form says of the fit.

    ``doubted`` are lines that may be wrong, ``wrong`` the values of lines that are; ``entered`` is
    what the sizes of the whole roof say where a line was not read, ``shown`` what a slip in a line
    would show.
    """

    worst: Mapping[str, Residual] = field(default_factory=dict)
    limit: float = 0.0
    doubted: frozenset[str] = frozenset()
    wrong: Mapping[str, frozenset[float]] = field(default_factory=dict)
    entered: Mapping[str, str] = field(default_factory=dict)
    shown: Mapping[str, LineProtection] = field(default_factory=dict)

    def mark(self, reading: Reading) -> str:
        """Return ``stop`` for a reading that is wrong, ``question`` for one that may be."""
        if reading.name in self.wrong:
            return "stop" if reading.value in self.wrong[reading.name] else ""
        return "question" if reading.name in self.doubted else ""

    def off(self, name: str) -> tuple[str, str, str]:
        """Return words, colour and tip for the last column of a line."""
        residual = self.worst.get(name)
        if residual is None:
            return "", theme.INK, OFF_TIP
        if not residual.checked:
            return (
                "not checked",
                theme.FAINT,
                ("No other reading checks this one, so a slip would go unnoticed."),
            )
        size = abs(residual.normalised)
        colour = theme.INK
        if size > _NOTABLE:
            colour = theme.STOP if size > self.limit else theme.QUESTION
        decimals = 2 if _in_degrees(residual) else 1
        # No "-0.0": what rounds to nothing is not out.
        out = round(residual.residual, decimals) + 0.0
        words = f"{out:+.{decimals}f} (±{residual.usual:.{decimals}f})"
        tip = f"{OFF_TIP}\nSuspected beyond {self.limit * residual.usual:.{decimals}f}. "
        return words, colour, f"{tip}The fitted roof has {_printed(residual)}.{self._slip(name)}"

    def _slip(self, name: str) -> str:
        """Return the smallest slip in a line that would show, as one more line of its tip."""
        one = self.shown.get(name)
        return "" if one is None else f"\nOf a slip in this line: {one.text}."


def of_job(open_job: OpenJob) -> Fit:
    """Return the fit of the open job's readings; an empty one where there is none."""
    examination = survey_lamp.examination(open_job)
    return Fit() if examination is None else _of(examination)


def _of(examination: Examination) -> Fit:
    worst: dict[str, Residual] = {}
    entered: dict[str, str] = {}
    for one in examination.adjusted.residuals:
        if not isinstance(one.source, Reading):
            continue
        if one.source.note == nominal.NOTE:
            entered[one.name] = number_text.shown(one.source.value)
            continue
        before = worst.get(one.name)
        if before is None or abs(one.normalised) > abs(before.normalised):
            worst[one.name] = one
    return Fit(
        worst=worst,
        limit=examination.adjusted.limit,
        doubted=_doubted(examination),
        wrong=_wrong(examination),
        entered=entered,
        shown={one.line.name: one for one in examination.protection.lines},
    )


def _doubted(examination: Examination) -> frozenset[str]:
    """Return the lines that may be wrong; none in a survey that is closed."""
    open_titles = {reason.title for reason in examination.state.reasons}
    if not open_titles:
        return frozenset()
    names: set[str] = set()
    for closure in examination.closures:
        if closure.title in open_titles:
            names |= {way.line for way in closure.explanations}
    for suspicion in examination.suspicions:
        names |= {name for name, share in suspicion.beliefs.items() if share > _LIKELY}
    return frozenset(names)


def _wrong(examination: Examination) -> dict[str, frozenset[float]]:
    """Return the lines that were located as wrong, each with the value or values that are."""
    if examination.state.closed:
        return {}
    return {
        suspicion.located: frozenset(
            suspect.reading.value
            for suspect in suspicion.suspects
            if suspect.name == suspicion.located and suspect.share > _LIKELY
        )
        for suspicion in examination.suspicions
        if suspicion.located is not None
    }


def _in_degrees(residual: Residual) -> bool:
    return isinstance(residual.source, Reading) and residual.source.unit is Unit.DEG


def _printed(residual: Residual) -> str:
    unit = Unit.DEG if _in_degrees(residual) else Unit.MM
    return unit.printed(residual.adjusted)
