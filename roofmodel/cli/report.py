"""How the command line prints figures, findings and progress."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from rich.console import Console
from rich.padding import Padding
from rich.progress import Progress, SpinnerColumn, TextColumn, TimeElapsedColumn
from rich.text import Text

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cli import refit_report, survey_report
from roofmodel.cli.table import made
from roofmodel.cutting.plan import Plan
from roofmodel.foundation.figure import ASKED, Figure
from roofmodel.storage.job import Job
from roofmodel.survey.taped.findings import Finding, Severity

_LAMP = {Severity.STOP: "red", Severity.QUESTION: "yellow", Severity.NOTE: "cyan"}

Tell = Callable[[SheetGood, int, int], None]


def _out() -> Console:
    # Made anew for each use, so that it writes to whatever standard output is just then.
    return Console(highlight=False)


def _err() -> Console:
    return Console(stderr=True, highlight=False)


def findings(remarks: Sequence[Finding], *, quiet_when_none: bool = False) -> None:
    """Print findings, the ones that stop the job first."""
    if not remarks:
        if not quiet_when_none:
            _out().print("No errors or doubtful entries found.")
        return
    order = list(_LAMP)
    for finding in sorted(remarks, key=lambda f: order.index(f.severity)):
        line = Text(f"{finding.severity.value:<9}", style=_LAMP[finding.severity])
        line.append(f"{finding.field}: ", style="bold")
        line.append(f"{finding.text} {finding.remedy}", style="default")
        _out().print(line)


def protection(lines: Sequence[Mapping[str, Any]], next_reading: str) -> None:
    """Print what a slip in each line of the survey would show, and the line to read next."""
    survey_report.protection(lines, next_reading, _out())


def facts(job: Job, content: Mapping[str, Any]) -> None:
    """Print facets and lines as two tables."""
    console = _out()
    console.print(_title(job))
    facets = made("Facet", "Pitch °", "Area m²", "Plan area m²", "Slope mm", "Sides")
    for facet in content["facets"]:
        facets.add_row(
            facet["name"],
            f"{facet['pitch_deg']:.2f}",
            f"{facet['area_m2']:.3f}",
            f"{facet['plan_area_m2']:.3f}",
            f"{facet['slope_length_mm']:.1f}",
            ", ".join(facet["sides"]),
        )
    facets.add_section()
    facets.add_row("all", "", f"{content['area_m2']:.3f}", f"{content['plan_area_m2']:.3f}", "", "")
    console.print(facets)
    lines = made("Line", "Facets", "Length mm", "Pitch °", "Dihedral °", "Bevel °", "Backing °")
    for line in content["lines"]:
        shared = len(line["facets"]) == 2
        lines.add_row(
            line["kind"],
            " ".join(line["facets"]),
            f"{line['length_mm']:.1f}",
            f"{line['pitch_deg']:.2f}",
            f"{line['dihedral_deg']:.2f}" if shared else "",
            f"{line['bevel_deg']:.2f}" if shared else "",
            " / ".join(f"{a:.2f}" for a in line["backings_deg"]) if shared else "",
        )
    console.print(lines)
    survey_report.members(content, console)
    if content["survey"]:
        survey_report.survey(content["survey"], console)
    refit_report.refit(content["refit"], console)
    console.print(Text(content["firmness"]["text"]))
    for edge in content["firmness"]["knife_edges"]:
        console.print(Text(edge, style="yellow"))
    for one in content["firm_sheets"] or ():
        console.print(Text(one["text"]))
    console.print(
        f"The roof rises {content['rise_mm']:.1f} mm above the eaves. Datum: {content['datum']}."
    )


def sources(figures: Sequence[Figure]) -> None:
    """Print where figures come from, each with its error; alike ones stand together."""
    console = _out()
    console.print(Text(ASKED, style="bold"))
    alike: dict[str, list[str]] = {}
    for figure in figures:
        alike.setdefault(figure.origin, []).append(figure.printed)
    for words, printed in alike.items():
        console.print(Text("; ".join(printed)))
        console.print(Padding(Text(words, style="dim"), (0, 0, 0, 4)))


def plans(job: Job, plans_made: Sequence[Plan], files: Sequence[Path], seconds: float) -> None:
    """Print sheets, bound and utilisation for each material, with the rules they hold under."""
    console = _out()
    console.print(_title(job))
    table = made("Material", "Sheet mm", "Sheets", "At least", "Proof", "Used", "Pieces")
    for plan in plans_made:
        good = plan.good
        table.add_row(
            good.code,
            f"{good.length_mm:g} × {good.width_mm:g}",
            str(plan.sheets),
            "" if plan.least is None else str(plan.least),
            "" if plan.least is None else "proved" if plan.proved else "not proved",
            f"{plan.utilisation:.1%}",
            str(plan.pieces),
        )
    console.print(table)
    for plan in plans_made:
        console.print(Text(f"{plan.sentence}", style="dim"))
        for note in plan.notes:
            console.print(Text(f"{plan.good.short}: {note}", style="yellow"))
        for miss in plan.near_misses:
            console.print(Text(f"{plan.good.short}, near miss: {miss}", style="cyan"))
    console.print(Text(f"Planned in {seconds:.1f} s.", style="dim"))
    if files:
        written(files)


def say(text: str) -> None:
    """Print a sentence."""
    _out().print(Text(text))


def warn(text: str) -> None:
    """Print something to look at before going on."""
    _out().print(Text(text, style="yellow"))


def status(words: str, reasons: Sequence[str]) -> None:
    """Print whether papers are for cutting, and every reason why not."""
    _out().print(Text(words, style="bold red" if reasons else "bold green"))
    for reason in reasons:
        _out().print(Text(reason, style="yellow"))


def written(files: Sequence[Path]) -> None:
    """Print which files were written, as one line a folder."""
    folders: dict[Path, list[str]] = {}
    for file in files:
        folders.setdefault(file.parent, []).append(file.name)
    for folder, names in folders.items():
        what = names[0] if len(names) == 1 else f"{len(names)} files"
        _out().print(Text(f"Written: {what} in {folder.resolve()}"))


@contextmanager
def progress(*, quiet: bool) -> Iterator[Tell | None]:
    """Show, while sheets are nested, how few are enough so far; nothing when quiet."""
    if quiet:
        yield None
        return
    columns = SpinnerColumn(), TextColumn("{task.description}"), TimeElapsedColumn()
    with Progress(*columns, console=_err(), transient=True) as bar:
        task = bar.add_task("Laying boards on the facets", total=None)

        def tell(good: SheetGood, sheets: int, bound: int) -> None:
            text = f"{good.short}: {sheets} sheets so far; at least {bound} needed"
            bar.update(task, description=text)

        yield tell


@contextmanager
def waiting(*, quiet: bool) -> Iterator[Callable[[str], None] | None]:
    """Show what is being tried; nothing when quiet."""
    if quiet:
        yield None
        return
    columns = SpinnerColumn(), TextColumn("{task.description}"), TimeElapsedColumn()
    with Progress(*columns, console=_err(), transient=True) as bar:
        task = bar.add_task("Planning boards", total=None)
        yield lambda what: bar.update(task, description=f"Planning boards with another {what}")


def _title(job: Job) -> Text:
    title = Text(f"{job.code} revision {job.revision}", style="bold")
    return title.append(f"  {job.title}", style="default") if job.title else title
