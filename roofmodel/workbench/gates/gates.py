"""The gates of a method on the open job: every check, and what stands between job and paper."""

from dataclasses import dataclass
from datetime import date
from typing import Any

from roofmodel.foundation.outcome import Outcome
from roofmodel.foundation.source import Source
from roofmodel.gates import every_gate
from roofmodel.gates.answer import blocks
from roofmodel.gates.answer.result import Gate
from roofmodel.quantities import take_off
from roofmodel.refit.refit import Refit
from roofmodel.workbench.job import provenance, releasing
from roofmodel.workbench.job.options import Option
from roofmodel.workbench.job.reckoning import Drawn
from roofmodel.workbench.offer import bills

PRINTED = "The program only calculates; the engineer, building control and the electrician decide."

_PRACTICE = Source("common practice, no source", "", verified=False)
_REVISION, _PRICES, _METHOD = "revision", "prices", "method"


@dataclass(frozen=True, slots=True, kw_only=True)
class Gates:
    """Every gate of one method, in the order a roof is thought through."""

    option: Option
    checks: tuple[Gate, ...]

    @property
    def worst(self) -> Outcome:
        """The gravest outcome."""
        return every_gate.worst(self.checks)

    def count(self, outcome: Outcome) -> int:
        """Return how many gates came out so."""
        return sum(check.outcome is outcome for check in self.checks)

    def of(self, name: str) -> Gate | None:
        """Return the gate of a name."""
        return next((check for check in self.checks if check.name == name), None)

    @property
    def words(self) -> str:
        """How many gates came out how, in one line."""
        return ", ".join(f"{self.count(one)} {one}" for one in Outcome if self.count(one))


def gates(drawn: Drawn, option: Option, *, today: date) -> Gates:
    """Return the gates of a method.

    Parameters
    ----------
    drawn, option
        The job and one of its methods.
    today
        The day prices are looked at.
    """
    checks = [*_method(option), *drawn.verdicts(option)]
    if option.refit is not None:
        checks.append(_prices(drawn, option, option.refit, today))
    return Gates(option=option, checks=(*checks, _revision(drawn, option, today)))


def figures(answers: Gates) -> dict[str, Any]:
    """Return gates under the names that reports print."""
    return {
        "method": answers.option.method.value,
        "title": answers.option.method.printed,
        "worst": answers.worst.value,
        "gates": [_figures(check) for check in answers.checks],
        "decides": PRINTED,
    }


def _figures(check: Gate) -> dict[str, Any]:
    return {
        "name": check.name,
        "question": check.question,
        "outcome": check.outcome.value,
        "value": _rounded(check.value),
        "limit": _rounded(check.limit),
        "uncertainty": _rounded(check.uncertainty),
        "band": None if check.band is None else [_rounded(end) for end in check.band],
        "unit": check.unit,
        "reason": check.reason,
        "remedy": check.remedy,
        "field": check.field,
        "blocks": [binding.value for binding in blocks.shipped().blocked_by(check)],
        "source": check.source_words,
        "inputs": [str(one) for one in check.inputs],
        "provenance": provenance.plain(check.figure),
        "verified": check.verified,
        "derivation": [list(row) for row in check.details],
    }


def _rounded(value: float | None) -> float | None:
    """Return a figure to six significant digits."""
    return None if value is None else float(f"{value:.6g}")


def _method(option: Option) -> list[Gate]:
    """Return the gate of the method where it is refused on this roof."""
    if not option.refused:
        return []
    return [
        Gate(
            name=_METHOD,
            question=f"Is “{option.method.printed}” possible on this roof?",
            outcome=Outcome.FAIL,
            reason=option.refused,
            remedy="Choose another method, or change the shape as described under the pitch gate.",
            source=_PRACTICE,
        )
    ]


def _prices(drawn: Drawn, option: Option, refit: Refit, today: date) -> Gate:
    # Quantities are of no matter here, so nothing is laid out or sawn for it.
    bill = take_off.uncut(
        refit, drawn.catalogue, lights=option.light_count, recipes=drawn.tables.recipes
    )
    missing = [line.code for line in bill.lines if line.applies and line.price is None]
    stale = bills.stale(drawn, bill, today)
    days = drawn.catalogue.stale_days
    parts = [f"{', '.join(missing)} missing"] if missing else []
    parts += [f"{', '.join(stale)} more than {days} days old"] if stale else []
    outcome = Outcome.MEASURE_AGAIN if stale else Outcome.PASS
    return Gate(
        name=_PRICES,
        question="Is every price known and recent enough to quote?",
        outcome=Outcome.FAIL if missing else outcome,
        reason=f"Prices in the catalogue: {'; '.join(parts)}."
        if parts
        else f"No price is missing or more than {days} days old.",
        remedy="Enter current prices in the firm's catalogue before quoting." if parts else "",
        source=_PRACTICE,
    )


def _revision(drawn: Drawn, option: Option, today: date) -> Gate:
    release = releasing.release(drawn, option, today=today)
    return Gate(
        name=_REVISION,
        question="Can this revision be cut?",
        outcome=Outcome.PASS if release.allowed else Outcome.MEASURE_AGAIN,
        reason=release.reason or f"Revision {drawn.job.revision} is released.",
        remedy="" if release.allowed else "Settle the points listed, then release the revision.",
        source=_PRACTICE,
    )
