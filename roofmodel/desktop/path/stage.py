"""The stages of the work, which findings belong to each, and how far each has come."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum

from roofmodel.survey.taped.findings import Finding, Severity


class Stage(Enum):
    """One stage of the work; its value is what the window calls it."""

    START = "Start"
    MEASURE = "Measure"
    ROOF = "Roof"
    METHOD = "Method"
    BOARDS = "Boards"
    CHECKS = "Checks"
    OFFER = "Offer"
    WORKSHOP = "Workshop"
    PHOTOGRAPHS = "Photographs"
    SHOW = "Show"

    @property
    def hint(self) -> str:
        """What is done at this stage."""
        return _HINTS[self]


_HINTS = {
    Stage.START: "Begin a roof, or open one",
    Stage.MEASURE: "What was taped on site, and how well it agrees",
    Stage.ROOF: "Shape, pitches, facets and bars",
    Stage.METHOD: "What is laid on the roof, what stays, windows and lights",
    Stage.BOARDS: "How the boards lie, and the sheets they are cut from",
    Stage.CHECKS: "The gates the method has to pass, and what they ask of house and site",
    Stage.OFFER: "The three methods compared, the take-off and its prices",
    Stage.WORKSHOP: "Drawings, and the papers for the saw and the site",
    Stage.PHOTOGRAPHS: "The new roof drawn into photographs of the customer's own house",
    Stage.SHOW: "The roof for the customer: no costs, no gates, no files",
}
_OF_ROOM = {
    "readings": Stage.MEASURE,
    "answers": Stage.MEASURE,
    "survey": Stage.ROOF,
    "bars": Stage.ROOF,
    "refit": Stage.METHOD,
    "lights": Stage.METHOD,
    "standing": Stage.METHOD,
    "site": Stage.CHECKS,
    "house": Stage.CHECKS,
    "heat": Stage.CHECKS,
    "actuals": Stage.OFFER,
    "photos": Stage.PHOTOGRAPHS,
}


def of_field(path: str) -> Stage:
    """Return the stage at which a field is entered; what the job is called is at the roof's."""
    return _OF_ROOM.get(path.partition(".")[0], Stage.ROOF)


@dataclass(frozen=True, slots=True)
class Standing:
    """How far a stage has come: the worst that is open, how much of it, and what is told."""

    mark: Severity | None = None
    count: int = 0
    done: bool = False
    words: str = ""


def standings(findings: Sequence[Finding]) -> dict[Stage, Standing]:
    """Return how every stage stands that has open findings; notes are not counted."""
    found: dict[Stage, Standing] = {}
    for stage in Stage:
        own = [one for one in findings if of_field(one.field) is stage]
        for severity in (Severity.STOP, Severity.QUESTION):
            worst = [one for one in own if one.severity is severity]
            if worst:
                words = "\n".join(one.text for one in worst)
                found[stage] = Standing(mark=severity, count=len(worst), words=words)
                break
    return found
