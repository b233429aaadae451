"""What can be done about a slope that is too flat, each way tried against sill and flashing."""

import math
from dataclasses import dataclass

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.refit.depth import UPSTAND_MM

OTHER_PITCHES_DEG = (20.0, 25.0)
"""Pitches another shape is tried at, besides the covering's least (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FlatSlope:
    """A slope and what stands above it; heights are above the floor, runs level [mm].

    ``sill_height_mm`` is the underside of the sill or tray above the wall plate, None where
    nobody has read one. ``stack_mm`` is what the build-up adds above the plate, plumb.
    """

    eaves_height_mm: float
    rise_mm: float
    run_mm: float
    least_deg: float
    panel_least_deg: float | None
    at_wall: bool = True
    sill_height_mm: float | None = None
    stack_mm: float = 0.0

    def __post_init__(self) -> None:
        """Refuse a slope without a run."""
        if not self.run_mm > 0.0:
            text = f"A run of {self.run_mm:g} mm makes no slope."
            raise DimensionError([Fault("run_mm", text, "Enter the level run in mm.")])

    @property
    def pitch_deg(self) -> float:
        """Pitch as it stands [°]."""
        return math.degrees(math.atan2(self.rise_mm, self.run_mm))

    @property
    def top(self) -> str:
        """What the slope rises to."""
        return "wall plate" if self.at_wall else "ridge"

    def height_at_mm(self, pitch_deg: float) -> float:
        """Return how high the top would have to be for a pitch [mm]."""
        return self.eaves_height_mm + self.run_mm * math.tan(math.radians(pitch_deg))

    @property
    def highest_top_mm(self) -> float | None:
        """Highest plate under which build-up and flashing still fit the sill; None if unknown."""
        if self.sill_height_mm is None or not self.at_wall:
            return None
        return self.sill_height_mm - self.stack_mm - UPSTAND_MM


@dataclass(frozen=True, slots=True, kw_only=True)
class Remedy:
    """One way out; ``offered`` is None where a reading is missing to say.

    ``figure_mm`` is what the way comes to: a height above the floor, or a run.
    """

    name: str
    offered: bool | None
    figure_mm: float | None
    text: str

    @property
    def verdict(self) -> str:
        """What is printed beside it."""
        return {True: "offered", False: "refused", None: "to be judged"}[self.offered]


def remedies(slope: FlatSlope) -> tuple[Remedy, ...]:
    """Return every way out: raise the top, shorten the run, another shape, other panels."""
    ways = [raise_top(slope), shorten_run(slope)]
    if slope.at_wall:
        pitches = sorted({slope.least_deg, *OTHER_PITCHES_DEG})
        ways += [other_shape(slope, p) for p in pitches if p >= slope.least_deg]
    return (*ways, swap_panels(slope))


def raise_top(slope: FlatSlope) -> Remedy:
    """Return what raising the wall plate, or the ridge, to the least pitch comes to."""
    height_mm = slope.height_at_mm(slope.least_deg)
    text = (
        f"to {height_mm:.0f} mm above the floor ({slope.eaves_height_mm:.0f} + "
        f"{slope.run_mm:.0f} × tan {slope.least_deg:g}°)"
    )
    name = f"raise the {slope.top}"
    if not slope.at_wall:
        more = "it is clear of the wall; check whether the house roof or a window is in the way"
        return Remedy(name=name, offered=None, figure_mm=height_mm, text=f"{text}; {more}")
    if slope.sill_height_mm is None or slope.highest_top_mm is None:
        text += "; the sill above has not been measured, so whether it fits is not known"
        return Remedy(name=name, offered=None, figure_mm=height_mm, text=text)
    over_mm = height_mm - slope.sill_height_mm
    if over_mm > 0.0:
        text += (
            f", {over_mm:.0f} above the sill at {slope.sill_height_mm:.0f}, before "
            f"{UPSTAND_MM:g} mm of flashing"
        )
        return Remedy(name=name, offered=False, figure_mm=height_mm, text=text)
    short_mm = height_mm - slope.highest_top_mm
    if short_mm > 0.0:
        text += (
            f", {-over_mm:.0f} below the sill, which leaves {short_mm:.0f} too little for the "
            f"build-up and {UPSTAND_MM:g} mm of flashing"
        )
        return Remedy(name=name, offered=False, figure_mm=height_mm, text=text)
    text += f", with {-short_mm:.0f} to spare below the sill and its {UPSTAND_MM:g} mm of flashing"
    return Remedy(name=name, offered=True, figure_mm=height_mm, text=text)


def shorten_run(slope: FlatSlope) -> Remedy:
    """Return the longest run that gives the least pitch, the flashing kept below the sill."""
    slope_tangent = math.tan(math.radians(slope.least_deg))
    run_mm = slope.rise_mm / slope_tangent
    text = f"to {run_mm:.0f} mm at the present rise of {slope.rise_mm:.0f} mm"
    name = "shorten the run"
    most_mm = slope.highest_top_mm
    top_mm = slope.eaves_height_mm + slope.rise_mm
    if slope.at_wall and most_mm is None:
        text += (
            "; the sill above has not been measured, so whether the flashing fits below it "
            "is not known"
        )
        return Remedy(name=name, offered=None, figure_mm=run_mm, text=text)
    if most_mm is None or top_mm <= most_mm:
        return Remedy(name=name, offered=True, figure_mm=run_mm, text=text)
    lower_mm = max(0.0, most_mm - slope.eaves_height_mm) / slope_tangent
    text += (
        f", but a plate at {top_mm:.0f} leaves the flashing {top_mm - most_mm:.0f} mm short of "
        f"room below the sill; with the plate at {most_mm:.0f} the run is at most {lower_mm:.0f}"
    )
    return Remedy(name=name, offered=False, figure_mm=run_mm, text=text)


def other_shape(slope: FlatSlope, pitch_deg: float) -> Remedy:
    """Return a ridge parallel to the wall, midway, with a box gutter at the wall, at a pitch."""
    half_mm = slope.run_mm / 2.0
    height_mm = slope.eaves_height_mm + half_mm * math.tan(math.radians(pitch_deg))
    name = f"ridge parallel to the wall with a box gutter, {pitch_deg:g}°"
    text = f"ridge at {height_mm:.0f} mm, {half_mm:.0f} out from the wall"
    sill_mm = slope.sill_height_mm
    if sill_mm is None:
        text += "; the sill above has not been measured"
        return Remedy(name=name, offered=None, figure_mm=height_mm, text=text)
    if slope.eaves_height_mm + UPSTAND_MM > sill_mm:
        text += (
            "; there is no room for the flashing above the box gutter below the sill at "
            f"{sill_mm:.0f}"
        )
        return Remedy(name=name, offered=False, figure_mm=height_mm, text=text)
    if height_mm < sill_mm:
        text += f", below the sill at {sill_mm:.0f}"
        return Remedy(name=name, offered=True, figure_mm=height_mm, text=text)
    text += (
        f", {height_mm - sill_mm:.0f} above the sill at {sill_mm:.0f}: not possible where it "
        "meets the wall, so the designer must judge it"
    )
    return Remedy(name=name, offered=None, figure_mm=height_mm, text=text)


def swap_panels(slope: FlatSlope) -> Remedy:
    """Return whether glazing panels may lie at the pitch as it stands."""
    if slope.panel_least_deg is None:
        text = "the minimum pitch of the panels is not known; it does not solve the heat loss"
        return Remedy(name="swap the panels", offered=None, figure_mm=None, text=text)
    offered = slope.pitch_deg >= slope.panel_least_deg
    text = (
        f"panels lie from {slope.panel_least_deg:g}° up (common practice, no source) and this "
        f"slope has {slope.pitch_deg:.2f}°; it does not solve the heat loss"
    )
    return Remedy(name="swap the panels", offered=offered, figure_mm=None, text=text)
