"""Does the build-up fit: below the sill at the wall, and above doors and heads inside?"""

from roofmodel.foundation.outcome import Outcome, against_least, against_most
from roofmodel.foundation.source import Source
from roofmodel.gates.answer.result import Gate, Sense
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.refit import depth
from roofmodel.refit.depth import Depth
from roofmodel.refit.layer import Zone
from roofmodel.refit.refit import Refit
from roofmodel.shapes.roof import LineKind

PRACTICE = Source(
    "common practice, no source", "150 mm of flashing above the covering", verified=False
)
INSIDE = Source("common practice, no source", "height of a ceiling at the eaves", verified=False)


def of_refit(refit: Refit, facts: SiteFacts) -> tuple[Gate, ...]:
    """Return the check at the house wall and, for a method with a ceiling, those inside."""
    places = {one.where: one for one in depth.depths(refit)}
    checks = []
    if "abutment" in places:
        checks.append(_at_wall(refit, places["abutment"]))
    if any(layer.layer.zone is Zone.ROOM for layer in refit.layers) and "eaves" in places:
        checks.append(_door(places["eaves"], facts))
        if facts.least_ceiling_mm is not None:
            checks.append(_ceiling(refit, places["eaves"], facts.least_ceiling_mm))
    return tuple(checks)


def _at_wall(refit: Refit, at: Depth) -> Gate:
    name, question = "headroom: sill", "Does the flashing fit below the sill?"
    sill_mm = refit.site.standing.sill_height_mm
    if refit.depth_outside_mm <= 0.0:
        return Gate(
            name=name,
            question=question,
            outcome=Outcome.PASS,
            reason="The old surface and its flashing stay where they are.",
            source=PRACTICE,
        )
    top_mm = at.surface_mm + depth.UPSTAND_MM
    if sill_mm is None:
        return Gate(
            name=name,
            question=question,
            outcome=Outcome.MEASURE_AGAIN,
            value=top_mm,
            unit="mm",
            reason=f"The flashing reaches {top_mm:.0f} mm above the floor; the sill has not been "
            "measured.",
            remedy="Measure from the floor to the underside of the sill or tray above the roof.",
            source=PRACTICE,
        )
    outcome = against_most(top_mm, sill_mm)
    over_mm = top_mm - sill_mm
    slope = (
        " The slope meets the wall along a verge; its highest point counts."
        if _raked(refit)
        else ""
    )
    return Gate(
        name=name,
        question=question,
        outcome=outcome,
        value=top_mm,
        unit="mm",
        limit=sill_mm,
        sense=Sense.AT_MOST,
        reason=f"The new surface at {at.surface_mm:.0f} mm and {depth.UPSTAND_MM:g} mm of "
        f"flashing reach {top_mm:.0f} mm; the sill is at {sill_mm:.0f} mm: "
        f"{abs(over_mm):.0f} mm {'too high' if over_mm > 0 else 'to spare'}.{slope}",
        remedy=""
        if outcome is Outcome.PASS
        else "Choose thinner layers outside the bars, a lower pitch where the covering allows "
        "it, a shape with a box gutter, or a panel swap.",
        source=PRACTICE,
        details=(
            ("build-up at the wall", f"{at.plumb_mm:.0f} mm plumb"),
            ("new surface", f"{at.surface_mm:.0f} mm above the floor"),
            ("flashing", f"{depth.UPSTAND_MM:g} mm"),
        ),
    )


def _door(at: Depth, facts: SiteFacts) -> Gate:
    name, question = "headroom: doors", "Do doors and fanlights still open below the ceiling?"
    if facts.door_head_mm is None:
        return Gate(
            name=name,
            question=question,
            outcome=Outcome.MEASURE_AGAIN,
            value=at.ceiling_mm,
            unit="mm",
            reason=f"At the eaves the ceiling is {at.ceiling_mm:.0f} mm above the floor; the "
            "highest head of a door or fanlight that opens inwards is not entered.",
            remedy="Measure the highest door or fanlight head that opens under the roof.",
            source=INSIDE,
        )
    outcome = against_least(at.ceiling_mm, facts.door_head_mm)
    return Gate(
        name=name,
        question=question,
        outcome=outcome,
        value=at.ceiling_mm,
        unit="mm",
        limit=facts.door_head_mm,
        sense=Sense.AT_LEAST,
        reason=f"Ceiling at the eaves {at.ceiling_mm:.0f} mm, highest head "
        f"{facts.door_head_mm:.0f} mm.",
        remedy=""
        if outcome is Outcome.PASS
        else (
            "Leave out the counter-battens at the eaves, use a thinner lining, or rehang the "
            "fanlight."
        ),
        source=INSIDE,
    )


def _ceiling(refit: Refit, at: Depth, least_mm: float) -> Gate:
    lost_mm = depth.headroom_lost_mm(refit)
    outcome = against_least(at.ceiling_mm, least_mm)
    return Gate(
        name="headroom: ceiling",
        question="Is the ceiling at the eaves high enough to stand under?",
        outcome=outcome,
        value=at.ceiling_mm,
        unit="mm",
        limit=least_mm,
        sense=Sense.AT_LEAST,
        reason=f"Ceiling at the eaves {at.ceiling_mm:.0f} mm above the floor; the lining takes "
        f"{lost_mm:.0f} mm below the bars.",
        remedy=""
        if outcome is Outcome.PASS
        else (
            "Use a thinner lining or leave out the counter-battens; show the customer the height."
        ),
        source=INSIDE,
    )


def _raked(refit: Refit) -> bool:
    """Return whether the house wall rises with a slope instead of lying level."""
    return any(line.pitch_deg > 0.1 for line in refit.site.roof.lines_of(LineKind.HOUSE_WALL))
