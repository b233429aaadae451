"""What no figure answers: ties that hold the eaves together, and the wind that lifts the roof."""

from roofmodel.foundation.outcome import Outcome
from roofmodel.foundation.source import Source
from roofmodel.gates.answer.result import Gate
from roofmodel.refit.refit import Refit
from roofmodel.shapes.roof import LineKind


def ties(refit: Refit) -> list[Gate]:
    """Return what holds the eaves together below a ridge; none for a slope on the house wall."""
    roof, count = refit.site.roof, refit.site.standing.tie_bars
    if not (count or roof.lines_of(LineKind.RIDGE) or roof.lines_of(LineKind.HIP)):
        return []
    return [
        Gate(
            name="load: ties",
            question="Is it known what holds the eaves together, and does it stay?",
            outcome=Outcome.PASS if count else Outcome.MEASURE_AGAIN,
            value=float(count),
            unit="tie bars",
            reason=f"{count} tie bars are recorded; every one of them stays, boxed in or exposed."
            if count
            else "No tie bar is recorded. Slopes that lean on a ridge or hips push the eaves out, "
            "and more so the heavier they get.",
            remedy=""
            if count
            else "Look for ties or a ring beam at the eaves, and ask the engineer what takes the "
            "thrust of the new load.",
            source=Source("common practice, no source", "ties are never removed", verified=False),
        )
    ]


def wind() -> Gate:
    """Return the warning about wind: no figure is computed."""
    return Gate(
        name="load: wind",
        question="Is the roof held down against the wind?",
        outcome=Outcome.NOT_CALCULABLE,
        reason="Suction governs light roofs. The wind load for the site is not calculated here: "
        "map, altitude and town corrections are for the engineer.",
        remedy="Ask the engineer for the holding-down at eaves, wall plate, verges and ridge, "
        "and the covering's manufacturer for the fixings along the edges.",
        source=Source("no figure; the UK method was not at hand", "EN 1991-1-4", verified=False),
    )
