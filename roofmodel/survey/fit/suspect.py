"""When a survey does not fit: which single reading would explain it, and what it should be."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from roofmodel.survey.fit import adjustment
from roofmodel.survey.fit.adjustment import Adjusted
from roofmodel.survey.readings import key_slip
from roofmodel.survey.readings.reading import Reading, Unit

SURE = 0.95
"""Share of the belief one line must hold before it is called the wrong one."""

_FAR_BEHIND = 25.0
_AS_STRONG = 0.7
_MOST = 12


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Suspect:
    """One reading, and what it would have to be if it alone were wrong.

    ``without`` is the roof fitted without it, ``share`` the belief in it against the other
    suspects, each as likely beforehand. ``place`` is where it stands among the readings.
    """

    reading: Reading
    place: int
    would_be: float
    would_be_error: float
    share: float
    without: Adjusted

    @property
    def name(self) -> str:
        """Name of its line."""
        return self.reading.name

    @property
    def explains(self) -> bool:
        """Whether everything else fits without it."""
        return self.without.fits

    @property
    def slips(self) -> tuple[str, ...]:
        """Slips of keying or of reading the tape that lead to what it would have to be."""
        if self.reading.unit is not Unit.MM:
            return ()
        return key_slip.slips(self.reading.value, self.would_be, self.would_be_error)

    @property
    def text(self) -> str:
        """The suspicion as one line."""
        printed = self.reading.unit.printed
        slips = f" Was {self.slips[0]}" if self.slips else ""
        return (
            f"{self.name} reads {printed(self.reading.value)}; if it is the only one "
            f"wrong, it should be {printed(self.would_be)}.{slips}"
        )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Suspicion:
    """All suspects of a survey, the likeliest first; none for a survey that fits."""

    suspects: tuple[Suspect, ...]

    @property
    def explained(self) -> bool:
        """Whether one wrong reading is enough to explain the misfit."""
        return any(suspect.explains for suspect in self.suspects)

    @property
    def beliefs(self) -> dict[str, float]:
        """The belief in each line, the strongest first."""
        shares: dict[str, float] = {}
        for suspect in self.suspects:
            shares[suspect.name] = shares.get(suspect.name, 0.0) + suspect.share
        return dict(sorted(shares.items(), key=lambda item: -item[1]))

    @property
    def located(self) -> str | None:
        """Name of the line that is wrong, None where the misfit is detected but not located."""
        name, share = next(iter(self.beliefs.items()), ("", 0.0))
        return name if share >= SURE else None


def find(adjusted: Adjusted) -> Suspicion:
    """Return the suspects of a survey, by fitting it again without each of them."""
    if adjusted.fits:
        return Suspicion(suspects=())
    fitted = {place: _without(adjusted, place) for place in _places(adjusted)}
    places = _same_doubt(fitted)
    fits = [fitted[place] for place in places]
    shares = _shares([fit.chi_square for fit in fits])
    suspects = [
        _suspect(adjusted, place, fit, share)
        for place, fit, share in zip(places, fits, shares, strict=True)
    ]
    return Suspicion(suspects=tuple(sorted(suspects, key=lambda s: (-s.share, s.name, s.place))))


def find_all(adjusted: Adjusted, *, at_most: int = 4) -> tuple[Suspicion, ...]:
    """Return suspicions one after the other, each after the likeliest of the one before is gone.

    One for each reading that has to go before the rest fits; nothing is changed in the survey.
    """
    suspicions: list[Suspicion] = []
    while len(suspicions) < at_most and not adjusted.fits:
        suspicion = find(adjusted)
        if not suspicion.suspects:
            break
        suspicions.append(suspicion)
        adjusted = suspicion.suspects[0].without
    return tuple(suspicions)


def _places(adjusted: Adjusted) -> list[int]:
    """Return the readings worth a fit without them: those that stand out about as much as any."""
    measured = [(abs(r.normalised), r.place) for r in adjusted.residuals if r.place is not None]
    worst = max((size for size, _ in measured), default=0.0)
    strong = sorted(
        (-size, place)
        for size, place in measured
        if size and (size * size >= worst * worst - _FAR_BEHIND or size >= _AS_STRONG * worst)
    )
    return [place for _, place in strong[:_MOST]]


def _same_doubt(fitted: Mapping[int, Adjusted]) -> list[int]:
    """Return the readings that are one another's alternatives.

    A reading that still stands out when the likeliest suspect is gone belongs to another doubt.
    """
    if not fitted:
        return []
    first = min(fitted, key=lambda place: (fitted[place].chi_square, place))
    fit = fitted[first]
    standing = {
        r.place + (r.place >= first)
        for r in fit.residuals
        if r.place is not None and abs(r.normalised) > fit.limit
    }
    return [place for place in fitted if place not in standing]


def _without(adjusted: Adjusted, place: int) -> Adjusted:
    rest = adjusted.readings[:place] + adjusted.readings[place + 1 :]
    return adjustment.adjust(adjusted.network, rest)


def _shares(misfits: Sequence[float]) -> list[float]:
    """Return the belief in each suspect, by how well everything else fits without it."""
    best = min(misfits, default=0.0)
    likelihoods = [math.exp((best - misfit) / 2.0) for misfit in misfits]
    return [likelihood / sum(likelihoods) for likelihood in likelihoods]


def _suspect(adjusted: Adjusted, place: int, fit: Adjusted, share: float) -> Suspect:
    reading = adjusted.readings[place]
    line = adjusted.network.line(reading.name)
    would_be, error = fit.reads_line(line)
    return Suspect(
        reading=reading,
        place=place,
        would_be=would_be,
        would_be_error=error,
        share=share,
        without=fit,
    )
