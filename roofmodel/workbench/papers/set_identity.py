"""The identity of a set of papers: its method and a short name for everything that is cut.

It ends every mark, so that two pieces of other shapes never carry one mark: another method, effort
or size makes another set. It stands in codes, names of files, lists and labels as well.
"""

from collections.abc import Iterator, Mapping
from dataclasses import replace

from roofmodel.cutting.lengths.plan import LengthPlan
from roofmodel.drawings.paper.heading import Heading
from roofmodel.drawings.sheets.cut_on_facet import CutPlan, Kept, Stock, job_of
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
    own = {job.heading.job_code: _of_job(job, methods) for job in whole.jobs}
    together = next(iter(own.values()))
    if len(own) > 1:
        together = _SEVERAL + fingerprint.letters(" ".join(own.values()), _COUNT)
    named = _Named(own, together, prefix)
    return replace(
        whole,
        heading=named.heading(whole.heading, together),
        plans=tuple(named.plan(plan) for plan in whole.plans),
        jobs=tuple(named.job(job) for job in whole.jobs),
    )


def _of_job(job: PaperJob, methods: Mapping[str, Method]) -> str:
    letter = _METHODS[methods[job.heading.job_code]]
    return letter + fingerprint.letters("\n".join(sorted(_content(job))), _COUNT)


def _content(job: PaperJob) -> Iterator[str]:
    """Yield a line for everything that is cut for a job: its mark and its exact shape."""
    yield job.heading.revision
    for plan in job.plans:
        yield f"{plan.good.code} {plan.good.thickness_mm:.2f}"
        for part in plan.parts:
            bevels = [round(bevel, 3) for bevel in part.bevels_deg]
            yield f"{part.mark} {part.corners} {bevels} {part.facet}"
    for cut in job.lengths:
        for part_of_run in cut.plan.problem.parts:
            yield f"{cut.plan.material} {part_of_run.mark} {part_of_run.length}"
        for run in cut.runs:
            if run.timber is not None:
                yield f"{run.mark} {run.timber.cut_like}"


class _Named:
    """Puts the identities of a set's jobs where they stand."""

    def __init__(self, own: Mapping[str, str], together: str, prefix: str) -> None:
        self._own, self._together, self._prefix = own, together, prefix

    def heading(self, heading: Heading, identity: str) -> Heading:
        return replace(heading, set_id=identity)

    def job(self, job: PaperJob) -> PaperJob:
        identity = self._own[job.heading.job_code]
        return replace(
            job,
            heading=self.heading(job.heading, identity),
            plans=tuple(self.plan(plan) for plan in job.plans),
            lengths=tuple(self._lengths(cut, identity) for cut in job.lengths),
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
        ends = {one.part.mark: self._own[job_of(one.part, self._own)] for one in stock.placed}
        # Sheets are shared; what lies on them for other jobs is still cut by the same list.
        return replace(
            stock,
            placed=tuple(
                replace(one, part=replace(one.part, mark=f"{one.part.mark}-{ends[one.part.mark]}"))
                for one in stock.placed
            ),
            cuts=tuple(replace(cut, frees=self._mark(cut.frees)) for cut in stock.cuts),
            stuck=tuple(self._mark(mark) for mark in stock.stuck),
            kept=tuple(self._kept(one) for one in stock.kept),
        )

    def _mark(self, mark: str) -> str:
        codes = [code for code in self._own if mark.startswith(f"{code}-")]
        return f"{mark}-{self._own[max(codes, key=len)]}" if codes else mark

    def _kept(self, kept: Kept) -> Kept:
        return replace(kept, label=self._label(kept.label))

    def _label(self, label: str) -> str:
        return label.replace(self._prefix, f"{self._prefix}-{self._together}", 1)

    def _lengths(self, cut: CutLengths, identity: str) -> CutLengths:
        return replace(
            cut,
            plan=_with_marks(cut.plan, identity),
            runs=tuple(_named_run(run, identity) for run in cut.runs),
            kept={
                number: replace(one, label=self._label(one.label))
                for number, one in cut.kept.items()
            },
        )


def _named_run(run: Run, identity: str) -> Run:
    mark = f"{run.mark}-{identity}"
    made = None if run.timber is None else replace(run.timber, mark=mark)
    return replace(run, mark=mark, timber=made)


def _with_marks(plan: LengthPlan, identity: str) -> LengthPlan:
    bars = tuple(
        replace(
            bar,
            parts=tuple(replace(part, mark=f"{part.mark}-{identity}") for part in bar.parts),
        )
        for bar in plan.layout.bars
    )
    return replace(plan, layout=replace(plan.layout, bars=bars))
