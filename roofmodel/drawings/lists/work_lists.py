"""The workshop's lists: parts, sheets, lengths, bundles and the loading of the van."""

from collections.abc import Iterator, Sequence

from roofmodel.drawings.lists import bundle
from roofmodel.drawings.lists.bundle import Bundle
from roofmodel.drawings.pdf.pdf_table import Column, Listing
from roofmodel.drawings.sheets import bevel_note
from roofmodel.drawings.sheets.cut_on_facet import CutPlan
from roofmodel.drawings.sheets.paper_job import CutLengths

_HANDS = {"L": "left", "R": "right", "N": "-"}


def parts(plans: Sequence[CutPlan]) -> Listing:
    """Return every part with its enclosing rectangle, bevels, hand, mass and sheet."""
    return Listing(
        title="part schedule",
        columns=(
            Column(heading="Mark", share=34),
            Column(heading="Material", share=22),
            Column(heading="Along mm", share=11, figures=True),
            Column(heading="Up slope mm", share=13, figures=True),
            Column(heading="Hand", share=7),
            Column(heading="Bevels: side, degrees, lean", share=40, wraps=True),
            Column(heading="Mass kg", share=10, figures=True),
            Column(heading="Sheet", share=8, figures=True),
        ),
        rows=tuple(_part_rows(plans)),
        notes=(
            "Drawn outside face up, linings back up. Sides are counted from the lower left corner, "
            "anticlockwise.",
        ),
    )


def _part_rows(plans: Sequence[CutPlan]) -> Iterator[tuple[str, ...]]:
    for plan in plans:
        stocks = plan.stock_by_mark()
        yield (f"{plan.good.name}: {len(plan.parts)} pieces",)
        for placed in sorted(plan.placed, key=lambda one: one.part.mark):
            part = placed.part
            bevels = bevel_note.bevels(part)
            length, width = (tenths / 10 for tenths in part.cut_size_tenths)
            yield (
                part.mark,
                plan.good.short,
                f"{length:.1f}",
                f"{width:.1f}",
                _HANDS[part.hand],
                "; ".join(one.for_list for one in bevels) or "square",
                f"{bundle.mass_kg(placed, plan.good):.1f}",
                stocks[part.mark].short_name,
            )


def rack(plans: Sequence[CutPlan]) -> Listing:
    """Return what is taken from the rack, where it stands, and what goes back on it."""
    return Listing(
        title="the rack",
        columns=(
            Column(heading="", share=10),
            Column(heading="Label", share=30),
            Column(heading="Material", share=34),
            Column(heading="Size mm", share=30),
            Column(heading="From", share=24),
        ),
        rows=tuple(_rack_rows(plans)),
        notes=("Write the label on the piece. Sizes are those of the rectangle round it.",),
    )


def _rack_rows(plans: Sequence[CutPlan]) -> Iterator[tuple[str, ...]]:
    for plan in plans:
        for stock in plan.stocks:
            if stock.rack_label:
                size = " x ".join(f"{extent:.1f}" for extent in stock.size_mm)
                yield ("take", stock.rack_label, plan.good.name, size, stock.place)
    for plan in plans:
        for stock in plan.stocks:
            for kept in stock.kept:
                yield ("put", kept.label, plan.good.name, kept.size, stock.name)


def lengths(cuts: Sequence[CutLengths]) -> Listing:
    """Return how every length is cut: the pieces in order with running saw marks."""
    return Listing(
        title="linear cut list",
        columns=(
            Column(heading="Length", share=10),
            Column(heading="Stock mm", share=12, figures=True),
            Column(
                heading="Cut in this order, running from the left end [mm]", share=84, wraps=True
            ),
            Column(heading="Left over mm", share=14, figures=True),
            Column(heading="To the rack", share=26),
        ),
        rows=tuple(_length_rows(cuts)),
        notes=(
            (
                "The saw cut is allowed for between pieces. Offer up the first piece before "
                "cutting the rest."
            ),
        ),
    )


def _length_rows(cuts: Sequence[CutLengths]) -> Iterator[tuple[str, ...]]:
    for cut in cuts:
        plan = cut.plan
        yield (f"{cut.name}: {plan.sentence}",)
        mitres = {run.mark: run.mitres_mm for run in cut.runs}
        for number, bar in enumerate(plan.bars, start=1):
            running, words = 0, []
            for part in bar.parts:
                running += part.length
                mitred = _mitred(mitres.get(part.mark, (0.0, 0.0)))
                words.append(f"{part.mark} {part.length / 10:.1f}{mitred} (at {running / 10:.1f})")
                running += plan.problem.kerf
            yield (
                bar.label or f"{number}",
                f"{bar.length / 10:.0f}",
                "; ".join(words),
                f"{bar.offcut / 10:.0f}",
                cut.kept[number].label if number in cut.kept else "",
            )


def _mitred(ends_mm: tuple[float, float]) -> str:
    """Return which ends are cut on the slant, and by how much on the back [mm]."""
    ends = [
        f"{end} {slant:.1f}" for end, slant in zip(("left", "right"), ends_mm, strict=True) if slant
    ]
    return f" mitred {' and '.join(ends)}" if ends else ""


def loading(bundles: Sequence[Bundle]) -> Listing:
    """Return the bundles in the order the van is loaded: what is used last goes in first."""
    return Listing(
        title="bundles and loading list",
        columns=(
            Column(heading="Load", share=7, figures=True),
            Column(heading="Bundle", share=9, figures=True),
            Column(heading="For", share=10),
            Column(heading="Material", share=30),
            Column(heading="Pieces", share=9, figures=True),
            Column(heading="Mass kg", share=10, figures=True),
            Column(heading="Men", share=7, figures=True),
            Column(heading="Marks", share=80, wraps=True),
        ),
        rows=tuple(
            (
                f"{load}",
                f"{one.number}",
                one.facet,
                one.good.name,
                f"{len(one.placed)}",
                f"{one.mass_kg:.1f}",
                f"{one.men}",
                ", ".join(placed.part.mark for placed in one.placed),
            )
            for load, one in enumerate(reversed(bundles), start=1)
        ),
        notes=(
            (
                f"One person lifts {bundle.ONE_MAN_KG:g} kg (common practice, no source); more "
                "takes two."
            ),
            "Bundles are numbered in the order of fixing, so the van is loaded from the last.",
        ),
    )
