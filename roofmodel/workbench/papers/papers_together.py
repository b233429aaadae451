"""The papers of jobs cut together: sheets and offcuts for all, everything else job by job."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from roofmodel.cutting.lengths.problem import RackLength
from roofmodel.cutting.plan import Plan
from roofmodel.cutting.rack import lengths as rack_lengths
from roofmodel.cutting.together.plan import TogetherPlan
from roofmodel.drawings.paper.heading import Heading
from roofmodel.drawings.paper.release import Release
from roofmodel.drawings.sheets import cut_on_facet
from roofmodel.drawings.sheets.cut_on_facet import CutPlan, Owner
from roofmodel.drawings.sheets.paper_job import CuttingSet, PaperJob
from roofmodel.quantities import lengths
from roofmodel.refit.method import Method
from roofmodel.storage.rack import Rack
from roofmodel.workbench.job.options import Option
from roofmodel.workbench.job.reckoning import Drawn
from roofmodel.workbench.job.sheet_layers import SheetLayer
from roofmodel.workbench.papers import job_papers, rack_papers, rack_use, set_identity
from roofmodel.workbench.papers.job_papers import Issue
from roofmodel.workbench.papers.jobs_together import Together

_Offered = dict[str, tuple[RackLength, ...]]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Job:
    """One of the jobs, the method it is cut for, and what stands on its papers."""

    drawn: Drawn
    option: Option
    heading: Heading

    @property
    def code(self) -> str:
        return self.drawn.job.code

    def layer(self, plan: TogetherPlan) -> SheetLayer:
        """Return the layer a plan cuts for this job."""
        good = plan.made.good.code
        return next(layer for layer in self.option.sheets if layer.good.code == good)

    def own_plans(self, together: Together) -> dict[int, Plan]:
        """Return the job's plans as it would be cut by itself, by the number of their layer."""
        return {
            self.layer(plan).number: layer.plan
            for plan in together.plans
            for layer in plan.layers
            if layer.job_code == self.code
        }


def gather(
    together: Together,
    jobs: Sequence[Drawn],
    *,
    method: Method | None = None,
    rack: Rack | None = None,
    issue: Issue | None = None,
) -> CuttingSet:
    """Return what the papers of jobs cut together, or of one job with the rack, are drawn from.

    Parameters
    ----------
    together
        Their plans.
    jobs
        The jobs, each with a code of its own.
    method
        The method that was cut; each job's own when left out.
    rack
        The rack the plans were made with; lengths are taken from it as well.
    issue
        Day of issue and firm.

    Raises
    ------
    MethodRefusedError
        If the method makes no build-up on one of the roofs.
    RackError
        If the rack cannot be read.
    """
    issue = issue or Issue()
    known = [_job(drawn, method, issue) for drawn in jobs]
    prefix = rack_use.prefix(together.holder, rack)
    plans = tuple(_plan(plan, known, prefix) for plan in together.plans)
    made = tuple(_papers(together, known, plans, prefix, rack, issue))
    release = _release(made)
    heading = Heading(
        job_code=together.holder.job,
        revision=together.holder.revision,
        issued=issue.issued,
        stamp=release.stamp,
        owner=issue.owner,
    )
    whole = CuttingSet(
        heading=heading,
        title=", ".join(filter(None, (job.title for job in made))),
        plans=plans,
        jobs=made,
        release=release,
    )
    methods = {job.code: job.option.method for job in known}
    return set_identity.identified(whole, methods, prefix=prefix)


def _job(drawn: Drawn, method: Method | None, issue: Issue) -> _Job:
    option = drawn.option if method is None else drawn.option_of(method)
    heading = job_papers.heading(drawn, option, issue)
    return _Job(drawn=drawn, option=option, heading=heading)


def _plan(plan: TogetherPlan, jobs: Sequence[_Job], prefix: str) -> CutPlan:
    owners = {
        job.code: Owner(
            heading=job.heading, surface=job_papers.surface(job.layer(plan), job.drawn.roof)
        )
        for job in jobs
        if job.code in plan.jobs
    }
    sentence = plan.sentence if len(jobs) > 1 else plan.made.sentence
    return cut_on_facet.of_rack_plan(plan.made, owners, rack_prefix=prefix, sentence=sentence)


def _papers(
    together: Together,
    jobs: Sequence[_Job],
    plans: Sequence[CutPlan],
    prefix: str,
    rack: Rack | None,
    issue: Issue,
) -> Iterator[PaperJob]:
    """Yield every job with its parts; an offcut of a length is promised to one of them alone."""
    left = {} if rack is None else _offered(together, rack)
    counted: Counter[str] = Counter()
    for job in jobs:
        own = [one for plan in plans if (one := plan.of_job(job.code)) is not None]
        paper = job_papers.gather(
            job.drawn, job.option, job.own_plans(together), own, issue=issue, rack=left
        )
        taken = {label for cut in paper.lengths for label in cut.plan.from_rack}
        left = {
            code: tuple(one for one in offered if one.label not in taken)
            for code, offered in left.items()
        }
        yield rack_papers.with_lengths(paper, prefix, counted)


def _offered(together: Together, rack: Rack) -> _Offered:
    return {
        code: rack_lengths.offered(rack.for_job(code, together.holder), code)
        for code in lengths.materials()
    }


def _release(jobs: Sequence[PaperJob]) -> Release:
    """Return whether all may be cut; a job that may not bars the sheets it shares."""
    if len(jobs) == 1:
        return jobs[0].release
    reasons = [f"{job.heading.job_code}: {why}" for job in jobs for why in job.release.reasons]
    approved = [job.release.approved for job in jobs]
    words = "; ".join(dict.fromkeys(approved)) if all(approved) else ""
    return Release(reasons=tuple(reasons), approved=words)
