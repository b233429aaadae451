"""Is the work planned so that nobody stands on glazing, and who may step on the new roof?

Every roof counts as fragile until a competent person says otherwise.
"""

from roofmodel.foundation.outcome import Outcome
from roofmodel.foundation.source import Source
from roofmodel.gates.answer.result import Gate
from roofmodel.gates.buildable import deck
from roofmodel.refit.refit import Refit

FRAGILE = Source("HSE, GEIS5 Fragile roofs", "what counts as fragile", verified=True)

CAUTIONS = (
    (
        "work at height",
        (
            "avoid it; otherwise prevent falls with scaffold and edge protection; "
            "otherwise soften them"
        ),
    ),
    ("never alone", "nobody works alone on or beside a fragile roof"),
    (
        "asbestos",
        "boards, soffits, gutters and flues from before 2000 are surveyed before they are touched",
    ),
    ("electricity", "circuits in the roof are made dead by a registered electrician"),
    ("loads", "tiles and boards are spread out; nothing is stacked on bars or a half-built deck"),
)
"""Printed with every job."""


def of_refit(refit: Refit) -> tuple[Gate, ...]:
    """Return the warning about fragile roofs; it stays open until somebody has planned the work."""
    glazing = refit.site.standing.glazing
    what = "Its glazing is not entered" if glazing is None else f"It is glazed with {glazing}"
    return (
        Gate(
            name="access: fragile roof",
            question="Is the work planned so that nobody stands on glazing?",
            outcome=Outcome.MEASURE_AGAIN,
            reason=f"{what}; a glazed roof counts as fragile whatever its age. {new_roof(refit)}",
            remedy="Work from a platform or a tower with edge protection, price both, and never "
            "stand on glazing or bars.",
            source=FRAGILE,
            details=CAUTIONS,
        ),
    )


def new_roof(refit: Refit) -> str:
    """Return in one sentence whether the finished roof may be stepped on."""
    return {
        True: "The new deck's supports are close enough for one person doing maintenance, "
        "provided the frame below carries the load, which is for the engineer to say.",
        False: "The new roof must not be walked on either: say so at handover.",
        None: "Whether the new deck may be walked on is not known yet.",
    }[deck.walkable(refit)]
