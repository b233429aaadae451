"""The one or two more readings that would settle which of several suspects is the wrong one."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from roofmodel.survey.fit.adjustment import Adjusted
from roofmodel.survey.fit.suspect import Suspect, Suspicion
from roofmodel.survey.readings import measure
from roofmodel.survey.readings.measure import Points
from roofmodel.survey.readings.network import SheetLine
from roofmodel.survey.readings.reading import default_error

APART = 4.0
"""Two suspects are told apart by a reading they foresee this many standard errors apart."""

_LIKELY = 0.01
_MOST = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class Foreseen:
    """What each extra reading would show if one suspect is the wrong one."""

    suspect: str
    values: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ExtraReading:
    """One line to read, once more or for the first time, or two that are needed together.

    ``not_told`` are the pairs of suspects that would still be alike afterwards; ``closest`` is how
    many standard errors the two hardest to tell apart lie from each other.
    """

    lines: tuple[SheetLine, ...]
    foreseen: tuple[Foreseen, ...]
    not_told: tuple[tuple[str, str], ...]
    closest: float

    @property
    def text(self) -> str:
        """What to read and what it would mean, as one line."""
        what = " and ".join(f"{line.name} ({line.label})" for line in self.lines)
        if len(self.foreseen) == 1:
            return f"Read {what} again: {self._shown(self.foreseen[0])} would settle it."
        alike: dict[str, list[str]] = {}
        for one in self.foreseen:
            alike.setdefault(self._shown(one), []).append(one.suspect)
        meanings = "; ".join(f"{shown} if {_or(names)}" for shown, names in alike.items())
        text = f"Read {what}: {meanings} is the wrong one."
        if self.not_told:
            pairs = ", ".join(f"{one} from {other}" for one, other in self.not_told)
            text += f" That does not tell {pairs}: read those again too."
        return text

    def _shown(self, foreseen: Foreseen) -> str:
        shown = [
            line.unit.printed(value)
            for line, value in zip(self.lines, foreseen.values, strict=True)
        ]
        return " and ".join(shown)


def best(suspicion: Suspicion, adjusted: Adjusted) -> ExtraReading | None:
    """Return the reading that tells the suspects apart, or two where one does not.

    Where not even two tell all of them apart, those that tell most. With one suspect left it is a
    repeat of that reading; None where nothing is suspected.
    """
    suspects = _likely(suspicion)
    if not suspects:
        return None
    lines = [line for line in adjusted.network.lines if line.measure is not None]
    if len(suspects) == 1:
        lines = [adjusted.network.line(suspects[0].name)]
    values, gaps = _foreseen(lines, suspects)
    chosen = _chosen(gaps)
    pairs = list(combinations([suspect.name for suspect in suspects], 2))
    apart = np.hypot.reduce(gaps[list(chosen)], axis=0)
    return ExtraReading(
        lines=tuple(lines[i] for i in chosen),
        foreseen=tuple(
            Foreseen(suspect=suspect.name, values=tuple(float(values[i, j]) for i in chosen))
            for j, suspect in enumerate(suspects)
        ),
        not_told=tuple(p for p, gap in zip(pairs, apart, strict=True) if gap < APART),
        closest=float(apart.min(initial=np.inf)),
    )


def _chosen(gaps: Points) -> tuple[int, ...]:
    """Return the line that tells most pairs apart, or the two lines where those tell more."""

    def worth(chosen: tuple[int, ...]) -> tuple[int, float]:
        apart = np.hypot.reduce(gaps[list(chosen)], axis=0)
        return int((apart >= APART).sum()), float(apart.min(initial=np.inf))

    one = max(((i,) for i in range(len(gaps))), key=worth)
    if worth(one)[0] == gaps.shape[1]:
        return one
    two = max(combinations(range(len(gaps)), 2), key=worth, default=one)
    return two if worth(two)[0] > worth(one)[0] else one


def _likely(suspicion: Suspicion) -> list[Suspect]:
    """Return the likely suspects of each line; every one as long as none is located.

    Both readings of one line are read again alike.
    """
    least = 0.0 if suspicion.located is None else _LIKELY
    by_name: dict[str, Suspect] = {}
    for suspect in suspicion.suspects:
        if suspect.share >= least:
            by_name.setdefault(suspect.name, suspect)
    return list(by_name.values())[:_MOST]


def _foreseen(lines: Sequence[SheetLine], suspects: Sequence[Suspect]) -> tuple[Points, Points]:
    """Return what lines would read, (lines, suspects), and how far apart pairs of those lie.

    The gaps (lines, pairs) are in standard errors of the difference, the tool's own among them.
    """
    shown = [_shown(lines, suspect.without) for suspect in suspects]
    own = np.array([default_error(line.tool) for line in lines])
    gaps = [
        np.abs(one[0] - other[0]) / np.sqrt(own**2 + one[1] + other[1])
        for one, other in combinations(shown, 2)
    ]
    values = np.array([value for value, _ in shown]).T
    return values, np.array(gaps).T.reshape(len(lines), len(gaps))


def _shown(lines: Sequence[SheetLine], adjusted: Adjusted) -> tuple[Points, Points]:
    """Return what lines read on a fitted roof, and the variances of that."""
    network = adjusted.network
    rows = [(line.measure, network.index(line.points)) for line in lines if line.measure]
    instrument = measure.instrument(rows)
    slopes = instrument.slopes(adjusted.points_mm)[:, list(network.free)]
    variances = np.einsum("ij,jk,ik->i", slopes, adjusted.solution.cofactor, slopes)
    return instrument.values(adjusted.points_mm), variances


def _or(names: Sequence[str]) -> str:
    return " or ".join(names)
