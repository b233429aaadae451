"""Every gate of a method on the open job; whatever binds reads these and no rule of its own.

Gates of prices and of the release itself are added where prices and revisions are known.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from roofmodel.buildups.catalogue import Catalogue
from roofmodel.foundation.outcome import Outcome
from roofmodel.foundation.source import Source
from roofmodel.gates import every_gate
from roofmodel.gates.answer.result import Gate
from roofmodel.gates.consent import every_consent
from roofmodel.gates.every_gate import Asked, Group
from roofmodel.refit import refit as refits
from roofmodel.refit.refit import Refit
from roofmodel.storage.job import Job
from roofmodel.survey.fit.pitch_routes import Pitch
from roofmodel.survey.verdict import state
from roofmodel.survey.verdict.examination import Examination
from roofmodel.survey.verdict.state import Output
from roofmodel.workbench.firm.tables import Tables
from roofmodel.workbench.job import judging, made_of
from roofmodel.workbench.job.judging import Beside
from roofmodel.workbench.job.neighbours import Neighbour, Neighbours
from roofmodel.workbench.job.options import Option

PRACTICE = Source("common practice, no source", "", verified=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class SiteKnown:
    """What a job's gates are answered from, besides the method on its roof."""

    job: Job
    catalogue: Catalogue
    tables: Tables
    examination: Examination | None
    neighbours: Neighbours
    answered: dict[int, tuple[Option, tuple[Gate, ...]]] = field(
        default_factory=dict, init=False, repr=False, compare=False
    )

    @property
    def pitches(self) -> Sequence[Pitch]:
        """The pitches that were read."""
        return self.examination.pitches if self.examination is not None else ()

    @property
    def checked(self) -> bool:
        """Whether the survey is closed, so that its readings check one another."""
        return self.examination is not None and self.examination.state.closed

    @property
    def asked(self) -> Asked:
        """What the gates of a method are answered from."""
        return Asked(
            facts=self.job.site,
            catalogue=self.catalogue,
            heat=self.job.heat.facts(),
            pitches=self.pitches,
            entries=self.job.lights,
        )

    def beside(self, refit: Refit, near: Neighbour) -> Refit:
        """Return a method of the job on one of the roofs beside its own; made once, kept."""

        def applied(near: Neighbour) -> Refit:
            return refits.apply(refit.method, near.site, refit.entry, self.catalogue, like=refit)

        return self.neighbours.refit(refit, near, applied)


def quick(option: Option, known: SiteKnown) -> tuple[Gate, ...]:
    """Return the gates of the survey and of building: what decides whether anything is cut."""
    survey = of_survey(known)
    if option.refit is None:
        return survey
    return (*survey, *buildable(option.refit, known, all_of_them=False))


def buildable(refit: Refit, known: SiteKnown, *, all_of_them: bool) -> tuple[Gate, ...]:
    """Return the gates of building with the errors of what was measured.

    ``all_of_them`` False leaves alone what no error could turn, which costs nothing.
    """
    asked = known.asked
    checks = every_gate.moved_by(refit, asked, every_gate.BUILDABLE)
    return _judged(checks, refit, known, asked, all_of_them=all_of_them)


def _judged(
    checks: Sequence[Gate], refit: Refit, known: SiteKnown, asked: Asked, *, all_of_them: bool
) -> tuple[Gate, ...]:
    quick = replace(asked, rough=True)
    new = refit.default.new_bars is not None

    def compared(near: Neighbour, groups: frozenset[Group]) -> tuple[Gate, ...]:
        groups &= near.moved.groups
        there = replace(quick, facts=near.job.site)
        if near.moved.path[0] in made_of.MADE_OF:
            moved, there = made_of.moved(refit, there, near.moved, near.step)
            return every_gate.moved_by(moved, there, groups)
        if groups <= {Group.SLOPES}:
            # Slopes and heights need no bars, which cost most.
            return every_gate.moved_by(replace(refit, site=near.bare), there, groups)
        return every_gate.moved_by(known.beside(refit, near), there, groups)

    beside = Beside(
        neighbours=known.neighbours,
        compared=compared,
        base=lambda groups: every_gate.moved_by(refit, quick, groups & {Group.HEAT}),
        more=made_of.of_refit(refit, asked),
        matters=lambda one: not (new and one.path[0] == "bars"),  # they go with the old roof
        checked=known.checked,
    )
    return judging.judged(checks, beside, all_of_them=all_of_them)


def every(option: Option, known: SiteKnown) -> tuple[Gate, ...]:
    """Return every gate of a method, in the order a roof is thought through; asked once, kept."""
    kept = known.answered.get(id(option))
    if kept is None or kept[0] is not option:
        kept = known.answered[id(option)] = (option, _every(option, known))
    return kept[1]


def _every(option: Option, known: SiteKnown) -> tuple[Gate, ...]:
    survey = of_survey(known)
    if option.refit is None:
        return survey
    refit, asked = option.refit, known.asked
    found = every_gate.run(refit, asked)
    judged = _judged(found, refit, known, asked, all_of_them=True)
    return (*survey, *judged, *every_consent.of_refit(refit, known.job.house, known.job.site))


def of_survey(known: SiteKnown) -> tuple[Gate, ...]:
    """Return whether the roof was read at all, and whether the readings agree."""
    examination = known.examination
    read = Gate(
        name="survey: readings",
        question="Was the roof measured with readings that check each other?",
        outcome=Outcome.MEASURE_AGAIN if examination is None else Outcome.PASS,
        reason="The roof is drawn from dimensions; no reading was entered that checks them."
        if examination is None
        else f"{len(known.job.readings)} readings are entered.",
        remedy="Enter the readings of the survey sheet, diagonals and slopes included."
        if examination is None
        else "",
        field="readings",
        source=PRACTICE,
    )
    if examination is None:
        return (read,)
    permission = state.permission(examination.state, Output.CUTTING)
    closed = Gate(
        name="survey: closures",
        question="Do the readings of the survey agree with each other?",
        outcome=Outcome.PASS if permission.allowed else Outcome.MEASURE_AGAIN,
        reason="Every closure is within what the tools are good for."
        if permission.allowed
        else permission.reason,
        remedy="" if permission.allowed else "Take the reading the survey asks for once more.",
        field="readings",
        source=PRACTICE,
    )
    return (read, closed)
