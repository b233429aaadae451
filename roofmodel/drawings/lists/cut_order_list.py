"""The order of cuts for a spreadsheet or a saw: one line for each cut, and for each offcut."""

from collections.abc import Iterator, Sequence

from roofmodel.drawings.paper.heading import LIST_ENDING, Heading
from roofmodel.drawings.sheets.cut_on_facet import CutPlan, Stock
from roofmodel.foundation import csv_text

HEADINGS = (
    "Material",
    "Sheet",
    "Step",
    "What",
    "From right [mm]",
    "From up [mm]",
    "To right [mm]",
    "To up [mm]",
    "Blade beside the line, right",
    "Blade beside the line, up",
    "Tilt [deg off square, above 0 in under the piece]",
    "Second pass",
    "Mark",
    "Corners of what is kept [right up mm]",
    *LIST_ENDING,
)


def text(plans: Sequence[CutPlan], heading: Heading) -> str:
    """Return the list as comma-separated text with decimal points.

    Lengths run from the lower left of the sheet as drawn. Straight cuts come in their order, then
    the pieces for the jigsaw, then what goes on the rack.
    """
    return csv_text.text(
        [
            HEADINGS,
            *(
                (plan.good.short, stock.short_name, *row, *heading.list_ending)
                for plan in plans
                for stock in plan.stocks
                for row in _rows(stock)
            ),
        ]
    )


def _rows(stock: Stock) -> Iterator[tuple[str, ...]]:
    for number, cut in enumerate(stock.cuts, start=1):
        ends = (f"{value:.3f}" for spot in (cut.start_mm, cut.end_mm) for value in spot)
        blade = (f"{value:.6f}" for value in cut.outward)
        tilt = f"{cut.tilt_deg:.2f}" if cut.tilt_deg else ""
        again = "yes" if cut.again else ""
        yield (f"{number}", "cut", *ends, *blade, tilt, again, cut.frees, "")
    for mark in stock.stuck:
        yield ("", "jigsaw", *("",) * 8, mark, "")
    for kept in stock.kept:
        corners = "; ".join(f"{x:.3f} {y:.3f}" for x, y in kept.corners_mm)
        yield ("", "to the rack", *("",) * 8, kept.label, corners)
