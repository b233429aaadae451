"""The commands for photographs of a job: kept, clicked in, measured by, drawn into."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime
from pathlib import Path
from typing import Annotated

import typer
from rich.console import Console

from roofmodel.cli import opening, report
from roofmodel.cli.opening import AsJson, JobPath
from roofmodel.cli.table import made
from roofmodel.photographs import photo_file, seen, sun
from roofmodel.photographs.entry import Click, KnownLength, PhotoEntry, Stage, Stroke, Sun
from roofmodel.photographs.placing import Placed
from roofmodel.photographs.seen import Seen
from roofmodel.storage import job_file
from roofmodel.storage.job import Job
from roofmodel.workbench.photos import album, drawn_in, prints

app = typer.Typer(
    name="photo",
    help="Photographs of a job: keep them, place them by clicks, draw the new roof into them.",
    no_args_is_help=True,
    add_completion=False,
)

Number = Annotated[int, typer.Argument(metavar="NUMBER", help="Number of the photograph")]
Caption = Annotated[str, typer.Option("--caption", metavar="WORDS", help="What it shows.")]


@app.command("list")
def list_(job: JobPath, *, as_json: AsJson = False) -> None:
    """Show the photographs of a job, with captions and clicks."""
    photos = job_file.read(job).photos
    if as_json:
        rows = [
            {"file": one.file, "stage": one.stage.value, "caption": one.caption}
            | {"clicks": [click.corner for click in one.clicks]}
            for one in photos
        ]
        opening.print_json({"photos": rows})
        return
    if not photos:
        report.say("The job has no photographs. Add one with “photo add JOB FILE”.")
        return
    table = made("No.", "File", "Stage", "Shows", "Clicks")
    for number, one in enumerate(photos, start=1):
        clicks = " ".join(click.corner for click in one.clicks)
        table.add_row(str(number), one.file, one.stage.printed, one.caption, clicks)
    Console(highlight=False).print(table)


@app.command()
def add(
    job: JobPath,
    file: Annotated[Path, typer.Argument(metavar="FILE", help="JPEG, PNG or HEIF")],
    *,
    caption: Caption = "",
    stage: Annotated[
        Stage, typer.Option(help="What it is of: survey, covered-up, finish.")
    ] = Stage.SURVEY,
) -> None:
    """Copy a photograph beside the job file and enter it in the job."""
    changed = album.with_photo(job_file.read(job), job, file, caption=caption, stage=stage)
    job_file.write(changed, job)
    report.say(f"Photograph {len(changed.photos)}: {changed.photos[-1].file}.")


@app.command()
def remove(job: JobPath, number: Number) -> None:
    """Take a photograph out of the job; its file stays."""
    known = job_file.read(job)
    gone = _photo(known, number)
    job_file.write(album.without(known, number - 1), job)
    report.say(f"{gone.file} is no longer in the job; the file is still in its folder.")


@app.command()
def copies(
    job: JobPath,
    out: Annotated[Path, typer.Argument(metavar="DIR", help="Folder to write to")],
    *,
    as_json: AsJson = False,
) -> None:
    """Write copies to send: captioned, of moderate size, without place, day and camera."""
    opening.say_written(prints.copies(job_file.read(job), job, out), as_json=as_json)


@app.command()
def caption(
    job: JobPath,
    number: Number,
    words: Annotated[str, typer.Argument(metavar="WORDS", help="What it shows")],
    *,
    stage: Annotated[
        Stage | None, typer.Option(help="What it is of: survey, covered-up, finish.")
    ] = None,
) -> None:
    """Say what a photograph shows, and of what stage of the work it is."""
    known = job_file.read(job)
    photo = _photo(known, number)
    told = replace(photo, caption=words[:200], stage=stage or photo.stage)
    job_file.write(album.changed(known, number - 1, told), job)
    report.say(f"{told.file}: {told.stage.printed}, {told.caption}")


@app.command("corners")
def corners_(job: JobPath) -> None:
    """List the corners that can be clicked, by their letters."""
    table = made("Corner", "Where")
    for corner in drawn_in.corners_of(opening.drawn(job, as_json=False)):
        table.add_row(corner.name, corner.words)
    Console(highlight=False).print(table)


@app.command()
def click(  # noqa: PLR0913 - every option of the command stands for itself
    job: JobPath,
    number: Number,
    clicks: Annotated[
        list[str] | None,
        typer.Argument(metavar="CORNER=X,Y…", help="Such as C=812,640 or “C foot=820,1410”"),
    ] = None,
    *,
    error: Annotated[
        float | None, typer.Option("--error", metavar="PX", help="Standard error of a click.")
    ] = None,
    clear: Annotated[bool, typer.Option("--clear", help="Take all clicks away first.")] = False,
    bends: Annotated[
        bool | None,
        typer.Option("--bends/--straight", help="Fit how the lens bends straight lines."),
    ] = None,
    snap: Annotated[
        bool, typer.Option("--snap", help="Move each click to the corner of edges beside it.")
    ] = False,
    known: Annotated[
        str | None,
        typer.Option("--known", metavar="C,D=MM", help="The one length known; “none” for none."),
    ] = None,
) -> None:
    """Enter where corners are in a photograph, in pixels from its upper left corner."""
    job_read = job_file.read(job)
    photo = _photo(job_read, number)
    if clear:
        photo = replace(photo, clicks=())
    pixels = drawn_in.picture(photo, job, longest_px=None) if snap else None
    for words in clicks or []:
        made_ = _click(words)
        made_ = made_ if error is None else replace(made_, error_px=error)
        if pixels is not None:
            x, y = drawn_in.snapped(pixels, (made_.x_px, made_.y_px))
            made_ = replace(made_, x_px=x, y_px=y)
        photo = replace(photo, clicks=(*photo.without(made_.corner), made_))
    if bends is not None:
        photo = replace(photo, bends=bends)
    if known is not None:
        photo = replace(photo, known=_known(known))
    job_file.write(album.changed(job_read, number - 1, photo), job)
    report.say(f"{photo.file}: {len(photo.clicks)} corners clicked.")


@app.command()
def paint(
    job: JobPath,
    number: Number,
    spots: Annotated[
        list[str] | None, typer.Argument(metavar="X,Y…", help="Where the brush goes")
    ] = None,
    *,
    width: Annotated[float, typer.Option("--width", metavar="PX", help="Of the brush.")] = 40.0,
    fill: Annotated[
        bool, typer.Option("--fill", help="Fill it from around, in place of keeping it in front.")
    ] = False,
    clear: Annotated[bool, typer.Option("--clear", help="Take all strokes away first.")] = False,
) -> None:
    """Paint what stands in front of the roof and stays, or what is to be filled."""
    known = job_file.read(job)
    photo = _photo(known, number)
    strokes = () if clear else photo.strokes
    if spots:
        where = tuple(_spot(words, words) for words in spots)
        strokes = (*strokes, Stroke(spots=where, width_px=width, fills=fill))
    job_file.write(album.changed(known, number - 1, replace(photo, strokes=strokes)), job)
    report.say(f"{photo.file}: {len(strokes)} strokes.")


@app.command("sun")
def sun_(  # noqa: PLR0913 - every option of the command stands for itself
    job: JobPath,
    number: Number,
    *,
    right: Annotated[
        float | None, typer.Option(help="Degrees to the right of straight behind the house.")
    ] = None,
    height: Annotated[float | None, typer.Option(help="Degrees above the horizon.")] = None,
    at: Annotated[
        str | None, typer.Option(help="Time with zone, such as 2026-06-21T14:00+01:00.")
    ] = None,
    latitude: Annotated[float, typer.Option(min=-90.0, max=90.0)] = 52.0,
    longitude: Annotated[float, typer.Option(min=-180.0, max=180.0)] = 0.0,
    faces: Annotated[
        float, typer.Option(help="Compass bearing the eaves in front face; 180 is south.")
    ] = 180.0,
) -> None:
    """Say where the sun stood, or work it out from time and place."""
    known = job_file.read(job)
    photo = _photo(known, number)
    if at is not None:
        stood = sun.stood(
            _time(at), latitude_deg=latitude, longitude_deg=longitude, faces_deg=faces
        )
    else:
        stood = Sun(
            right_deg=(photo.sun.right_deg if right is None else right) % 360.0,
            height_deg=photo.sun.height_deg if height is None else min(max(height, 1.0), 90.0),
        )
    job_file.write(album.changed(known, number - 1, replace(photo, sun=stood)), job)
    report.say(f"The sun stands {stood.right_deg:.0f}° to the right, {stood.height_deg:.0f}° high.")


@app.command()
def fit(job: JobPath, number: Number, *, as_json: AsJson = False) -> None:
    """Find the camera, say how well the clicks agree, and what the photograph sees of the roof."""
    drawn = opening.drawn(job, as_json=as_json)
    photo = _photo(drawn.job, number)
    placed = drawn_in.placed(drawn, photo)
    sizes = seen.sizes(photo, drawn_in.corners_of(drawn), drawn.roof)
    if as_json:
        opening.print_json(_figures(placed, sizes))
        return
    _print_fit(placed)
    table = made("Size", "Entered", "From the photograph", "")
    for one in sizes:
        entered = f"{one.entered:.1f}°" if one.unit == "°" else f"{one.entered:.0f} mm"
        first = photo.known is not None
        said = "to be measured" if first else "measure again" if one.doubted else "agrees"
        table.add_row(one.label, entered, one.words, said)
    Console(highlight=False).print(table)


@app.command()
def draw(  # noqa: PLR0913 - every option of the command stands for itself
    job: JobPath,
    number: Number,
    out: Annotated[Path, typer.Argument(metavar="OUT.png", help="Picture to write, or .jpg")],
    *,
    method: opening.MethodName = None,
    divider: Annotated[
        float, typer.Option(min=0.0, max=1.0, help="Share of the left side shown as it is now.")
    ] = 0.0,
    longest: Annotated[
        int, typer.Option(min=400, max=6000, help="Longer side of the picture [pixels].")
    ] = drawn_in.LONGEST_PX,
    as_json: AsJson = False,
) -> None:
    """Draw the new roof into a photograph; the photograph itself is never changed."""
    drawn = opening.drawn(job, as_json=as_json)
    photo = _photo(drawn.job, number)
    option = drawn.option_of(opening.method(method, drawn))
    pixels = drawn_in.picture(photo, job, longest_px=longest)
    if out.exists() and out.samefile(album.path_of(photo, job)):
        raise typer.BadParameter("That is the photograph itself. Write the picture elsewhere.")
    made_ = drawn_in.draw(drawn, option, photo, pixels, finer=2)
    photo_file.save(made_.divided(divider), out)
    opening.say_written([out], as_json=as_json)


def _print_fit(placed: Placed) -> None:
    camera, fitted = placed.camera, placed.fit
    x, y, z = (value / 1000.0 for value in camera.eye)
    console = Console(highlight=False)
    table = made("Corner", "Off px", "In its own errors")
    for name, miss, own in zip(placed.names, fitted.misses_px, fitted.normalised, strict=True):
        table.add_row(name, f"{float((miss**2).sum()) ** 0.5:.1f}", f"{own:.1f}")
    console.print(table)
    console.print(
        f"Camera {y:.1f} m out from the house wall, {x:.1f} m along it, {z:.1f} m above the eaves; "
        f"angle of view {camera.angle_deg:.0f}° over the height."
    )
    for words in placed.words:
        report.warn(words)


def _figures(placed: Placed, sizes: Sequence[Seen]) -> dict[str, object]:
    fitted = placed.fit
    return {
        "camera": {
            "eye_mm": list(placed.camera.eye),
            "focal_px": placed.camera.focal_px,
            "bend": placed.camera.bend,
        },
        "clicks": [
            {"corner": name, "off_px": [float(miss[0]), float(miss[1])], "normalised": float(own)}
            for name, miss, own in zip(
                placed.names, fitted.misses_px, fitted.normalised, strict=True
            )
        ],
        "remarks": list(placed.words),
        "sizes": [
            {
                "size": one.label,
                "unit": one.unit,
                "entered": one.entered,
                "seen": one.seen,
                "standard_error": one.error,
                "doubted": one.doubted,
            }
            for one in sizes
        ],
    }


def _photo(job: Job, number: int) -> PhotoEntry:
    if not 1 <= number <= len(job.photos):
        raise typer.BadParameter(
            f"There is no photograph {number}. The job has {len(job.photos)}; add one with "
            "“photo add JOB FILE”."
        )
    return job.photos[number - 1]


def _click(words: str) -> Click:
    corner, _, where = words.rpartition("=")
    x, y = _spot(where, words)
    return Click(corner=corner.strip(), x_px=x, y_px=y)


def _spot(where: str, words: str) -> tuple[float, float]:
    try:
        x, y = (float(part) for part in where.split(","))
    except ValueError as error:
        raise typer.BadParameter(
            f"“{words}” is no place in the picture. Write two numbers, such as 812,640."
        ) from error
    return x, y


def _known(words: str) -> KnownLength | None:
    if words == "none":
        return None
    ends, _, length = words.partition("=")
    start, _, end = ends.partition(",")
    try:
        return KnownLength(start=start.strip(), end=end.strip(), length_mm=float(length))
    except ValueError as error:
        raise typer.BadParameter(
            f"“{words}” is no known length. Write two corners and millimetres, such as C,D=3600."
        ) from error


def _time(words: str) -> datetime:
    try:
        when = datetime.fromisoformat(words)
    except ValueError as error:
        raise typer.BadParameter(
            f"“{words}” is no time. Write it such as 2026-06-21T14:00+01:00."
        ) from error
    if when.tzinfo is None:
        raise typer.BadParameter(
            f"“{words}” has no time zone. Write one after it: +00:00 in winter, +01:00 in a "
            "British summer."
        )
    return when
