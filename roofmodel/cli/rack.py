"""The commands of the offcut rack: what stands on it, what goes on, what is kept for a job."""

import re
from collections.abc import Sequence
from datetime import datetime
from pathlib import Path
from typing import Annotated

import typer
from rich.console import Console
from rich.text import Text

from roofmodel.cli import catalogue_choice, opening
from roofmodel.cli.opening import AsJson
from roofmodel.cli.table import made
from roofmodel.cutting.rack.offcut import RackPiece, rectangle
from roofmodel.foundation import clock, user_folder
from roofmodel.storage.rack import Rack
from roofmodel.storage.rack_entry import Holder, RackEntry
from roofmodel.workbench.facts import together_facts
from roofmodel.workbench.papers import rack_papers

app = typer.Typer(name="rack", help="The offcut rack.", no_args_is_help=True, add_completion=False)

RackFolder = Annotated[
    Path | None,
    typer.Option(
        "--rack-folder",
        metavar="FOLDER",
        envvar="ROOFMODEL_RACK",
        help="Folder the rack file is in; the user's own if left out.",
    ),
]
Place = Annotated[str, typer.Option("--place", help="Where it is stored, in words.")]
Labels = Annotated[list[str], typer.Argument(metavar="LABEL…", help="Labels written on them")]
JobCode = Annotated[str, typer.Option("--job", metavar="CODE", help="Job code it is reserved for.")]
Revision = Annotated[
    str, typer.Option("--revision", metavar="LETTER", help="Revision of that job.")
]
Since = Annotated[
    datetime | None,
    typer.Option(
        "--since", formats=["%Y-%m-%d"], help="Date it was put on the rack; today if left out."
    ),
]

_SIZE = re.compile(r"\s*([0-9.]+)\s*[x×]\s*([0-9.]+)\s*", re.IGNORECASE)


def rack_of(folder: Path | None) -> Rack:
    """Return the rack kept in a folder, or the user's own."""
    return Rack(folder or user_folder.data())


@app.command("list")
def list_(
    word: Annotated[
        str | None,
        typer.Argument(metavar="[MATERIAL]", help="Material code; all materials if left out"),
    ] = None,
    *,
    folder: RackFolder = None,
    as_json: AsJson = False,
) -> None:
    """List the offcuts on the rack, oldest first."""
    entries = [one for one in rack_of(folder).entries() if word in (None, one.piece.material)]
    if as_json:
        opening.print_json({"rack": together_facts.of_entries(entries)})
    else:
        _print(entries)


@app.command()
def add(  # noqa: PLR0913 - what is written on an offcut, each by its name
    label: Annotated[str, typer.Argument(metavar="LABEL", help="Label written on it")],
    material: Annotated[str, typer.Argument(metavar="MATERIAL", help="Code of the material")],
    *,
    size: Annotated[
        str | None,
        typer.Option(
            "--size",
            metavar="LENGTHxWIDTH",
            help="Size of a rectangle, length along the grain, mm.",
        ),
    ] = None,
    corners: Annotated[
        str | None,
        typer.Option(
            "--corners", metavar="'X,Y X,Y …'", help="Corners of any shape, anticlockwise, mm."
        ),
    ] = None,
    length: Annotated[
        float | None,
        typer.Option("--length", metavar="MM", help="Length, for a material bought in lengths."),
    ] = None,
    place: Place = "",
    since: Since = None,
    one_face: Annotated[
        bool, typer.Option("--one-face", help="Has only one good face, which must be the outside.")
    ] = False,
    folder: RackFolder = None,
) -> None:
    """Add an offcut to the rack; give its usable size, without damaged edges."""
    known = catalogue_choice.current()
    if material not in known.materials:
        raise typer.BadParameter(
            f"There is no material {material}. List the codes with: roofmodel catalogue"
        )
    day = clock.today() if since is None else since.date()
    if [size, corners, length].count(None) != 2:
        raise typer.BadParameter("Enter one of --size, --corners and --length.")
    if length is not None:
        piece = RackPiece.of_length_mm(label, material, length, since=day, place=place)
    else:
        good = known.sheet_goods().get(material)
        alike = good is None or good.faces == "alike"
        piece = RackPiece.of_mm(
            label,
            material,
            _rectangle(size) if size is not None else _corners(corners or ""),
            since=day,
            place=place,
            may_turn_over=alike and not one_face,
        )
    rack_of(folder).add([piece])
    _say(f"{piece.label}: {piece.material}, {piece.size}, added to the rack.")


@app.command()
def remove(labels: Labels, *, folder: RackFolder = None) -> None:
    """Remove offcuts from the rack for good."""
    rack_of(folder).remove(labels)
    _say(f"{', '.join(labels)}: removed from the rack.")


@app.command()
def reserve(
    labels: Labels, *, job: JobCode, revision: Revision = "A", folder: RackFolder = None
) -> None:
    """Reserve offcuts for a job."""
    by = Holder(job=job, revision=revision)
    rack_of(folder).reserve(labels, by)
    _say(f"{', '.join(labels)}: reserved for {by}.")


@app.command()
def release(
    labels: Labels, *, job: JobCode, revision: Revision = "A", folder: RackFolder = None
) -> None:
    """Release offcuts that are reserved for a job."""
    rack_of(folder).release(labels, Holder(job=job, revision=revision))
    _say(f"{', '.join(labels)}: free.")


@app.command()
def use(
    labels: Labels, *, job: JobCode, revision: Revision = "A", folder: RackFolder = None
) -> None:
    """Mark offcuts as used for a job."""
    by = Holder(job=job, revision=revision)
    rack_of(folder).use(labels, by)
    _say(f"{', '.join(labels)}: used by {by}.")


@app.command("return")
def give_back(
    labels: Labels, *, job: JobCode, revision: Revision = "A", folder: RackFolder = None
) -> None:
    """Put back offcuts marked as used by a job but not cut after all."""
    rack_of(folder).give_back(labels, Holder(job=job, revision=revision))
    _say(f"{', '.join(labels)}: free.")


@app.command("cut")
def cut_(
    papers: Annotated[
        Path, typer.Argument(metavar="DIR", help="Folder of the papers that were cut from")
    ],
    *,
    place: Place = "",
    since: Since = None,
    folder: RackFolder = None,
    as_json: AsJson = False,
) -> None:
    """Record that a set of papers has been cut: mark offcuts used and rack the new ones."""
    day = clock.today() if since is None else since.date()
    used, kept = rack_papers.note_cut(rack_of(folder), papers, since=day, place=place)
    if as_json:
        opening.print_json({"used": list(used), "to_rack": together_facts.of_pieces(kept)})
        return
    _say(f"Used: {', '.join(used) or 'nothing from the rack'}.")
    say_racked(kept)


def say_racked(kept: Sequence[RackPiece]) -> None:
    """Print what was put on the rack."""
    listed = ", ".join(f"{one.label} ({one.size})" for one in kept) or "nothing"
    _say(f"Added to the rack: {listed}.")


def _rectangle(text: str) -> tuple[tuple[float, float], ...]:
    match = _SIZE.fullmatch(text)
    try:
        return rectangle(*(float(side) for side in match.groups())) if match else _no_size(text)
    except ValueError:
        return _no_size(text)


def _no_size(text: str) -> tuple[tuple[float, float], ...]:
    raise typer.BadParameter(f"“{text}” is not a size. Enter it in mm, such as 2440x610.")


def _corners(text: str) -> list[tuple[float, float]]:
    try:
        pairs = [pair.split(",") for pair in text.split()]
        return [(float(x), float(y)) for x, y in pairs]
    except ValueError as error:
        told = f"“{text}” is not a list of corners. Enter them in mm, such as '0,0 1200,0 0,900'."
        raise typer.BadParameter(told) from error


def _print(entries: list[RackEntry]) -> None:
    console = Console(highlight=False)
    if not entries:
        console.print("There is nothing like that on the rack.")
        return
    table = made("Label", "Material", "Size", "Since", "Place", "State")
    for column in (0, 1, 3):
        table.columns[column].no_wrap = True
    for one in entries:
        piece = one.piece
        size = piece.size if piece.may_turn_over else f"{piece.size}, one good face"
        table.add_row(
            piece.label,
            piece.material,
            size,
            piece.since.isoformat(),
            Text(piece.place),
            Text(one.words),
        )
    console.print(table)


def _say(text: str) -> None:
    Console(highlight=False).print(Text(text))
