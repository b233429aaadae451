"""The command that compares two revisions of a job."""

from pathlib import Path
from typing import Annotated

import typer
from rich.console import Console
from rich.text import Text

from roofmodel.cli import firm_choice, opening, report
from roofmodel.cli.opening import AsJson, EffortWord, MethodName
from roofmodel.pricing.price import Incomplete
from roofmodel.workbench.job import carried
from roofmodel.workbench.offer import bills
from roofmodel.workbench.papers import revisions
from roofmodel.workbench.papers.revisions import Change, CutRevision


def revisions_(
    old: Annotated[Path, typer.Argument(metavar="OLD", help="Job file of the older revision")],
    new: Annotated[Path, typer.Argument(metavar="NEW", help="Job file of the newer revision")],
    *,
    method: MethodName = None,
    effort: EffortWord = "usual",
    as_json: AsJson = False,
) -> None:
    """Say what changed between two revisions: parts, sheets, price, labels to bin.

    Facets nobody touched stay as the older revision cut them, as `papers NEW --after OLD` has them.
    """
    chosen = opening.effort(effort)
    cuts: list[CutRevision] = []
    for path in (old, new):
        drawn = opening.drawn(path, as_json=as_json)
        option = drawn.option_of(opening.method(method, drawn))
        with report.progress(quiet=as_json) as tell:
            plans, _ = bills.plans_that_can_be(drawn, option, effort=chosen, progress=tell)
        if cuts:
            plans = carried.after((cuts[0].option, cuts[0].plans), option, plans, effort=chosen)
        cuts.append(
            CutRevision(drawn=drawn, option=option, plans=plans, rates=firm_choice.current().rates)
        )
    changed = revisions.change(cuts[0], cuts[1])
    if as_json:
        opening.print_json(revisions.figures(changed))
    else:
        _print(changed)


def _print(changed: Change) -> None:
    console = Console(highlight=False)
    figures = revisions.figures(changed)
    console.print(
        Text(
            f"{figures['job']}: revision {figures['from_revision']} to {figures['to_revision']}",
            style="bold",
        )
    )
    console.print(f"Roof {figures['area_m2']:+.3f} m²")
    for code, more in changed.sheets.items():
        console.print(f"{code}: {more:+d} sheets")
    for line in _money(changed):
        console.print(line)
    entered = [
        f"{path} {_said(old)} → {_said(new)}" for path, (old, new) in changed.entries.items()
    ]
    sizes = [f"{mark} {old} → {new} mm" for mark, (old, new) in changed.sizes.items()]
    lengths = [
        f"{mark} {_said(old)} → {_said(new)} mm" for mark, (old, new) in changed.lengths.items()
    ]
    for title, marks in (
        ("Entered otherwise", entered),
        ("New parts", changed.added),
        ("Parts changed", sizes),
        ("Parts no longer needed", changed.dropped),
        ("Parts that may stay as they are", changed.may_stay),
        (
            "Sheets that stay as they are",
            [
                f"{code} {', '.join(f'{number}' for number in numbers)}"
                for code, numbers in changed.sheets_that_stay.items()
            ],
        ),
        ("Lengths cut otherwise", lengths),
        ("Labels to bin", changed.labels_to_bin),
        ("Labels to print", changed.labels_to_reprint),
    ):
        console.print(Text(f"{title}: {', '.join(marks) or 'none'}"))


def _said(value: object) -> str:
    return "none" if value is None else f"{value:g}" if isinstance(value, float) else f"{value}"


def _money(changed: Change) -> tuple[str, ...]:
    """Return the change of the price, which is what a change order asks for."""
    if changed.price is None or changed.materials is None:
        missing = [
            one.price for one in (changed.old, changed.new) if isinstance(one.price, Incomplete)
        ]
        return (f"Price: not known. {missing[0].text if missing else ''}".strip(),)
    ex_vat, with_vat = changed.price
    return (
        f"Price: {ex_vat:+.2f} GBP without VAT, {with_vat:+.2f} with VAT",
        f"Of it materials and preliminaries, at cost: {changed.materials:+.2f} GBP",
    )
