"""Whether a survey is open or closed, why, and what may be made of it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from roofmodel.survey.fit.adjustment import Adjusted
from roofmodel.survey.fit.closure import BLOCKING, Closure, Verdict
from roofmodel.survey.fit.suspect import Suspicion
from roofmodel.survey.readings.network import Assumption
from roofmodel.survey.taped.findings import Finding, Severity

FIT = "fit of all readings"

BLUNT = 3.0
"""Readings good for no better than this many limits say nothing about a closure over its limit."""


class Output(StrEnum):
    """What can be made of a survey."""

    PICTURE = "picture"
    ROUGH_PRICE = "rough price"
    ORDER_PRICE = "price for order"
    CUTTING = "cutting"

    @property
    def binds(self) -> bool:
        """Whether money or material is spent on it."""
        return self in (Output.ORDER_PRICE, Output.CUTTING)


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """One thing that keeps a survey open: a query can be answered by a choice, a block cannot."""

    title: str
    verdict: Verdict
    text: str
    remedy: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SurveyState:
    """The verdict on a survey.

    ``reasons`` keep it open; ``answered`` are queries somebody has answered, with the answer;
    ``notes`` are told and stop nothing.
    """

    reasons: tuple[Reason, ...]
    answered: tuple[tuple[str, str], ...]
    notes: tuple[str, ...]

    @property
    def closed(self) -> bool:
        """Whether the readings agree, or every query has its answer."""
        return not self.reasons

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
                reason.text,
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Revisions:
    """The revision letters that must be one before anything is cut."""

    survey: str
    model: str
    drawing: str
    price: str

    @property
    def agree(self) -> bool:
        """Whether all are the same."""
        return len({self.survey, self.model, self.drawing, self.price}) == 1

    @property
    def text(self) -> str:
        """The letters as one line."""
        return (
            f"survey {self.survey}, model {self.model}, drawing {self.drawing}, price {self.price}"
        )


UNRECONCILED = "unreconciled"


def survey_state(
    adjusted: Adjusted,
    closures: Sequence[Closure],
    suspicions: Sequence[Suspicion] = (),
    *,
    answers: Mapping[str, str] | None = None,
) -> SurveyState:
    """Return the verdict on a survey.

    Parameters
    ----------
    suspicions
        What `suspect.find_all` found; named in the reasons.
    answers
        The choice somebody made and had recorded, by the title of the query it answers.
    """
    given = answers or {}
    # Where all readings fit together, a closure over its limit by mere chance opens nothing; nor
    # does one ever that its readings are far too blunt for, such as a walk by bevel angles.
    over = [c for c in closures if c.verdict is not Verdict.HOLDS]
    telling = [c for c in over if c.beyond_chance or not (adjusted.fits or _blunt(c))]
    found = [*_closures(telling), *_open(adjusted)]
    if all(reason.title in given for reason in found):
        # As long as a closure says what is wrong, the fit as a whole adds nothing to it.
        found += _fit(adjusted, suspicions)
    answered = [r for r in found if r.verdict is Verdict.QUERY and r.title in given]
    return SurveyState(
        reasons=tuple(reason for reason in found if reason not in answered),
        answered=tuple((reason.title, given[reason.title]) for reason in answered),
        notes=(
            *(_hazy(c, fits=adjusted.fits) for c in over if c not in telling),
            *_notes(adjusted),
        ),
    )


def permission(
    state: SurveyState, output: Output, *, revisions: Revisions | None = None
) -> Permission:
    """Return whether an output may be made of a survey in this state.

    An open survey gives a picture and a rough price that says so, and nothing that binds. Cutting
    asks for one revision letter throughout.
    """
    if output is Output.CUTTING and revisions is not None and not revisions.agree:
        reason = f"Revisions differ: {revisions.text}. Bring all to one letter first."
        return Permission(allowed=False, reason=reason)
    if state.closed:
        return Permission(allowed=True)
    why = "The survey is open: " + "; ".join(reason.title for reason in state.reasons) + "."
    if output.binds:
        return Permission(allowed=False, reason=f"{why} Settle that before {output.value}.")
    return Permission(
        allowed=True, mark=UNRECONCILED if output is Output.ROUGH_PRICE else "", reason=why
    )


def _closures(closures: Sequence[Closure]) -> list[Reason]:
    return [
        Reason(
            title=closure.title,
            verdict=closure.verdict,
            text=f"{closure.text}.",
            remedy=_repeat(closure),
        )
        for closure in closures
    ]


def _blunt(closure: Closure) -> bool:
    return closure.standard_error > BLUNT * closure.limit


def _hazy(closure: Closure, *, fits: bool) -> str:
    and_fits = ", and all else fits" if fits else ""
    return f"{closure.text}; that is within what the readings are good for{and_fits}."


def _repeat(closure: Closure) -> str:
    """Return what each reading would have to be, so that the surveyor knows what to read again."""
    ways = ", or ".join(way.text for way in closure.explanations)
    return f"If only one reading is wrong it would have to be: {ways}. Read those again."


def _fit(adjusted: Adjusted, suspicions: Sequence[Suspicion]) -> list[Reason]:
    if adjusted.fits:
        return []
    worst = max(adjusted.residuals, key=lambda r: abs(r.normalised))
    size = abs(worst.normalised)
    blocks = size > BLOCKING * adjusted.limit
    remedy = " ".join(_named(suspicion) for suspicion in suspicions)
    if isinstance(worst.source, Assumption):
        # The building may be out of the usual rather than a reading wrong.
        remedy = f"Measure what was only assumed: {worst.source.label}. {remedy}".strip()
    return [
        Reason(
            title=FIT,
            verdict=Verdict.BLOCKS if blocks else Verdict.QUERY,
            text=(
                f"The readings do not fit together: the worst is {size:.1f} of its standard "
                f"errors out (limit {adjusted.limit:.1f})."
            ),
            remedy=remedy,
        )
    ]


def _named(suspicion: Suspicion) -> str:
    if suspicion.located is not None:
        return f"{suspicion.suspects[0].text} Read {suspicion.located} again."
    names = ", ".join(suspicion.beliefs)
    return f"Detected, not located: one of {names}."


def _open(adjusted: Adjusted) -> list[Reason]:
    if not adjusted.undetermined:
        return []
    points = ", ".join(adjusted.undetermined)
    return [
        Reason(
            title="missing readings",
            verdict=Verdict.BLOCKS,
            text=f"Nothing says where {points} lies.",
            remedy="Take more of the recommended readings to it.",
        )
    ]


def _notes(adjusted: Adjusted) -> list[str]:
    notes = [f"Assumed, nobody measured it: {a.label}." for a in adjusted.assumptions]
    alone = sorted({r.name for r in adjusted.residuals if r.place is not None and not r.checked})
    if alone:
        notes.append(f"Nothing checks {', '.join(alone)}: a slip there would not show.")
    return notes
