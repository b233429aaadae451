"""Screws: by the rates of the trade, or counted post by post along everything they hold.

Rates: trade practice, from memory. Fence posts: a run of a length has ceil(length / spacing) + 1.
"""

import math
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from roofmodel.quantities import batten_rows
from roofmodel.quantities.driver import Driver, Place
from roofmodel.refit.entry import Counting
from roofmodel.refit.layer import Lie, Zone
from roofmodel.refit.refit import Refit

BATTEN_MM = 300.0
DECK_FIELD_MM, DECK_RIM_MM = 300.0, 150.0
LINING_MM = 230.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """What screws are counted from."""

    refit: Refit
    drivers: Mapping[str, Driver]
    tiles: int
    caps: int

    @property
    def by_posts(self) -> bool:
        """Whether they are counted post by post."""
        return self.refit.entry.counting is Counting.FENCE_POSTS


Found = tuple[float, str, Place]
Rule = Callable[[Job], Found]


def through_mm(refit: Refit) -> float:
    """Return what the lining's screws pass before they reach timber or a bar [mm].

    The boards from the room outwards, up to battens or the bars; skim and foil count too.
    """
    depth_mm = 0.0
    for layer in refit.layers:
        if layer.layer.zone is not Zone.ROOM or layer.layer.lie in (Lie.ACROSS, Lie.ALONG):
            break
        if layer.material.category != "finish":
            depth_mm += layer.thickness_mm
    return depth_mm


def posts(lengths_mm: Iterable[float], spacing_mm: float) -> int:
    """Return the screws of runs at a spacing, one at each end."""
    # A length that is a whole number of spacings must not gain a screw by the last bit of a float.
    return sum(math.ceil((length - 0.01) / spacing_mm) + 1 for length in lengths_mm)


def _by_rates(job: Job, rates: Mapping[str, float]) -> Found:
    place = Place()
    for name in rates:
        place += job.drivers[name].place
    value = sum(rate * job.drivers[name].value for name, rate in rates.items())
    words = " + ".join(f"{rate:g} × {job.drivers[name].printed}" for name, rate in rates.items())
    return value, words, place


def _bar(job: Job) -> Found:
    """Battens under the bars at 300 mm, and the deck to the bars."""
    if not job.by_posts:
        # 3.3 a metre is one every 300 mm for the battens; 12 a square metre is the deck.
        return _by_rates(job, {"bar_m": 3.3, "level_rim_m": 3.3, "outer_m2": 12.0})
    runs = [run.length_mm for run in batten_rows.along(job.refit)]
    battens, (deck, words, place) = posts(runs, BATTEN_MM), _deck_posts(job)
    text = f"battens {battens}, one every {BATTEN_MM:g} mm of {len(runs)} runs + {words}"
    return battens + deck, text, place


def _deck(job: Job) -> Found:
    return _deck_posts(job) if job.by_posts else _by_rates(job, {"outer_m2": 11.5})


def _deck_posts(job: Job) -> Found:
    """Return the deck's screws: 300 mm along every bar, 150 mm along the rim."""
    bars = [length for _, length in job.refit.members.sloping_mm]
    rim = [
        line.length_mm
        for i, line in enumerate(job.refit.site.roof.lines)
        if i in job.drivers["perimeter_m"].place.lines
    ]
    screws = posts(bars, DECK_FIELD_MM) + posts(rim, DECK_RIM_MM)
    words = f"deck {screws}, every {DECK_FIELD_MM:g} mm of bars and {DECK_RIM_MM:g} mm of the rim"
    return screws, words, job.drivers["bar_m"].place + job.drivers["perimeter_m"].place


def _counter_battens(job: Job) -> Found:
    """Two at every crossing with a bar."""
    if not job.by_posts:
        return _by_rates(job, {"inner_m2": 7.5})
    rows = [
        run
        for layer in job.refit.layers
        if layer.layer.lie is Lie.ACROSS
        for run in batten_rows.across(job.refit, layer)
    ]
    # A row may be joined only on a bar, so its joint places are the bars between its two ends.
    crossings = sum(len(run.joints_mm) + 2 for run in rows)
    return 2 * crossings, f"2 × {crossings} crossings of rows and bars", Place()


def _lining(job: Job) -> Found:
    if not job.by_posts:
        return _by_rates(job, {"inner_m2": 15.0})
    rows = [
        run.length_mm
        for layer in job.refit.layers
        if layer.layer.lie is Lie.ACROSS
        for run in batten_rows.across(job.refit, layer)
        # Without counter-battens the lining is screwed to the rafters themselves.
    ] or [length for _, length in job.refit.members.sloping_mm]
    screws = posts(rows, LINING_MM)
    return screws, f"every {LINING_MM:g} mm of {len(rows)} battens or rafters", Place()


def _tile(job: Job) -> Found:
    words = f"2 × {job.tiles} tiles + 2 × {job.caps} caps"
    return 2.0 * (job.tiles + job.caps), words, Place(facets=job.refit.facets)


RULES: Mapping[str, Rule] = {
    "bar screws": _bar,
    "counter-batten screws": _counter_battens,
    "deck screws": _deck,
    "lining screws": _lining,
    "tile screws": _tile,
}
