"""The command that cuts several jobs together, with leftovers where they save sheets."""

from pathlib import Path
from typing import Annotated

import typer
from rich.console import Console
from rich.text import Text

from roofmodel.cli import opening, report
from roofmodel.cli.opening import AsJson, MethodName
from roofmodel.cli.rack import Place, RackFolder, rack_of
from roofmodel.cli.table import made
from roofmodel.cutting.joint_plan import JointPlan
from roofmodel.cutting.rack_piece import RackPiece
from roofmodel.foundation import clock
from roofmodel.refit.method import Method
from roofmodel.workbench import joint_facts, joint_jobs, rack_use
from roofmodel.workbench.joint_jobs import Together


def together(  # noqa: PLR0913 - what differs from one order to the next
    jobs: Annotated[list[Path], typer.Argument(metavar="JOB…", help="Job files")],
    *,
    method: MethodName = None,
    with_rack: Annotated[
        bool, typer.Option("--rack", help="Take leftovers from the rack where that saves.")
    ] = False,
    reserve: Annotated[
        bool, typer.Option("--reserve", help="Keep for these jobs what the plan takes.")
    ] = False,
    cut: Annotated[
        bool,
        typer.Option("--cut", help="The plan was cut: note what was used, rack what is left over."),
    ] = False,
    place: Place = "",
    folder: RackFolder = None,
    effort: Annotated[
        str, typer.Option(help="How long to search: quick, usual or long.")
    ] = "usual",
    as_json: AsJson = False,
) -> None:
    """Cut the same material of several jobs from the same sheets; say whose is what."""
    chosen = opening.effort(effort)
    if reserve and cut:
        raise typer.BadParameter("Enter --reserve before the work and --cut after it, not both.")
    if (reserve or cut) and not with_rack:
        raise typer.BadParameter("Enter --rack as well: --reserve and --cut change the rack.")
    drawn = [opening.drawn(job, as_json=as_json) for job in jobs]
    rack = rack_of(folder) if with_rack else None
    with report.progress(quiet=as_json) as tell:
        found = joint_jobs.together(
            drawn, method=_method(method), rack=rack, effort=chosen, progress=tell
        )
    plans = [plan.made for plan in found.plans]
    reserved: tuple[str, ...] = ()
    racked: tuple[RackPiece, ...] = ()
    if rack is not None and reserve:
        reserved = rack_use.reserve(rack, found.holder, plans)
    if rack is not None and cut:
        racked = rack_use.write_back(rack, found.holder, plans, since=clock.today(), place=place)
    if as_json:
        figures = joint_facts.of_together(found)
        opening.print_json(
            {**figures, "reserved": list(reserved), "to_rack": joint_facts.of_pieces(racked)}
        )
        return
    _print(found)
    console = Console(highlight=False)
    if reserved:
        console.print(Text(f"Kept for {found.holder}: {', '.join(reserved)}."))
    if cut:
        listed = ", ".join(f"{one.label} ({one.size})" for one in racked) or "nothing"
        console.print(Text(f"Put on the rack: {listed}."))


def _method(word: str | None) -> Method | None:
    """Return the method that is meant for all jobs; None for each job's own."""
    if word is None:
        return None
    try:
        return Method(word)
    except ValueError as error:
        known = ", ".join(one.value for one in Method)
        raise typer.BadParameter(f"“{word}” is not a method. Choose one of {known}.") from error


def _print(found: Together) -> None:
    console = Console(highlight=False)
    console.print(Text(" + ".join(found.holder.job.split("+")), style="bold"))
    table = made("Material", "Sheet mm", "One by one", "Sheets", "At least", "Pieces", "From rack")
    for plan in found.plans:
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
    for plan in found.plans:
        _print_plan(console, plan)


def _print_plan(console: Console, plan: JointPlan) -> None:
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
