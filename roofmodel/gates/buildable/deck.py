"""Do the supports stand close enough for the deck, and may it be walked on?"""

from roofmodel.foundation.outcome import Outcome
from roofmodel.foundation.source import Source
from roofmodel.gates.answer.result import Gate, Sense
from roofmodel.refit import deck_span
from roofmodel.refit.deck_span import DeckSpan, Support
from roofmodel.refit.refit import Refit
from roofmodel.standards import new_home_warranty_2020 as new_home_warranty

NO_TABLE = Source("the board manufacturer's span table, not held here", "", verified=False)

QUESTION = "Are the supports close enough together for the deck to be walked on?"


def of_refit(refit: Refit) -> tuple[Gate, ...]:
    """Return one check for the facet whose supports stand farthest apart; none without a deck."""
    deck = refit.layer("deck")
    if deck is None:
        return ()
    name = f"deck: {deck.material.name}"
    span = deck_span.spans().get(deck.material.code)
    if span is None:
        return (
            Gate(
                name=name,
                question=QUESTION,
                outcome=Outcome.NOT_CALCULABLE,
                reason="The maximum support spacing for this board is not known.",
                remedy="Take it from the manufacturer's span table for the loads of this job.",
                source=NO_TABLE,
            ),
        )
    supports = deck_span.of_refit(refit)
    if len(supports) < len(refit.facets):
        known = {support.facet for support in supports}
        missing = ", ".join(facet for facet in refit.facets if facet not in known)
        return (
            *([_check(name, supports, deck.thickness_mm)] if supports else []),
            Gate(
                name=f"{name} on {missing}",
                question=QUESTION,
                outcome=Outcome.MEASURE_AGAIN,
                unit="mm",
                limit=span.reach_mm,
                reason=f"No bars are entered on {missing}, so what carries the deck is not known.",
                remedy="Enter the bars of every facet.",
                source=span.source,
            ),
        )
    return (_check(name, supports, deck.thickness_mm),)


def walkable(refit: Refit) -> bool | None:
    """Return whether the finished deck may be stepped on; None where it is not known."""
    supports = deck_span.of_refit(refit)
    if refit.layer("deck") is None:
        return False
    if len(supports) < len(refit.facets):
        return None
    return all(support.holds for support in supports)


def _check(name: str, supports: tuple[Support, ...], thickness_mm: float) -> Gate:
    worst = max(supports, key=lambda support: support.apart_mm)
    return Gate(
        name=name,
        question=QUESTION,
        outcome=Outcome.PASS if worst.holds else Outcome.FAIL,
        value=worst.apart_mm,
        unit="mm",
        limit=worst.span.reach_mm,
        sense=Sense.AT_MOST,
        reason=f"{worst.facet}: supports {worst.apart_mm:.1f} mm apart; the board spans "
        f"{worst.span.most_mm:g} mm, {worst.span.reach_mm:g} mm with setting out "
        "allowed for." + ("" if worst.holds else " As drawn it cannot be walked on."),
        remedy="" if worst.holds else _remedy(worst),
        source=worst.span.source,
        details=(
            *((one.facet, f"{one.apart_mm:.1f} mm apart") for one in supports),
            *_table(worst.span, thickness_mm),
        ),
    )


def _remedy(worst: Support) -> str:
    add = worst.bearers_needed
    apart_mm = worst.apart_mm * (worst.bearers + 1) / (add + 1)
    others = [
        f"take {one.material}, up to {one.most_mm:g} mm ({one.source})"
        for one in deck_span.spans().values()
        if one.reach_mm >= worst.apart_mm
    ]
    instead = f", or {' or '.join(others)}" if others else ""
    plural = "s" if add > 1 else ""
    return f"Add {add} bearer{plural} up every bay ({apart_mm:.0f} mm apart){instead}."


def _table(span: DeckSpan, thickness_mm: float) -> tuple[tuple[str, str], ...]:
    """Return the published table where it says the same: it is about flat roofs, no proof here."""
    if new_home_warranty.deck_supports_mm(thickness_mm) != span.most_mm:
        return ()
    table = f"{span.most_mm:g} mm for flat roofs, {new_home_warranty.FLAT_DECK}"
    return (("the published table", table),)
