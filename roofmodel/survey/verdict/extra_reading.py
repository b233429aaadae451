"""The one more reading that would settle which of several suspects is the wrong one."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from roofmodel.survey.fit.adjustment import Adjusted
from roofmodel.survey.fit.suspect import Suspect, Suspicion
from roofmodel.survey.readings.network import SheetLine
from roofmodel.survey.readings.reading import default_error

APART = 4.0
"""Two suspects are told apart by a reading they foresee this many standard errors apart."""

_LIKELY = 0.01
_MOST = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class Foreseen:
    """What the extra reading would show if one suspect is the wrong one, and how sharp that is."""

    suspect: str
    value: float
    standard_error: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ExtraReading:
    """A line to read, once more or for the first time, and what it would show.

    ``pairs_settled`` of ``pairs`` suspects are told apart by it; ``closest`` is how many standard
    errors the two hardest to tell apart lie from each other.
    """

    line: SheetLine
    foreseen: tuple[Foreseen, ...]
    pairs_settled: int
    pairs: int
    closest: float

    @property
    def settles(self) -> bool:
        """Whether it would single out one suspect, whichever it is."""
        return self.pairs_settled == self.pairs

    @property
    def text(self) -> str:
        """What to read and what it would mean, as one line."""
        printed = self.line.unit.printed
        meanings = "; ".join(f"{printed(f.value)} if {f.suspect}" for f in self.foreseen)
        return f"Read {self.line.name} ({self.line.label}): {meanings} is the wrong one."


def best(suspicion: Suspicion, adjusted: Adjusted) -> ExtraReading | None:
    """Return the extra reading that tells the likeliest suspects apart best.

    With one suspect left it is a repeat of that reading; None where nothing is suspected.
    """
    suspects = _likely(suspicion)
    if not suspects:
        return None
    if len(suspects) == 1:
        return _of(adjusted.network.line(suspects[0].name), suspects)
    lines = [line for line in adjusted.network.lines if line.measure is not None]
    return max((_of(line, suspects) for line in lines), key=_worth)


def _worth(extra: ExtraReading) -> tuple[int, float]:
    return extra.pairs_settled, extra.closest


def _likely(suspicion: Suspicion) -> list[Suspect]:
    """Return the likeliest suspect of each line: both readings of one line are read again alike."""
    found: dict[str, Suspect] = {}
    for suspect in suspicion.suspects:
        if suspect.share >= _LIKELY:
            found.setdefault(suspect.name, suspect)
    return list(found.values())[:_MOST]


def _of(line: SheetLine, suspects: Sequence[Suspect]) -> ExtraReading:
    shown = [suspect.without.reads_line(line) for suspect in suspects]
    own = default_error(line.tool)
    apart = [
        abs(one[0] - other[0]) / float(np.hypot(own, np.hypot(one[1], other[1])))
        for one, other in combinations(shown, 2)
    ]
    return ExtraReading(
        line=line,
        foreseen=tuple(
            Foreseen(suspect=suspect.name, value=value, standard_error=error)
            for suspect, (value, error) in zip(suspects, shown, strict=True)
        ),
        pairs_settled=sum(gap >= APART for gap in apart),
        pairs=len(apart),
        closest=min(apart, default=0.0),
    )
