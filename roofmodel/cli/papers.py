"""The command that writes every paper of a method: drawings, lists and labels."""

from collections.abc import Sequence
from pathlib import Path
from typing import Annotated

import typer

from roofmodel.cli import firm_choice, opening, report
from roofmodel.cli.opening import AsJson, EffortWord, JobPath, MethodName
from roofmodel.cli.rack import RackFolder, rack_of
from roofmodel.cutting.nesting.cut import Saw
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.cutting.plan import Plan
from roofmodel.drawings.sheets.paper_job import CuttingSet
from roofmodel.workbench.facts import facts
from roofmodel.workbench.job import carried, reckoning
from roofmodel.workbench.job.options import Option
from roofmodel.workbench.job.reckoning import Drawn
from roofmodel.workbench.papers import (
    jobs_together,
    paper_set,
    papers_together,
    rack_papers,
    rack_use,
)

WithRack = Annotated[
    bool, typer.Option("--rack", help="Use offcuts from the rack where that saves sheets.")
]
Owner = Annotated[
    str,
    typer.Option(
        "--owner", help="Firm's name for the title blocks; the name in the settings if left out."
    ),
]
IssuedOn = Annotated[
    str | None,
    typer.Option("--on", help="Date of issue, YYYY-MM-DD; today if left out."),
]


def papers(  # noqa: PLR0913 - what differs from one set to the next
    job: JobPath,
    *,
    out: Annotated[Path, typer.Option("--out", metavar="DIR", help="Folder for the papers.")],
    method: MethodName = None,
    owner: Owner = "",
    on: IssuedOn = None,
    with_rack: WithRack = False,
    reserve: Annotated[
        bool, typer.Option("--reserve", help="Reserve for the job the offcuts it uses.")
    ] = False,
    folder: RackFolder = None,
    saw: Annotated[
        str,
        typer.Option(
            "--saw", help="Whose order of cuts: track, or panel, which squares before it rakes."
        ),
    ] = "track",
    earlier: Annotated[
        Path | None,
        typer.Option(
            "--after",
            metavar="OLD",
            help="Job file of the revision cut before: facets nobody touched stay as it has them.",
        ),
    ] = None,
    with_r12: Annotated[
        bool, typer.Option("--r12", help="Every drawing as R12 too, for saws that read no newer.")
    ] = False,
    effort: EffortWord = "usual",
    as_json: AsJson = False,
) -> None:
    """Write the workshop's papers: DXF, drawings, lists and labels, all of them or none."""
    chosen, saw_used = opening.effort(effort), _saw(saw)
    if reserve and not with_rack:
        raise typer.BadParameter("Enter --rack as well: --reserve needs it.")
    _refuse_both(earlier, with_rack=with_rack)
    issue = firm_choice.issue(owner, on)
    drawn = opening.drawn(job, as_json=as_json)
    option = drawn.option_of(opening.method(method, drawn))
    rack = rack_of(folder) if with_rack else None
    with report.progress(quiet=as_json) as tell:
        if rack is None:
            plans = reckoning.cut(drawn, method=option.method, effort=chosen, progress=tell)
            if earlier is not None:
                was = opening.drawn(earlier, as_json=as_json)
                plans = _carried(was, drawn, option, plans, chosen)
            plans = {number: plan.for_saw(saw_used) for number, plan in plans.items()}
            gathered = paper_set.gather(drawn, option, plans, issue=issue)
        else:
            planned = jobs_together.together(
                [drawn], method=option.method, rack=rack, effort=chosen, progress=tell
            ).for_saw(saw_used)
            gathered = papers_together.gather(
                planned, [drawn], method=option.method, rack=rack, issue=issue
            )
    reserved: tuple[str, ...] = ()
    if rack is not None and reserve:
        with rack_papers.reserved(rack, gathered, rack_use.holder([drawn.job])) as reserved:
            files = paper_set.write(gathered, out, with_r12=with_r12)
    else:
        files = paper_set.write(gathered, out, with_r12=with_r12)
    if as_json:
        opening.print_json(
            {
                "job": opening.heading(drawn),
                "method": option.method.value,
                "status": gathered.release.status,
                "reasons": list(gathered.release.reasons),
                "rack": rack_papers.of_set(gathered),
                "reserved": list(reserved),
                "files": [str(file) for file in files],
                "findings": facts.of_findings(drawn.findings),
            }
        )
        return
    say_written(gathered, files, reserved)
    report.findings(drawn.findings, quiet_when_none=True)


def _refuse_both(earlier: Path | None, *, with_rack: bool) -> None:
    if earlier is not None and with_rack:
        raise typer.BadParameter("Leave out --rack: with --after, sheets stay as they were cut.")


def _carried(
    was: Drawn, drawn: Drawn, option: Option, plans: dict[int, Plan], chosen: Effort
) -> dict[int, Plan]:
    """Return plans with what an earlier revision has for facets nobody touched."""
    carried.refuse_others(was, drawn)
    had = reckoning.cut(was, method=option.method, effort=chosen)
    return carried.after((was.option_of(option.method), had), option, plans, effort=chosen)


def _saw(word: str) -> Saw:
    """Return the saw that is meant."""
    try:
        return Saw(word)
    except ValueError as error:
        known = ", ".join(one.value for one in Saw)
        raise typer.BadParameter(f"“{word}” is not a saw. Choose one of {known}.") from error


def say_written(whole: CuttingSet, files: Sequence[Path], reserved: Sequence[str]) -> None:
    """Print where a set was written, what it takes from the rack, and whether it may be cut."""
    report.written(files)
    taken = [label for change in rack_papers.of_set(whole) for label in change["used"]]
    if taken:
        report.say(f"Used from the rack: {', '.join(taken)}.")
    if reserved:
        report.say(f"Reserved for {whole.heading.job_code}: {', '.join(reserved)}.")
    report.status(whole.release.status, whole.release.reasons)
