"""What is handed over at the end: as built, photographs, care, what is signed and still to fill in.

The words are our own; what the firm promises and what the law asks is the firm's to fill in.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from roofmodel.drawings.lists.photo_list import PHOTOS
from roofmodel.drawings.paper.heading import Heading
from roofmodel.drawings.paper.release import Stamp
from roofmodel.drawings.pdf import pdf_table
from roofmodel.drawings.pdf.pdf_sheet import PdfPages
from roofmodel.drawings.pdf.pdf_table import Column, Listing
from roofmodel.drawings.sets import pdf_set, photo_pages
from roofmodel.drawings.sets.photo_pages import PhotoPrint
from roofmodel.drawings.sheets.paper_job import PaperJob

STAMP = Stamp(status="HANDOVER: to be filled in and signed")

COMPLETION = (
    "Address of the work",
    "Customer",
    "Work begun on / finished on",
    "Variations to the offer, agreed in writing on",
    "Building control: reference, certificate received on",
    "Structural engineer: name, letter of",
    "Electrician: certificate number, date",
    "Water test of gutters and outlets, on",
    "Signed for the firm, name and date",
    "Signed by the customer, name and date",
)

CARE = (
    ("Gutters", "Clear eaves gutter, box gutter, outlets and overflow twice a year."),
    ("Walking", "Do not step on the roof. Maintenance is done from a ladder or tower beside it."),
    ("Air", "Ventilate after cooking, drying and bathing; keep trickle vents open in winter."),
    (
        "Ceiling",
        "New plaster shows hairlines as it dries. Fill and paint after a winter.",
    ),
    (
        "Lights",
        (
            "Replace fittings only with ones of the same depth and kind; make no new holes in the "
            "foil."
        ),
    ),
    ("Fixing things", "Do not fix a dish, blind or lamp through the deck or the covering."),
    ("Checking", "After a storm or snow, check tiles, cappings and flashings from the ground."),
)

_TO_FILL = (
    "Workmanship guaranteed for",
    "Manufacturers' warranties: tiles, membrane, insulation, gutter",
    "Tile colour and batch",
    "Spare tiles left at",
    "Trim and cappings colour",
    "Final account, sum and date",
)
_SNAG_ROWS = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class HandoverPaper:
    """What the pack is printed from.

    ``unsettled`` are the gates that keep the roof from being handed over without a reservation:
    name, verdict, what is to be done.
    """

    heading: Heading
    title: str
    method: str
    layers: tuple[tuple[str, ...], ...]
    drawings: PaperJob
    walkable: str
    unsettled: tuple[tuple[str, ...], ...] = ()
    photos: tuple[PhotoPrint, ...] = ()


def content(paper: HandoverPaper) -> bytes:
    """Return the pack as a PDF file, the same for the same job."""
    made = PdfPages(title=f"{paper.heading.words}: handover", size_mm=pdf_table.SIZE_MM)
    for listing in _listings(paper):
        pdf_table.draw(listing, paper.heading, STAMP, made)
    photo_pages.draw(paper.photos, paper.heading, STAMP, made)
    pdf_set.draw_sections(paper.drawings, made)
    return made.content()


def _listings(paper: HandoverPaper) -> Iterator[Listing]:
    blank = (Column(heading="", share=3.0), Column(heading="To be filled in", share=4.0))
    yield Listing(
        title=f"completion, {paper.method}",
        columns=blank,
        rows=tuple((one, "." * 60) for one in COMPLETION),
        notes=("The program prints this page. Whoever signs it vouches for it.",),
    )
    yield Listing(
        title="as built, layer by layer from the room outwards",
        columns=(
            Column(heading="No.", share=0.4, figures=True),
            Column(heading="Layer", share=4.0, wraps=True),
            Column(heading="mm", share=0.8, figures=True),
            Column(heading="m²", share=0.8, figures=True),
            Column(heading="Make, batch, changed on site to", share=3.0),
        ),
        rows=tuple((*row, "." * 40) for row in paper.layers),
    )
    if paper.unsettled:
        yield Listing(
            title="not settled when this was printed",
            columns=(
                Column(heading="Gate", share=2.0, wraps=True),
                Column(heading="Verdict", share=1.2),
                Column(heading="To be done", share=5.0, wraps=True),
                Column(heading="Settled by, on", share=2.0),
            ),
            rows=tuple((*row, "." * 28) for row in paper.unsettled),
            notes=("Each is a reservation until it is settled and signed for here.",),
        )
    yield Listing(
        title="photographs",
        columns=(
            Column(heading="Stage", share=1.0),
            Column(heading="What it shows", share=6.0, wraps=True),
            Column(heading="File, taken by, on", share=2.0),
        ),
        rows=tuple((*row, "." * 28) for row in PHOTOS),
    )
    yield Listing(
        title="care",
        columns=(Column(heading="About", share=1.0), Column(heading="", share=6.0, wraps=True)),
        rows=(*CARE, ("Deck", f"May the deck be walked on, judged by its span: {paper.walkable}.")),
    )
    yield Listing(
        title="guarantee, spares and account",
        columns=blank,
        rows=tuple((one, "." * 60) for one in _TO_FILL),
        notes=("The guarantee is in the firm's own words; have its adviser check them.",),
    )
    yield Listing(
        title="snags",
        columns=(
            Column(heading="No.", share=0.4, figures=True),
            Column(heading="What", share=5.0),
            Column(heading="Put right by, on", share=2.0),
        ),
        rows=tuple((f"{n}", "." * 90, "." * 28) for n in range(1, _SNAG_ROWS + 1)),
    )
