"""The identity of a set of papers, and of every piece: the method and a short name for what is cut.

A piece's own ends its mark, so that two pieces of other shapes never carry one mark, and one that a
revision leaves as it was keeps its mark. The set's is made of all of them; it stands in codes,
names of files, lists and labels: another method, effort or size makes another set.
"""

from collections.abc import Iterator, Mapping
from dataclasses import replace

from roofmodel.cutting.lengths.plan import LengthPlan
from roofmodel.drawings.paper.heading import Heading
from roofmodel.drawings.sheets.cut_on_facet import CutPlan, Kept, Stock
from roofmodel.drawings.sheets.paper_job import CutLengths, CuttingSet, PaperJob
from roofmodel.foundation import fingerprint
from roofmodel.quantities.runs import Run
from roofmodel.refit.method import Method

_COUNT = 4

_METHODS = {Method.NEW_ROOF: "N", Method.BUILD_ROUND: "B", Method.PANEL_SWAP: "P"}
"""The letter of each method, which begins the identity."""

_SEVERAL = "S"
"""Begins the identity of the sheets that several jobs share."""


def identified(whole: CuttingSet, methods: Mapping[str, Method], *, prefix: str) -> CuttingSet:
    """Return a set whose marks, labels and headings carry its identity.

    Parameters
    ----------
    whole
        The set, its marks as the plans have them.
    methods
        The method of every job by its code.
    prefix
        What the labels of its offcuts begin with: jobs and revision.
    """
    pieces = {job.heading.job_code: _pieces(job, methods) for job in whole.jobs}
    own = {job.heading.job_code: _of_job(job, methods) for job in whole.jobs}
    together = next(iter(own.values()))
    if len(own) > 1:
        together = _SEVERAL + fingerprint.letters(" ".join(own.values()), _COUNT)
    named = _Named(
        own, together, prefix, {m: one for job in pieces.values() for m, one in job.items()}
    )
    return replace(
        whole,
        heading=named.heading(whole.heading, together),
        plans=tuple(named.plan(plan) for plan in whole.plans),
        jobs=tuple(named.job(job) for job in whole.jobs),
    )


def _of_job(job: PaperJob, methods: Mapping[str, Method]) -> str:
    letter = _METHODS[methods[job.heading.job_code]]
    content = [job.heading.revision, *(f"{mark} {line}" for mark, line in _content(job))]
    return letter + fingerprint.letters("\n".join(sorted(content)), _COUNT)


def _pieces(job: PaperJob, methods: Mapping[str, Method]) -> dict[str, str]:
    """Return every mark of a job with the identity of the piece at its end."""
    letter = _METHODS[methods[job.heading.job_code]]
    lines: dict[str, list[str]] = {}
    for mark, line in _content(job):
        lines.setdefault(mark, []).append(line)
    return {
        mark: f"{mark}-{letter}{fingerprint.letters(' '.join(sorted(of_one)), _COUNT)}"
        for mark, of_one in lines.items()
    }


def _content(job: PaperJob) -> Iterator[tuple[str, str]]:
    """Yield mark and exact shape of everything that is cut for a job."""
    for plan in job.plans:
        for part in plan.parts:
            bevels = [round(bevel, 3) for bevel in part.bevels_deg]
            made_of = f"{plan.good.code} {plan.good.thickness_mm:.2f}"
            yield part.mark, f"{made_of} {part.corners} {bevels} {part.facet}"
    for cut in job.lengths:
        for part_of_run in cut.plan.problem.parts:
            yield part_of_run.mark, f"{cut.plan.material} {part_of_run.length}"
        for run in cut.runs:
            made = "" if run.timber is None else f"{run.timber.cut_like}"
            yield run.mark, f"{cut.plan.material} {made}"


class _Named:
    """Puts the identities of a set's jobs and pieces where they stand."""

    def __init__(
        self, own: Mapping[str, str], together: str, prefix: str, marks: Mapping[str, str]
    ) -> None:
        self._own, self._together, self._prefix, self._marks = own, together, prefix, marks

    def heading(self, heading: Heading, identity: str) -> Heading:
        return replace(heading, set_id=identity)

    def job(self, job: PaperJob) -> PaperJob:
        identity = self._own[job.heading.job_code]
        return replace(
            job,
            heading=self.heading(job.heading, identity),
            plans=tuple(self.plan(plan) for plan in job.plans),
            lengths=tuple(self._lengths(cut) for cut in job.lengths),
        )

    def plan(self, plan: CutPlan) -> CutPlan:
        owners = {
            code: replace(owner, heading=self.heading(owner.heading, self._own[code]))
            for code, owner in plan.owners.items()
        }
        return replace(
            plan, owners=owners, stocks=tuple(self._stock(stock) for stock in plan.stocks)
        )

    def _stock(self, stock: Stock) -> Stock:
        return replace(
            stock,
            placed=tuple(
                replace(one, part=replace(one.part, mark=self._mark(one.part.mark)))
                for one in stock.placed
            ),
            cuts=tuple(replace(cut, frees=self._mark(cut.frees)) for cut in stock.cuts),
            stuck=tuple(self._mark(mark) for mark in stock.stuck),
            kept=tuple(self._kept(one) for one in stock.kept),
        )

    def _mark(self, mark: str) -> str:
        return self._marks.get(mark, mark)

    def _kept(self, kept: Kept) -> Kept:
        return replace(kept, label=self._label(kept.label))

    def _label(self, label: str) -> str:
        return label.replace(self._prefix, f"{self._prefix}-{self._together}", 1)

    def _lengths(self, cut: CutLengths) -> CutLengths:
        return replace(
            cut,
            plan=self._with_marks(cut.plan),
            runs=tuple(self._named_run(run) for run in cut.runs),
            kept={
                number: replace(one, label=self._label(one.label))
                for number, one in cut.kept.items()
            },
        )

    def _named_run(self, run: Run) -> Run:
        mark = self._mark(run.mark)
        made = None if run.timber is None else replace(run.timber, mark=mark)
        return replace(run, mark=mark, timber=made)

    def _with_marks(self, plan: LengthPlan) -> LengthPlan:
        bars = tuple(
            replace(
                bar, parts=tuple(replace(part, mark=self._mark(part.mark)) for part in bar.parts)
            )
            for bar in plan.layout.bars
        )
        return replace(plan, layout=replace(plan.layout, bars=bars))
