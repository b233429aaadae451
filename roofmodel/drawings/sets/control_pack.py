"""The pack for building control: what was computed, from what, and what nobody has decided yet."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from roofmodel.drawings.lists.photo_list import PHOTOS
from roofmodel.drawings.paper.heading import Heading
from roofmodel.drawings.paper.release import INDICATIVE, Stamp
from roofmodel.drawings.pdf import pdf_table
from roofmodel.drawings.pdf.pdf_sheet import PdfPages
from roofmodel.drawings.pdf.pdf_table import Column, Listing
from roofmodel.drawings.sets import pdf_set
from roofmodel.drawings.sheets.paper_job import PaperJob
from roofmodel.gates.answer.result import Gate

STAMP = Stamp(status=INDICATIVE)

_TOPICS = (
    ("U-value", ("thermal", "heat loss")),
    ("Condensation and damp", ("condensation", "mould", "dew point", "vapour")),
    ("Loads before and after", ("load",)),
    ("Members, deck and fixings", ("member", "deck", "fixings", "stock", "hands")),
    ("Drainage", ("rainwater",)),
    ("Pitch and headroom", ("pitch", "headroom")),
    ("Lights and access", ("lights", "light", "access")),
    ("Comfort", ("summer", "rain noise", "daylight")),
)
"""Sheets of the pack, and how the names of their gates begin."""

CAUTIONS = (
    (
        "Control",
        "A solid roof in place of a translucent one is controlled work as a rule. The owner "
        "applies, or has somebody apply; building control decides how the roof is classed.",
    ),
    (
        "Structure",
        "A structural engineer confirms frame, posts, window heads, eaves beam, wall plate, "
        "fixings and foundations. Figures here are a comparison and a screen, not a design.",
    ),
    (
        "Fire",
        "Ask for the rating of the roof covering near a boundary, keep fire stops at a "
        "separating wall, and use downlights whose manufacturer allows the void and board they "
        "sit in.",
    ),
    (
        "Electrics",
        "Isolate circuits before the ceiling is opened. A qualified electrician designs, tests "
        "and certifies; point out metal foil and bars near cables.",
    ),
    (
        "Work at height",
        "Plan the work first. Platform or tower below or beside, edge protection, crash deck or "
        "net; no one stands on glazing or bars.",
    ),
    (
        "Fragile roofs",
        "Glass, polycarbonate, rooflights and every roof not proved otherwise are fragile.",
    ),
    (
        "Asbestos",
        "Soffits, flues, cement sheets and old boards of the house may hold it. Stop, do not break "
        "it, and have it sampled by a licensed firm.",
    ),
    (
        "Glass",
        "Two people to each pane as a rule; cut-resistant gloves; calm weather only.",
    ),
)
"""The usual cautions; local codes and licensed professionals go before them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ControlPaper:
    """What the pack is printed from."""

    heading: Heading
    title: str
    method: str
    checks: tuple[Gate, ...]
    layers: tuple[tuple[str, ...], ...]
    lines: tuple[tuple[str, ...], ...]
    drawings: PaperJob | None = None


def content(paper: ControlPaper) -> bytes:
    """Return the pack as a PDF file, the same for the same job."""
    return pages(paper).content()


def pages(paper: ControlPaper) -> PdfPages:
    """Return the pack before it is a file; every page says that it only indicates."""
    made = PdfPages(
        title=f"{paper.heading.words}: pack for building control", size_mm=pdf_table.SIZE_MM
    )
    for listing in _listings(paper):
        pdf_table.draw(listing, paper.heading, STAMP, made)
    if paper.drawings is not None:
        pdf_set.draw_sections(paper.drawings, made)
    return made


def _listings(paper: ControlPaper) -> Iterator[Listing]:
    yield Listing(
        title=f"summary, {paper.method}",
        columns=(
            Column(heading="Gate", share=1.5, wraps=True),
            Column(heading="Outcome", share=1.0, wraps=True),
            Column(heading="Because", share=5.0, wraps=True),
        ),
        rows=tuple((one.name, str(one.outcome), one.reason) for one in paper.checks),
        notes=("The program computes and prints. It approves nothing.",),
    )
    yield Listing(
        title="cautions",
        columns=(Column(heading="About", share=1.0), Column(heading="", share=6.0, wraps=True)),
        rows=CAUTIONS,
        notes=("Local codes and licensed professionals take precedence over this list.",),
    )
    yield Listing(
        title="specification by layer, from the room outwards",
        columns=(
            Column(heading="No.", share=0.4, figures=True),
            Column(heading="Layer", share=3.2, wraps=True),
            Column(heading="mm", share=0.8, figures=True),
            Column(heading="W/mK", share=0.8, figures=True),
            Column(heading="m²", share=0.8, figures=True),
            Column(heading="Lies", share=1.4, wraps=True),
            Column(heading="Source of the values", share=3.0, wraps=True),
        ),
        rows=paper.layers,
        notes=("Key plan, sections and details 1 : 5 are at the end.",),
    )
    yield Listing(
        title="roof as surveyed",
        columns=(
            Column(heading="Part", share=2.0),
            Column(heading="Facets", share=1.5),
            Column(heading="Pitch °", share=1.0, figures=True),
            Column(heading="Length mm", share=1.0, figures=True),
            Column(heading="Area m²", share=1.0, figures=True),
        ),
        rows=paper.lines,
    )
    left = list(paper.checks)
    for title, beginnings in _TOPICS:
        mine = [one for one in left if one.name.startswith(beginnings)]
        left = [one for one in left if one not in mine]
        if mine:
            yield _topic(title, mine)
    if left:
        yield _topic("Survey, prices and revision", left)
    yield Listing(
        title="photographs of what will be covered",
        columns=(
            Column(heading="Stage", share=1.0),
            Column(heading="What to show", share=6.0, wraps=True),
            Column(heading="Taken by, on", share=1.5),
        ),
        rows=tuple((*row, "") for row in PHOTOS),
    )


def _topic(title: str, checks: Sequence[Gate]) -> Listing:
    rows: list[tuple[str, ...]] = []
    for check in checks:
        rows.append((f"{check.name}: {check.outcome}",))
        rows.append(("question", check.question))
        rows.append(("answer", check.reason))
        if check.remedy:
            rows.append(("remedy", check.remedy))
        rows += [*check.details]
        if check.source is not None:
            rows.append(("source", check.source_words))
    return Listing(
        title=title,
        columns=(
            Column(heading="", share=1.8, wraps=True),
            Column(heading="Outcome and reason", share=6.0, wraps=True),
        ),
        rows=tuple(rows),
    )
