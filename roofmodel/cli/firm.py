"""The commands for what is the firm's own: listed, copied, withdrawn, restored, shared."""

from pathlib import Path
from typing import Annotated, Any

import typer
from rich.console import Console
from rich.text import Text

from roofmodel.buildups.own import Merged
from roofmodel.cli import catalogue_choice, firm_folder, opening, report
from roofmodel.cli.opening import AsJson
from roofmodel.cli.table import made
from roofmodel.foundation import clock
from roofmodel.foundation.layered import Standing
from roofmodel.storage import safe_write
from roofmodel.workbench.firm import rows, shared_file
from roofmodel.workbench.firm.shared_file import Change
from roofmodel.workbench.firm.table import TABLES

app = typer.Typer(
    name="firm",
    help="The firm's own recipes, norms, suppliers, presets and texts; the rest is as supplied.",
    no_args_is_help=True,
    add_completion=False,
)
_NAMES = ", ".join(one.name for one in TABLES)
TableName = Annotated[str, typer.Argument(metavar="TABLE", help=f"One of {_NAMES}")]
Code = Annotated[str, typer.Argument(metavar="CODE", help="Code of the row, as listed")]
SharedPath = Annotated[
    Path, typer.Argument(metavar="FILE", help=f"File of a firm, NAME{shared_file.SUFFIX}")
]


@app.command("list")
def list_(
    table: Annotated[
        str | None, typer.Argument(metavar="[TABLE]", help=f"One of {_NAMES}; all if left out")
    ] = None,
    *,
    everything: Annotated[
        bool, typer.Option("--all", help="List the supplied rows as well.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Say what is the firm's, what is as supplied, and which supplied rows have changed since."""
    folder = firm_folder.folder()
    tables = TABLES if table is None else (rows.table_named(table),)
    found = [row for one in tables for row in rows.of(one, folder)]
    shown = [one for one in found if everything or one.standing is not Standing.SHIPPED]
    merged = catalogue_choice.merged(day=clock.today())
    if as_json:
        opening.print_json(
            {
                "folder": str(folder),
                "rows": [
                    {
                        "table": one.table.name,
                        "code": one.code,
                        "title": one.title,
                        "row": one.standing.value,
                        "ships_otherwise": one.outdated,
                    }
                    for one in shown
                ],
                "catalogue": _catalogue(merged),
            }
        )
        return
    console = Console(highlight=False)
    console.print(Text(f"The firm's own, in {folder}", style="bold"))
    if shown:
        listing = made("Table", "Code", "What", "Row", "Remark")
        for column in (0, 3):
            listing.columns[column].no_wrap = True
        for one in shown:
            listing.add_row(
                one.table.name,
                one.code,
                Text(one.title),
                one.standing.value,
                Text(one.remark, style="yellow"),
            )
        console.print(listing)
    shipped = sum(one.standing is Standing.SHIPPED for one in found)
    console.print(f"{len(found) - shipped} rows are the firm's, {shipped} are as supplied.")
    own = [code for code, one in merged.standing.items() if one is not Standing.SHIPPED]
    console.print(f"Catalogue: {len(own)} rows are the firm's; see roofmodel catalogue.")
    if merged.outdated:
        report.warn(
            f"The supplied rows have changed since for: {', '.join(sorted(merged.outdated))}."
        )


@app.command()
def copy(table: TableName, code: Code) -> None:
    """Keep a supplied row as the firm's own, to be changed in its file or in the window."""
    one, folder = rows.table_named(table), firm_folder.folder()
    rows.copied(one, code, folder)
    _say(f"{code} is the firm's own now. Change it in {folder / one.file}, or in the window.")


@app.command()
def withdraw(table: TableName, code: Code) -> None:
    """Do without a row from now on."""
    rows.withdrawn(rows.table_named(table), code, firm_folder.folder())
    _say(f"{code} is withdrawn.")


@app.command()
def restore(table: TableName, code: Code) -> None:
    """Go back to the supplied row; a row of the firm's own making is removed."""
    rows.restored(rows.table_named(table), code, firm_folder.folder())
    _say(f"{code} is as supplied.")


@app.command()
def keep(table: TableName, code: Code) -> None:
    """Keep the firm's row although the supplied one has changed since; clears the remark."""
    rows.looked_at(rows.table_named(table), code, firm_folder.folder())
    _say(f"{code} stays as the firm has it.")


@app.command()
def export(file: SharedPath) -> None:
    """Write everything that is the firm's into one file, to keep or to share."""
    where = catalogue_choice.chosen().file
    text = shared_file.dumps(firm_folder.folder(), where, made_on=clock.today())
    safe_write.replace_text(file, text)
    report.written([file])


@app.command("import")
def import_(
    file: SharedPath,
    *,
    take: Annotated[
        bool, typer.Option("--take", help="Take it; without it the changes are only shown.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Show what the file of a firm would change here, and with --take, change it."""
    folder, where = firm_folder.folder(), catalogue_choice.chosen().file
    shared = shared_file.read(file)
    found = shared_file.changes(shared, folder, where)
    files = shared_file.take(shared, folder, where, day=clock.today()) if take and found else ()
    if as_json:
        opening.print_json(
            {
                "firm": shared.firm,
                "made_on": shared.made_on,
                "taken": bool(files),
                "changes": [_figures(one) for one in found],
                "files": [str(path) for path in files],
            }
        )
        return
    console = Console(highlight=False)
    console.print(Text(f"{shared.firm}, {shared.made_on}", style="bold"))
    if not found:
        console.print("The firm has everything in it already.")
        return
    listing = made("Part", "Code", "Change")
    for one in found:
        listing.add_row(one.part, one.code, one.what)
    console.print(listing)
    if files:
        report.written(files)
    else:
        report.warn("Nothing has been taken yet. To take it, add --take.")


def _catalogue(merged: Merged) -> dict[str, Any]:
    own = {code: one.value for code, one in merged.standing.items() if one is not Standing.SHIPPED}
    return {"rows": own, "ships_otherwise": sorted(merged.outdated)}


def _figures(one: Change) -> dict[str, str]:
    return {"part": one.part, "code": one.code, "change": one.what}


def _say(text: str) -> None:
    Console(highlight=False).print(Text(text))
