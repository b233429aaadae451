"""Whether a survey is open or closed, why, and what may be made of it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from roofmodel.survey.fit.adjustment import Adjusted
from roofmodel.survey.fit.closure import BLOCKING, Closure, Verdict
from roofmodel.survey.fit.residual import Residual
from roofmodel.survey.fit.suspect import Suspicion
from roofmodel.survey.readings.network import Assumption
from roofmodel.survey.taped.findings import Finding, Severity

FIT = "fit of all readings"

BLUNT = 3.0
"""Readings good for no better than this many limits say nothing about a closure over its limit."""


class Output(StrEnum):
    """What can be made of a survey."""

    PICTURE = "picture"
    ROUGH_PRICE = "budget price"
    ORDER_PRICE = "firm price"
    CUTTING = "cutting"

    @property
    def binds(self) -> bool:
        """Whether money or material is spent on it."""
        return self in (Output.ORDER_PRICE, Output.CUTTING)


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """One thing that keeps a survey open: a query can be answered by a choice, a block cannot.

    ``untitled`` is the text where its title is said already; empty where the text has no title.
    """

    title: str
    verdict: Verdict
    text: str
    remedy: str
    untitled: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class SurveyState:
    """The verdict on a survey.

    ``reasons`` keep it open; ``answered`` are queries somebody has answered, with the answer;
    ``notes`` are told and stop nothing. ``protected`` says whether a slip of the stated size would
    show in any line (`protection`).
    """

    reasons: tuple[Reason, ...]
    answered: tuple[tuple[str, str], ...]
    notes: tuple[str, ...]
    protected: bool = False

    @property
    def open(self) -> bool:
        """Whether readings contradict one another and nobody has answered for it."""
        return bool(self.reasons)

    @property
    def closed(self) -> bool:
        """Whether all that was read agrees, and a slip in it would have shown."""
        return self.protected and not self.open

    @property
    def blocked(self) -> bool:
        """Whether only another reading can close it."""
        return any(reason.verdict is Verdict.BLOCKS for reason in self.reasons)

    @property
    def findings(self) -> tuple[Finding, ...]:
        """The reasons as remarks about the readings of the job."""
        return tuple(
            Finding(
                f"readings.{reason.title}",
                Severity.STOP if reason.verdict is Verdict.BLOCKS else Severity.QUESTION,
                reason.untitled or reason.text,
                reason.remedy,
            )
            for reason in self.reasons
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Permission:
    """Whether something may be made now, the mark it carries, and the reason if it may not."""

    allowed: bool
    mark: str = ""
    reason: str = ""


UNRECONCILED = "unreconciled"


def survey_state(
    adjusted: Adjusted,
    closures: Sequence[Closure],
    suspicions: Sequence[Suspicion] = (),
    *,
    answers: Mapping[str, str] | None = None,
    protected: bool = False,
    settled_by: str = "",
) -> SurveyState:
    """Return the verdict on a survey.

    Parameters
    ----------
    suspicions
        What `suspect.find_all` found; named in the reasons.
    answers
        The choice somebody made and had recorded, by the title of the query it answers.
    protected
        Whether a slip of the stated size would show in any line.
    settled_by
        The reading to take next, and what it would mean.
    """
    given = answers or {}
    # Where all readings fit together, a closure over its limit by mere chance opens nothing; nor
    # does one ever that its readings are far too blunt for, such as a walk by bevel angles.
    over = [c for c in closures if c.verdict is not Verdict.HOLDS]
    telling = [
        c
        for c in over
        if c.beyond_chance or c.blocks_whatever_is_claimed or not (adjusted.fits or _blunt(c))
    ]
    reasons = [*_closures(telling, settled_by), *_open(adjusted)]
    if all(reason.title in given for reason in reasons):
        # As long as a closure says what is wrong, the fit as a whole adds nothing to it.
        reasons += _fit(adjusted, suspicions, settled_by)
    answered = [r for r in reasons if r.verdict is Verdict.QUERY and r.title in given]
    return SurveyState(
        reasons=tuple(reason for reason in reasons if reason not in answered),
        answered=tuple((reason.title, given[reason.title]) for reason in answered),
        notes=(
            *(_hazy(c, fits=adjusted.fits) for c in over if c not in telling),
            *_notes(adjusted),
        ),
        protected=protected,
    )


def permission(state: SurveyState, output: Output) -> Permission:
    """Return whether an output may be made of a survey in this state.

    An open survey gives a picture and a rough price that says so, and nothing that binds.
    """
    if not state.open:
        return Permission(allowed=True)
    why = "The survey is open: " + "; ".join(reason.title for reason in state.reasons) + "."
    if output.binds:
        return Permission(allowed=False, reason=f"{why} Settle this before {output.value}.")
    return Permission(
        allowed=True, mark=UNRECONCILED if output is Output.ROUGH_PRICE else "", reason=why
    )


def _closures(closures: Sequence[Closure], settled_by: str) -> list[Reason]:
    return [
        Reason(
            title=closure.title,
            verdict=closure.verdict,
            text=f"{closure.text}.",
            untitled=f"{closure.difference}.",
            remedy=_repeat(closure, settled_by if closure is closures[0] else ""),
        )
        for closure in closures
    ]


def _blunt(closure: Closure) -> bool:
    return closure.standard_error > BLUNT * closure.limit


def _hazy(closure: Closure, *, fits: bool) -> str:
    and_fits = ", and everything else agrees" if fits else ""
    return f"{closure.text}; that is within the accuracy of the readings{and_fits}."


def _repeat(closure: Closure, settled_by: str) -> str:
    """Return what each reading would have to be, and what to read to find out which it is."""
    ways = ", or ".join(way.text for way in closure.explanations)
    would_be = f"If only one reading is wrong it would have to be: {ways}."
    return f"{would_be} {settled_by or 'Read those again.'}"


def _fit(adjusted: Adjusted, suspicions: Sequence[Suspicion], settled_by: str) -> list[Reason]:
    if adjusted.fits:
        return []
    worst = max(adjusted.residuals, key=lambda r: abs(r.normalised))
    size = abs(worst.normalised)
    blocks = size > BLOCKING * adjusted.limit
    remedy = " ".join([*(_named(suspicion) for suspicion in suspicions), settled_by]).strip()
    if isinstance(worst.source, Assumption):
        # The building may be out of the usual rather than a reading wrong.
        remedy = f"Measure this instead of assuming it: {worst.source.label}. {remedy}".strip()
    return [
        Reason(
            title=FIT,
            verdict=Verdict.BLOCKS if blocks else Verdict.QUERY,
            text=f"The readings do not fit together: {_out(worst)}.",
            remedy=remedy,
        )
    ]


def _out(worst: Residual) -> str:
    """Return how far the worst of them is out, and how far is usual."""
    source = worst.source
    name = source.label if isinstance(source, Assumption) else source.name
    out, usual = (source.unit.rough(x) for x in (abs(worst.residual), worst.usual))
    return f"{name} is {out} out where {usual} is usual"


def _named(suspicion: Suspicion) -> str:
    if suspicion.located is not None:
        return f"{suspicion.suspects[0].text} Measure {suspicion.located} again."
    names = ", ".join(suspicion.beliefs)
    return f"There is an error, but it could be in any of {names}."


def _open(adjusted: Adjusted) -> list[Reason]:
    if not adjusted.undetermined:
        return []
    points = ", ".join(adjusted.undetermined)
    return [
        Reason(
            title="missing readings",
            verdict=Verdict.BLOCKS,
            text=f"There are not enough readings to fix the position of {points}.",
            remedy="Take more of the recommended readings there.",
        )
    ]


def _notes(adjusted: Adjusted) -> list[str]:
    notes = [f"Assumed, not measured: {a.label}." for a in adjusted.assumptions]
    alone = sorted({r.name for r in adjusted.residuals if r.place is not None and not r.checked})
    if alone:
        notes.append(f"No other reading checks {', '.join(alone)}, so a slip would go unnoticed.")
    return notes
