"""What one job brings to a set of papers: its roof, its parts, its lengths and its rolls."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from roofmodel.cutting.lengths.problem import RackLength
from roofmodel.cutting.plan import Plan
from roofmodel.drawings.paper.heading import Heading
from roofmodel.drawings.sheets.cut_on_facet import CutPlan
from roofmodel.drawings.sheets.paper_job import CutLengths, PaperJob
from roofmodel.drawings.views import stack_section
from roofmodel.quantities import lengths
from roofmodel.quantities.bill import Bill
from roofmodel.shapes.roof import Roof
from roofmodel.survey.fit.twist import Grade
from roofmodel.workbench.job import releasing
from roofmodel.workbench.job.options import Option
from roofmodel.workbench.job.reckoning import Drawn, MethodRefusedError
from roofmodel.workbench.job.sheet_layers import SheetLayer
from roofmodel.workbench.offer import bills

_ROLLS = ("roll",)


@dataclass(frozen=True, slots=True, kw_only=True)
class Issue:
    """Day of issue and the firm, for the title blocks, where they are known.

    ``today`` is the day a release is held against; the day of issue when left out.
    """

    issued: date | None = None
    owner: str = ""
    today: date | None = None


def heading(drawn: Drawn, option: Option, issue: Issue) -> Heading:
    """Return what stands on every paper of a job.

    Raises
    ------
    MethodRefusedError
        If the method makes no build-up on this roof.
    """
    if option.refit is None:
        raise MethodRefusedError(option.refusal)
    job = drawn.job
    return Heading(
        job_code=job.code,
        revision=job.revision,
        issued=issue.issued,
        stamp=releasing.release(drawn, option, today=issue.today or issue.issued).stamp,
        owner=issue.owner,
        warnings=_twists(drawn),
    )


def _twists(drawn: Drawn) -> tuple[str, ...]:
    """Return what is said of every facet that lies out of its plane: its boards will rock."""
    if drawn.examination is None:
        return ()
    return tuple(one.text for one in drawn.examination.twists if one.grade is not Grade.FLAT)


def gather(
    drawn: Drawn,
    option: Option,
    plans: Mapping[int, Plan],
    made: Sequence[CutPlan],
    *,
    issue: Issue,
    rack: Mapping[str, Sequence[RackLength]] | None = None,
) -> PaperJob:
    """Return what the papers of one job are drawn from.

    Parameters
    ----------
    drawn, option
        The job and one of its methods.
    plans
        The job's own cutting plan of every sheet layer by the layer's number.
    made
        The job's parts where they are cut, from the room outwards.
    issue
        Day of issue and firm.
    rack
        Offcuts of lengths that may be taken, by the code of their material.

    Raises
    ------
    MethodRefusedError
        If the method makes no build-up on this roof.
    """
    on_every_paper = heading(drawn, option, issue)
    refit = option.refit
    assert refit is not None, "a method without a build-up has no heading either"
    bill = bills.priced(drawn, option, plans).bill
    bought = {one.material.code for one in bill.lines if one.material is not None and one.quantity}
    cuts = lengths.cuts(refit, drawn.catalogue, rack=rack)
    return PaperJob(
        heading=on_every_paper,
        title=drawn.job.title,
        method=option.method.printed,
        roof=drawn.roof,
        members=refit.members,
        plans=tuple(made),
        release=releasing.release(drawn, option, today=issue.today or issue.issued),
        stack=stack_section.of_refit(refit),
        lengths=tuple(
            CutLengths(name=name, plan=cut.plan, runs=cut.runs)
            for name, cut in cuts.items()
            # What the method does not lay, such as battens of a panel swap, is not cut either.
            if cut.plan is not None and cut.plan.material in bought
        ),
        rolls=tuple(_rolls(bill)),
    )


def surface(layer: SheetLayer, roof: Roof) -> Roof:
    """Return the roof a layer's parts lie on: bays on the datum, boards on their own surface."""
    if layer.bays:
        return roof
    facets = {facet.name: facet for facet in layer.facets}
    return Roof(
        facets=tuple(facets.get(facet.name, facet) for facet in roof.facets),
        lines=roof.lines,
        eaves_height_mm=roof.eaves_height_mm,
    )


def _rolls(bill: Bill) -> Iterator[tuple[str, int]]:
    for line in bill.lines:
        if line.material is not None and line.material.pack.name in _ROLLS and line.packs:
            yield line.name, int(-(-line.packs // 1))
