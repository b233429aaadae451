"""One page of the A3 set: what it shows, and the frame, title block and stamp round it."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from roofmodel.drawings.paper import page, title_rows
from roofmodel.drawings.paper.heading import Heading
from roofmodel.drawings.paper.page import TitleBlock
from roofmodel.drawings.paper.pen import Pen, Spot
from roofmodel.drawings.paper.release import Release
from roofmodel.drawings.paper.title_rows import Titled
from roofmodel.drawings.pdf.pdf_sheet import PagePen, ScaledPen

TOP_MM, BOTTOM_MM, LEFT_MM, RIGHT_MM = 270.0, 88.0, 26.0, 404.0
"""What a drawing laid out on the page may fill: below the stamp, above notes and title block."""

_STAMP_MM, _STAMP_LINES = 279.2, 3
"""First line of the stamp, just below the centring mark, and how many there are."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PdfPage:
    """A page: its title, the scales it is drawn to, what draws it, and its own rows and notes."""

    title: str
    scales: tuple[float, ...]
    draw: Callable[[PagePen], None]
    rows: tuple[tuple[str, ...], ...] = ()
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """What the title blocks of a set have in common."""

    heading: Heading
    title: str
    method: str
    release: Release
    notes: tuple[str, ...] = ()
    kind: str = "workshop drawing"


def in_window(
    title: str,
    extents_mm: tuple[Spot, Spot],
    draw: Callable[[Pen], None],
    *,
    rows: tuple[tuple[str, str], ...] = (),
    notes: tuple[str, ...] = (),
) -> PdfPage:
    """Return a page that shows one drawing in the middle, at the largest scale of the standard.

    Parameters
    ----------
    title, rows, notes
        What is written in the title block and beside it.
    extents_mm
        Lower left and upper right corner of the drawing at full size [mm].
    draw
        Draws it at full size.
    """
    low, high = extents_mm
    scale = page.scale_for((high[0] - low[0], high[1] - low[1]))
    centre = ((low[0] + high[0]) / 2.0, (low[1] + high[1]) / 2.0)

    def on_page(pen: PagePen) -> None:
        draw(ScaledPen(pen, centre=centre, at=page.window_centre(), scale=scale))

    return PdfPage(title=title, scales=(scale,), draw=on_page, rows=rows, notes=notes)


def draw(one: PdfPage, number: int, of: int, block: Block, pen: PagePen) -> None:
    """Draw a page of a set with its frame, title block and stamp."""
    _stamp(block.release, pen)
    one.draw(pen)
    scales = ", ".join(f"1 : {scale:g}" for scale in sorted(one.scales))
    titled = Titled(
        heading=replace(block.heading, stamp=block.release.stamp),
        title=one.title,
        kind=block.kind,
        number=f"{block.heading.file_stem}-{number:02d} ({number} / {of})",
        scale=scales,
        job_title=block.title,
        method=block.method,
        own=one.rows,
    )
    page.draw(
        TitleBlock(title_rows.rows(titled), (*one.notes, *block.notes, *block.heading.warnings)),
        pen,
    )
    page.draw_border(pen)


def _stamp(release: Release, pen: PagePen) -> None:
    """Print across the page why nothing may be cut from it, or that it may."""
    if release.allowed:
        pen.write(release.status, (LEFT_MM, _STAMP_MM), height_mm=2.5, bold=True)
        return
    pen.write(release.watermark, (70.0, 110.0), height_mm=18.0, turn_deg=25.0, bold=True, grey=0.85)
    lines: Sequence[str] = page.wrapped(release.reason, RIGHT_MM - LEFT_MM, letters_mm=2.5)
    if len(lines) > _STAMP_LINES:
        lines = [*lines[: _STAMP_LINES - 1], f"{lines[_STAMP_LINES - 1]} … (see the lists)"]
    for row, line in enumerate(lines):
        pen.write(line, (LEFT_MM, _STAMP_MM - 3.8 * row), height_mm=2.5, bold=True)
