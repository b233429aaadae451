"""The commands that save everything of a user in one file, and put it back."""

from pathlib import Path
from typing import Annotated

import typer

from roofmodel.cli import opening, report
from roofmodel.cli.opening import AsJson
from roofmodel.foundation import clock, user_folder
from roofmodel.storage import backup as backups

Jobs = Annotated[
    Path | None,
    typer.Option("--jobs", metavar="FOLDER", help="Folder of the jobs, with all folders in it."),
]


def backup(
    folder: Annotated[Path, typer.Argument(metavar="FOLDER", help="Folder to save the backup in")],
    *,
    jobs: Jobs = None,
    as_json: AsJson = False,
) -> None:
    """Save everything of the firm, the rack and the jobs in one file."""
    path = backups.save(folder, own=user_folder.data(), jobs=jobs, today=clock.today())
    opening.say_written([path], as_json=as_json)


def restore(
    file: Annotated[Path, typer.Argument(metavar="FILE", help=f"Backup, NAME{backups.SUFFIX}")],
    *,
    jobs: Jobs = None,
    take: Annotated[
        bool, typer.Option("--take", help="Put it back; without it it is only shown.")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """Show what a backup holds, and with --take, put it back."""
    kept = backups.read(file)
    before = None
    if take:
        before = backups.restore(kept, own=user_folder.data(), jobs=jobs, today=clock.today())
    if as_json:
        opening.print_json(
            {
                "made_on": kept.made_on,
                "own": sorted(kept.own),
                "jobs": sorted(kept.jobs),
                "restored": take,
                "before": None if before is None else str(before),
            }
        )
        return
    report.say(
        f"Backup of {kept.made_on}: {len(kept.own)} files of the firm's own and the rack, "
        f"{len(kept.jobs)} jobs."
    )
    if not take:
        report.say("Nothing was changed. Add --take to put it back.")
        return
    report.say("It was put back.")
    if kept.jobs and jobs is None:
        report.say("The jobs in it were left out: name a folder for them with --jobs.")
    if before is not None:
        report.say(f"What stood there before is in {before}.")
