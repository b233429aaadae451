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


def cut_order(plans: Sequence[CutPlan]) -> Listing:
    """Return in which order every sheet is cut up: straight cuts from edge to edge, or why not."""
    return Listing(
        title="cut order",
        columns=(
            Column(heading="Sheet", share=12),
            Column(heading="Cut", share=6, figures=True),
            Column(heading="From right, up mm", share=22, figures=True),
            Column(heading="To right, up mm", share=22, figures=True),
            Column(heading="Length mm", share=12, figures=True),
            Column(heading="Blade", share=10),
            Column(heading="Raked", share=8),
            Column(heading="Tilt, degrees off square", share=28),
            Column(heading="Piece set free", share=34, wraps=True),
        ),
        rows=tuple(_cut_rows(plans)),
        notes=(
            "From the lower left of the sheet as drawn. The line is the finished edge of a part, "
            "on the upper face; the saw cut lies on the side named.",
            "“Again” is a second pass along an edge of a piece already cut square: tilt the blade "
            "for it. Offcuts for the rack fall whole in this order, and in no other.",
        ),
    )


def _cut_rows(plans: Sequence[CutPlan]) -> Iterator[tuple[str, ...]]:
    for plan in plans:
        cuts = [cut for stock in plan.stocks for cut in stock.cuts]
        sawn = sum(cut.length_mm for cut in cuts) / 1000.0
        yield (f"{plan.good.name}: {len(cuts)} straight cuts, {sawn:.1f} m of sawing",)
        for stock in plan.stocks:
            name = f"{plan.good.short} {stock.short_name}"
            for number, cut in enumerate(stock.cuts, start=1):
                yield (
                    name,
                    f"{number}",
                    f"{cut.start_mm[0]:.1f}, {cut.start_mm[1]:.1f}",
                    f"{cut.end_mm[0]:.1f}, {cut.end_mm[1]:.1f}",
                    f"{cut.length_mm:.1f}",
                    cut.blade,
                    "raked" if cut.raked else "",
                    f"{cut.tilt}{', again' if cut.again else ''}",
                    cut.frees,
                )
            if stock.stuck:
                yield (name, "then", *("",) * 3, "jigsaw", "", "", ", ".join(stock.stuck))


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
                heading="Cut in this order, running from the left end [mm]", share=90, wraps=True
            ),
            Column(heading="Left over mm", share=14, figures=True),
            Column(heading="To the rack", share=20),
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
        for number, bar in enumerate(plan.bars, start=1):
            running, words = 0, []
            for part in bar.parts:
                running += part.length
                words.append(f"{part.mark} {part.length / 10:.1f} (at {running / 10:.1f})")
                running += plan.problem.kerf
            yield (
                bar.label or f"{number}",
                f"{bar.length / 10:.0f}",
                "; ".join(words),
                f"{bar.offcut / 10:.0f}",
                cut.kept[number].label if number in cut.kept else "",
            )


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
