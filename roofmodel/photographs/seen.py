"""What a photograph sees of the roof's own sizes, held against the survey.

One size is set free at a time while the others are good to what a tape is: the clicks then say what
it is, and how sharply. Where the survey has not begun, every size is free but one known length.
"""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from roofmodel.geometry.plane import Vector
from roofmodel.photographs import fitting, model, placing
from roofmodel.photographs.corners import FOOT, Corner
from roofmodel.photographs.entry import PhotoEntry
from roofmodel.photographs.fitting import Fit
from roofmodel.photographs.model import ALONG, EAVES, FREE, OUT, RISE
from roofmodel.photographs.placing import ClicksError
from roofmodel.shapes.roof import Facet, Roof
from roofmodel.survey.taped.findings import Finding, Severity

_TAPE_MM = 8.0
"""How sharp a size is that was taped once, off frames that are seldom straight (no source)."""
_NOTHING_MM = 1.0
_KEPT = 16
_TWO_SIDED_95 = 1.96
_ALARM = 0.01
_ASKED_BEYOND = 2.81
"""Three sizes are asked for: each may be doubted without cause once in 200 photographs."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """One size of the roof as entered and as a photograph sees it, with its standard error.

    ``entered_error`` is how sharp the entered one is; ``chance`` the share of faultless sets of
    clicks that would fit worse with this size free.
    """

    label: str
    unit: str
    entered: float
    entered_error: float
    seen: float
    error: float
    chance: float

    @property
    def normalised(self) -> float:
        """By how many standard errors of their difference the two are apart."""
        return abs(self.seen - self.entered) / math.hypot(self.error, self.entered_error)

    @property
    def doubted(self) -> bool:
        """Whether the photograph asks about it: another size, and the clicks agree."""
        return self.normalised > _ASKED_BEYOND and self.chance >= _ALARM

    @property
    def words(self) -> str:
        """What is seen, with its 95 % interval, as it is printed."""
        within = _TWO_SIDED_95 * self.error
        if self.unit == "°":
            return f"{self.seen:.1f} ± {max(within, 0.05):.1f}°"
        return f"{self.seen:.0f} ± {max(within, 1.0):.0f} {self.unit}"


def sizes(entry: PhotoEntry, corners: Sequence[Corner], roof: Roof) -> tuple[Seen, ...]:
    """Return width, projection, ridge height and pitches as a photograph sees them.

    Raises
    ------
    ClicksError
        As `placing.place`.
    """
    if entry.known is not None:
        return _first_model(entry, corners, roof)
    return tuple(_checked(entry, corners, roof))


def findings(entry: PhotoEntry, place: int, corners: Sequence[Corner], roof: Roof) -> list[Finding]:
    """Return what a photograph asks about the survey: nothing, its clicks, or one size.

    Parameters
    ----------
    entry, place
        The photograph, and the how manieth of the job it is.
    corners, roof
        The roof as surveyed.
    """
    path = f"photos.{place}"
    if not entry.clicks:
        return []
    try:
        placed = placing.place(entry, corners)
        found = () if entry.known is not None else sizes(entry, corners, roof)
    except ClicksError as error:
        return [Finding(path, Severity.NOTE, f"{entry.file}: {error}", "")]
    doubted = [one for one in found if one.doubted]
    if not doubted:
        if placed.doubt is None:
            return []
        return [Finding(path, Severity.QUESTION, f"{entry.file}: {placed.words[0]}", "")]
    worst = max(doubted, key=lambda one: one.normalised)
    figures = f"{worst.entered:.1f}°" if worst.unit == "°" else f"{worst.entered:.0f} mm"
    text = f"{worst.label}: the photograph {entry.file} sees {worst.words}, entered is {figures}."
    click = f"the click on {placed.doubt.corner}" if placed.doubt else "every click"
    remedy = f"Measure it again, and look whether {click} is on its corner."
    return [Finding(path, Severity.QUESTION, text, remedy)]


def _checked(entry: PhotoEntry, corners: Sequence[Corner], roof: Roof) -> Iterator[Seen]:
    spans = _spans(corners)
    for tested, found in _one_free(placing.bare(entry), tuple(corners)):
        own = np.zeros(model.STRETCHES)
        own[tested] = _taped(spans)[tested]
        for label, unit, of in _asked(tested, spans, roof):
            yield _seen(label, unit, of, found, own)


@lru_cache(maxsize=_KEPT)
def _one_free(entry: PhotoEntry, corners: tuple[Corner, ...]) -> tuple[tuple[int, Fit], ...]:
    """Return a fit with each size free in turn; kept, since window and findings ask for it."""
    start = placing.place(entry, corners).fit.unknowns
    by_name = {corner.name: corner for corner in corners}
    spans = _spans(corners)
    fits = []
    for tested in (ALONG, OUT, RISE):
        if spans[tested] < _NOTHING_MM:
            continue
        errors = _taped(spans)
        errors[tested] = FREE
        sight = placing.sight_of(entry, by_name, (errors[0], errors[1], errors[2], errors[3]))
        found = fitting.fit(sight, start=start)
        if found is not None and found.freedom >= 1:
            fits.append((tested, found))
    return tuple(fits)


def _taped(spans: Sequence[float]) -> list[float]:
    """Return how sharp every stretch is after a tape, as a share."""
    return [_TAPE_MM / max(span, _NOTHING_MM) for span in spans]


def _first_model(entry: PhotoEntry, corners: Sequence[Corner], roof: Roof) -> tuple[Seen, ...]:
    """Return all sizes by one known length; entered ones are the shape's, good for nothing."""
    by_name = {corner.name: corner for corner in corners}
    feet = any(click.corner.endswith(FOOT) for click in entry.clicks)
    errors = (FREE, FREE, FREE, FREE if feet else model.HELD)
    found = fitting.fit(placing.sight_of(entry, by_name, errors))
    if found is None or found.freedom < 0:
        raise ClicksError(
            "These clicks do not settle the shape of the roof. Click more of its corners, and feet "
            "of its walls."
        )
    spans = _spans(corners)
    asked = [one for which in (ALONG, OUT, RISE) for one in _asked(which, spans, roof)]
    if feet:
        asked.append(("Eaves height", "mm", lambda by: spans[EAVES] * float(by[EAVES])))
    return tuple(
        _seen(label, unit, of, found, np.full(model.STRETCHES, 1.0)) for label, unit, of in asked
    )


def _seen(
    label: str, unit: str, of: Callable[[Vector], float], found: Fit, entered_errors: Vector
) -> Seen:
    flat = np.ones(model.STRETCHES)
    slopes = [(of(flat + step) - of(flat)) / 1e-5 for step in np.eye(model.STRETCHES) * 1e-5]
    return Seen(
        label=label,
        unit=unit,
        entered=of(flat),
        entered_error=float(np.linalg.norm(np.array(slopes) * entered_errors)),
        seen=of(found.stretch),
        chance=found.chance,
        error=found.error_of(lambda unknowns: of(model.stretch_of(unknowns))),
    )


_Asked = tuple[str, str, Callable[[Vector], float]]


def _asked(which: int, spans: tuple[float, float, float, float], roof: Roof) -> Iterator[_Asked]:
    if which == ALONG:
        yield "Width", "mm", lambda by: spans[ALONG] * float(by[ALONG])
    elif which == OUT:
        yield "Projection", "mm", lambda by: spans[OUT] * float(by[OUT])
    else:
        yield (
            "Ridge above the floor",
            "mm",
            lambda by: spans[RISE] * float(by[RISE]) + spans[EAVES] * float(by[EAVES]),
        )
        for label, facet in _pitches(roof):
            yield label, "°", _pitch_of(facet)


def _pitches(roof: Roof) -> Iterator[tuple[str, Facet]]:
    """Yield a facet of every pitch, with the names of all that share it."""
    by_pitch: dict[float, list[Facet]] = {}
    for facet in roof.facets:
        by_pitch.setdefault(round(facet.pitch_deg, 1), []).append(facet)
    for facets in by_pitch.values():
        names = ", ".join(facet.name for facet in facets)
        yield f"Pitch of {names}", facets[0]


def _pitch_of(facet: Facet) -> Callable[[Vector], float]:
    x, y, z = facet.plane.normal

    def pitch(by: Vector) -> float:
        level = math.hypot(x / float(by[ALONG]), y / float(by[OUT]))
        return math.degrees(math.atan2(level, z / float(by[RISE])))

    return pitch


def _spans(corners: Sequence[Corner]) -> tuple[float, float, float, float]:
    """Return width, projection, rise and eaves height [mm]."""
    points = np.array([corner.at_mm for corner in corners], dtype=float)
    low, high = points.min(axis=0), points.max(axis=0)
    return float(high[0] - low[0]), float(high[1] - low[1]), float(high[2]), float(-low[2])
