"""Has every left-hand piece its right-hand twin, where a piece may not be turned over?"""

from roofmodel.foundation.outcome import Outcome
from roofmodel.foundation.source import Source
from roofmodel.gates.answer.result import Gate
from roofmodel.refit.layer import Lie
from roofmodel.refit.refit import Refit
from roofmodel.shapes.bars.bay import Bay

GEOMETRY = Source("geometry of the bays as entered", "", verified=False)

NEAR_MM = 1.0
"""Pieces that differ by less are twins."""


def of_refit(refit: Refit) -> tuple[Gate, ...]:
    """Return the check of the bays; none without bays that have a hand."""
    handed = [bay for bay in refit.bays if bay.hand != "N"]
    if not handed:
        return ()
    alone = unpaired(handed)
    left = sum(bay.hand == "L" for bay in handed)
    fixed = [
        layer.material.name
        for layer in refit.layers
        if layer.layer.lie is Lie.BETWEEN
        and layer.material.sheet is not None
        and layer.material.sheet.faces != "alike"
    ]
    turn = (
        f"{', '.join(fixed)} must not be turned over: cut each hand as marked, outside face up."
        if fixed
        else "These boards have no good face; a bevelled piece is still never turned over."
    )
    marks = ", ".join(bay.mark for bay in alone)
    return (
        Gate(
            name="hands: bays",
            question="Does every left-hand bay have a matching right-hand one?",
            outcome=Outcome.MEASURE_AGAIN if alone else Outcome.PASS,
            value=float(len(alone)),
            unit="bays with no opposite hand",
            limit=0.0,
            reason=f"{left} left-hand and {len(handed) - left} right-hand bays. {turn}"
            + (f" No opposite hand: {marks}." if alone else ""),
            remedy="Check the bars of the facet opposite; if the roof is not symmetrical, leave "
            "them as they are."
            if alone
            else "",
            source=GEOMETRY,
            details=tuple((bay.mark, bay.hand) for bay in handed),
        ),
    )


def unpaired(bays: list[Bay]) -> list[Bay]:
    """Return the bays that are no other bay's mirror image, each bay used once."""
    waiting = list(bays)
    alone = []
    while waiting:
        bay = waiting.pop(0)
        twin = next((one for one in waiting if _twins(bay, one)), None)
        if twin is None:
            alone.append(bay)
        else:
            waiting.remove(twin)
    return alone


def _twins(a: Bay, b: Bay) -> bool:
    if a.hand == b.hand or len(a.corners_mm) != len(b.corners_mm):
        return False
    mirrored = [(b.width_mm - u, v) for u, v in b.ordinates_mm]
    return all(
        any(abs(u - x) <= NEAR_MM and abs(v - y) <= NEAR_MM for x, y in mirrored)
        for u, v in a.ordinates_mm
    )
