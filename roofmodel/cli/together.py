"""The command that cuts several jobs together, with offcuts where they save sheets."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Annotated

import typer
from rich.console import Console
from rich.text import Text

from roofmodel.cli import firm_choice, opening, report
from roofmodel.cli.opening import AsJson, MethodName
from roofmodel.cli.papers import IssuedOn, Owner, say_written
from roofmodel.cli.rack import Place, RackFolder, rack_of, say_racked
from roofmodel.cli.table import made
from roofmodel.cutting.rack.offcut import RackPiece
from roofmodel.cutting.together.plan import TogetherPlan
from roofmodel.drawings.sheets.paper_job import CuttingSet
from roofmodel.foundation import clock
from roofmodel.refit.method import Method
from roofmodel.storage.rack import Rack
from roofmodel.storage.rack_entry import RackError
from roofmodel.workbench.facts import together_facts
from roofmodel.workbench.job import releasing
from roofmodel.workbench.job.reckoning import Drawn
from roofmodel.workbench.papers import (
    jobs_together,
    paper_set,
    papers_together,
    rack_papers,
    rack_use,
    together_prices,
)
from roofmodel.workbench.papers.jobs_together import Together
from roofmodel.workbench.papers.together_prices import TogetherPrice


def together(  # noqa: PLR0913 - what differs from one order to the next
    jobs: Annotated[list[Path], typer.Argument(metavar="JOB…", help="Job files")],
    *,
    method: MethodName = None,
    with_rack: Annotated[
        bool, typer.Option("--rack", help="Use offcuts from the rack where that saves sheets.")
    ] = False,
    reserve: Annotated[
        bool, typer.Option("--reserve", help="Reserve for these jobs the offcuts the plan uses.")
    ] = False,
    cut: Annotated[
        bool,
        typer.Option(
            "--cut", help="The plan has been cut: mark what was used and rack the offcuts."
        ),
    ] = False,
    place: Place = "",
    folder: RackFolder = None,
    out: Annotated[
        Path | None,
        typer.Option("--out", metavar="DIR", help="Folder for the papers of all jobs."),
    ] = None,
    owner: Owner = "",
    on: IssuedOn = None,
    effort: Annotated[
        str, typer.Option(help="How long to search for sheets: quick, usual or long.")
    ] = "usual",
    as_json: AsJson = False,
) -> None:
    """Cut the same material for several jobs from shared sheets, and say which piece is whose."""
    chosen = opening.effort(effort)
    _refuse_half_said(with_rack=with_rack, reserve=reserve, cut=cut)
    drawn = [opening.drawn(job, as_json=as_json) for job in jobs]
    rack = rack_of(folder) if with_rack else None
    wanted = _method(method)
    with report.progress(quiet=as_json) as tell:
        planned = jobs_together.together(
            drawn, method=wanted, rack=rack, effort=chosen, progress=tell
        )
    prices = together_prices.of_jobs(planned, drawn, firm_choice.current().rates, method=wanted)
    whole: CuttingSet | None = None
    files: tuple[Path, ...] = ()
    if out is not None:
        issue = firm_choice.issue(owner, on)
        whole = papers_together.gather(planned, drawn, method=wanted, rack=rack, issue=issue)
    with _reserved(rack if reserve else None, planned, whole) as reserved:
        if out is not None and whole is not None:
            files = paper_set.write(whole, out)
    if cut and out is None:
        _refuse_unreleased(drawn, wanted)
    racked = _note_cut(rack, planned, out, place) if rack is not None and cut else ()
    if as_json:
        opening.print_json(
            {
                **together_facts.of_together(planned, prices),
                "reserved": list(reserved),
                "to_rack": together_facts.of_pieces(racked),
                "files": [str(file) for file in files],
            }
        )
        return
    _print(planned)
    _print_prices(prices)
    if whole is not None:
        say_written(whole, files, ())
    if reserved:
        report.say(f"Reserved for {planned.holder}: {', '.join(reserved)}.")
    if cut:
        say_racked(racked)


def _refuse_half_said(*, with_rack: bool, reserve: bool, cut: bool) -> None:
    if reserve and cut:
        raise typer.BadParameter("Enter --reserve before cutting or --cut afterwards, not both.")
    if (reserve or cut) and not with_rack:
        raise typer.BadParameter("Enter --rack as well: --reserve and --cut need it.")


@contextmanager
def _reserved(
    rack: Rack | None, planned: Together, whole: CuttingSet | None
) -> Iterator[tuple[str, ...]]:
    """Keep for the jobs what their sheets take from the rack, with papers their lengths too."""
    if rack is None:
        yield ()
    elif whole is None:
        yield rack_use.reserve(rack, planned.holder, [plan.made for plan in planned.plans])
    else:
        with rack_papers.reserved(rack, whole, planned.holder) as labels:
            yield labels


def _refuse_unreleased(jobs: Sequence[Drawn], method: Method | None) -> None:
    """Refuse to book as cut what nobody has released."""
    for drawn in jobs:
        option = drawn.option if method is None else drawn.option_of(method)
        permission = releasing.release(drawn, option, today=clock.today())
        if not permission.allowed:
            raise RackError(
                f"{drawn.job.code} is {permission.status}: {permission.reason} "
                "Nothing was booked as cut."
            )


def _note_cut(
    rack: Rack, planned: Together, papers: Path | None, place: str
) -> tuple[RackPiece, ...]:
    """Note that the jobs were cut, with papers as these say; return what is on the rack now."""
    day = clock.today()
    if papers is not None:
        return rack_papers.note_cut(rack, papers, since=day, place=place)[1]
    plans = [plan.made for plan in planned.plans]
    return rack_use.write_back(rack, planned.holder, plans, since=day, place=place)


def _method(word: str | None) -> Method | None:
    """Return the method that is meant for all jobs; None for each job's own."""
    return None if word is None else opening.method_named(word)


def _print(planned: Together) -> None:
    console = Console(highlight=False)
    console.print(Text(" + ".join(planned.holder.job.split("+")), style="bold"))
    table = made("Material", "Sheet mm", "Separately", "Sheets", "At least", "Pieces", "From rack")
    for plan in planned.plans:
        good = plan.made.good
        table.add_row(
            good.code,
            f"{good.length_mm:g} × {good.width_mm:g}",
            str(plan.separately),
            str(plan.sheets),
            str(plan.made.least.sheets),
            str(len(plan.parts)),
            Text(", ".join(plan.made.from_rack) or "–"),
        )
    console.print(table)
    for plan in planned.plans:
        _print_plan(console, plan)


def _print_prices(prices: Sequence[TogetherPrice]) -> None:
    table = made("Job", "Sells for by itself", "Cut together", "Difference")
    for one in prices:
        if one.alone is None or one.together is None:
            table.add_row(one.job_code, one.incomplete, "–", "–")
            continue
        alone, shared = one.alone.total, one.together.total
        table.add_row(one.job_code, f"£{alone:,.2f}", f"£{shared:,.2f}", f"{shared - alone:+,.2f}")
    console = Console(highlight=False)
    console.print(table)
    console.print(Text("Prices with VAT; sheets are shared by area of the pieces.", style="dim"))


def _print_plan(console: Console, plan: TogetherPlan) -> None:
    console.print(Text(plan.made.good.name, style="bold"))
    table = made("Job", "Pieces", "Area m²", "By area", "By pieces", "Bundle")
    for share, bundle in zip(plan.shares, plan.bundles, strict=True):
        table.add_row(
            share.job_code,
            str(share.pieces),
            f"{share.area_m2:.3f}",
            f"{share.by_area:.1%}",
            f"{share.by_pieces:.1%}",
            Text("; ".join(f"{name}: {', '.join(marks)}" for name, marks in bundle.sheets)),
        )
    console.print(table)
    for one in plan.made.kept:
        console.print(Text(f"{one.name}: {one.size}"))
    console.print(Text(plan.sentence, style="dim"))
    for note in plan.notes:
        console.print(Text(f"{plan.made.good.short}: {note}", style="yellow"))
