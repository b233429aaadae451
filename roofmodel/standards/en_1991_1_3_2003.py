"""EN 1991-1-3:2003, snow loads on roofs, with the UK ground formula of NA.2.8.

Loads lie on plan, not on the slope. Nobody of us has read the document itself; every clause says
what its values were checked against. The UK formula takes (A - 100): prints of the national annex
before June 2007 carry the sign wrong.
"""

import math
from dataclasses import dataclass

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.foundation.source import Source

DOCUMENT = "EN 1991-1-3:2003"

GROUND_UK = Source(
    "UK National Annex to EN 1991-1-3, with its correction", "NA.2.8, NA.1", verified=False
)
SHAPE = Source(DOCUMENT, "5.3, Table 5.2", verified=False)
DRIFTED_UK = Source(
    "UK National Annex to EN 1991-1-3, as a public program has it", "NA.2.17", verified=False
)
TALLER = Source(DOCUMENT, "5.3.6", verified=False)
EXCEPTIONAL = Source(DOCUMENT, "Annex B.3", verified=False)
PARAPET = Source(DOCUMENT, "Annex B.4", verified=False)
VALLEY = Source(f"{DOCUMENT}, from memory", "5.3.4 and Annex B.2", verified=False)
DENSITY = Source(DOCUMENT, "Annex E", verified=False)

DENSITY_KN_M3 = 2.0
"""Settled snow in a drift, γ."""

EXPOSURE = 1.0
"""Ce; the UK takes 1.0 everywhere (from memory)."""

THERMAL = 1.0
"""Ct."""

MOST_BLOWN, LEAST_BLOWN = 4.0, 0.8
"""5.3.6: bounds of the coefficient of what the wind carries."""

MOST_EXCEPTIONAL = 5.0
"""Annex B.3: greatest coefficient."""

HIGHEST_M = 1_500.0
"""No altitude above this is taken; the formula is not meant for it."""


def ground_uk_kn_m2(zone: int, altitude_m: float) -> float:
    """Return the snow on the ground, sk = 0.15 + (0.1 Z + 0.05) + (A - 100) / 525 [kN/m²].

    Raises
    ------
    DimensionError
        If there is no such zone, or the altitude is out of range.

    Examples
    --------
    >>> round(ground_uk_kn_m2(3, 100.0), 4)
    0.5
    """
    faults = []
    if zone not in range(1, 6):
        text = f"There is no snow zone {zone}."
        faults.append(Fault("snow_zone", text, "Enter 1 to 5, from the map in the national annex."))
    if not 0.0 <= altitude_m <= HIGHEST_M:
        text = f"An altitude of {altitude_m:g} m is out of range."
        faults.append(Fault("altitude_m", text, f"Enter 0 to {HIGHEST_M:g} m above sea level."))
    if faults:
        raise DimensionError(faults)
    return 0.15 + (0.1 * zone + 0.05) + (altitude_m - 100.0) / 525.0


def shape_coefficient(pitch_deg: float, *, held: bool = False) -> float:
    """Return μ1 of a slope; ``held`` where guards or a parapet keep the snow from sliding."""
    if held:
        return 0.8
    return 0.8 * min(1.0, max(0.0, (60.0 - pitch_deg) / 30.0))


def drifted_uk(pitch_deg: float) -> float:
    """Return μ of the loaded side of a duo-pitch roof with drifted snow."""
    if pitch_deg <= 15.0:
        return 0.8
    if pitch_deg <= 30.0:
        return 0.8 + 0.4 * (pitch_deg - 15.0) / 15.0
    return max(0.0, 1.2 * (60.0 - pitch_deg) / 30.0)


def on_roof_kn_m2(coefficient: float, ground_kn_m2: float) -> float:
    """Return the snow on a roof, s = μ Ce Ct sk [kN/m² on plan]."""
    return coefficient * EXPOSURE * THERMAL * ground_kn_m2


@dataclass(frozen=True, slots=True, kw_only=True)
class Drift:
    """A drift against something taller: coefficient at the wall, and how far it reaches [m].

    ``sliding`` is what slips off the upper roof, ``blown`` what the wind carries there.
    """

    blown: float
    sliding: float
    length_m: float

    @property
    def coefficient(self) -> float:
        """Coefficient at the wall."""
        return self.blown + self.sliding


def drift_at_taller(
    *,
    height_m: float,
    lower_m: float,
    ground_kn_m2: float,
    upper_m: float | None = None,
    upper_pitch_deg: float = 0.0,
) -> Drift:
    """Return the drift on a roof that abuts a taller building, 5.3.6.

    Parameters
    ----------
    height_m
        From this roof up to the eaves of the upper one, h.
    lower_m
        Width of this roof away from the wall, b2.
    ground_kn_m2
        Snow on the ground.
    upper_m
        Width of the upper roof, b1; where it is not known only γ h / sk limits what is blown.
    upper_pitch_deg
        Pitch of the upper roof: nothing slides off it up to 15°; above, half of its whole load
        does, spread over the length of the drift in a triangle.
    """
    _refuse_nothing(height_m=height_m, lower_m=lower_m, ground_kn_m2=ground_kn_m2)
    by_density = DENSITY_KN_M3 * height_m / ground_kn_m2
    by_width = math.inf if upper_m is None else (upper_m + lower_m) / (2.0 * height_m)
    length_m = min(15.0, max(5.0, 2.0 * height_m))
    return Drift(
        blown=min(MOST_BLOWN, max(LEAST_BLOWN, min(by_density, by_width))),
        sliding=_sliding(upper_m, upper_pitch_deg, length_m),
        length_m=length_m,
    )


SLIDING_WIDTH_M = 5.0
"""Half of the upper roof whose snow may slide, where its width is not known (no source)."""


def _sliding(upper_m: float | None, pitch_deg: float, length_m: float) -> float:
    if pitch_deg <= 15.0:
        return 0.0
    # Half of the greatest load on the slope above, as a triangle: its peak is twice the mean.
    slope_m = upper_m / 2.0 if upper_m is not None else SLIDING_WIDTH_M
    return 0.5 * shape_coefficient(pitch_deg) * slope_m * 2.0 / length_m


def exceptional_width_limit(length_m: float, *widths_m: float) -> float:
    """Return the greatest exceptional coefficient the snow of some widths can feed, 2 b / ls.

    Examples
    --------
    >>> exceptional_width_limit(2.0, 2.0, 75.0)
    75.0
    """
    return 2.0 * max(widths_m) / length_m


def exceptional_readings_at_taller(
    *, height_m: float, lower_m: float, ground_kn_m2: float, upper_m: float | None = None
) -> tuple[Drift, Drift]:
    """Return the exceptional drift against a taller structure by two readings of Annex B.3.

    Both take the least of 2 h / sk, 2 b / ls with the larger width b, and 5. The first limits the
    length ls by the width of the roof the drift lies on, as the published test L-08 does, the
    second by the larger of both widths, as a copy of the clause can be read. Nobody of us has the
    document, so whoever prints one prints both. Reliefs for steep slopes are not taken.
    """
    _refuse_nothing(height_m=height_m, lower_m=lower_m, ground_kn_m2=ground_kn_m2)
    widest_m = lower_m if upper_m is None else max(lower_m, upper_m)

    def drift(width_m: float) -> Drift:
        length_m = min(5.0 * height_m, width_m, 15.0)
        by_width = math.inf if upper_m is None else exceptional_width_limit(length_m, widest_m)
        blown = min(2.0 * height_m / ground_kn_m2, by_width, MOST_EXCEPTIONAL)
        return Drift(blown=blown, sliding=0.0, length_m=length_m)

    return drift(lower_m), drift(widest_m)


def exceptional_at_taller(
    *, height_m: float, lower_m: float, ground_kn_m2: float, upper_m: float | None = None
) -> Drift:
    """Return the larger exceptional drift of both readings: the greater load, the longer reach."""
    readings = exceptional_readings_at_taller(
        height_m=height_m, lower_m=lower_m, ground_kn_m2=ground_kn_m2, upper_m=upper_m
    )
    return Drift(
        blown=max(one.blown for one in readings),
        sliding=0.0,
        length_m=max(one.length_m for one in readings),
    )


def exceptional_at_parapet(
    *, height_m: float, length_roof_m: float, width_m: float, ground_kn_m2: float
) -> Drift:
    """Return the exceptional drift behind a parapet, Annex B.4.

    ``length_roof_m`` is b1, which limits the drift's length; ``width_m`` is b2. The larger of both
    feeds it: so both rows of the published example come out (L-06, L-07).
    """
    _refuse_nothing(height_m=height_m, width_m=width_m, ground_kn_m2=ground_kn_m2)
    length_m = min(5.0 * height_m, length_roof_m, 15.0)
    by_width = exceptional_width_limit(length_m, length_roof_m, width_m)
    blown = min(2.0 * height_m / ground_kn_m2, by_width, 8.0)
    return Drift(blown=blown, sliding=0.0, length_m=length_m)


def drifted_in_valley(*pitches_deg: float) -> float:
    """Return μ2 of drifted snow in a valley by 5.3.4: 0.8 + 0.8 a / 30, a the mean pitch [°].

    Examples
    --------
    >>> drifted_in_valley(15.0, 30.0), drifted_in_valley(40.0, 40.0)
    (1.4, 1.6)
    """
    return min(1.6, 0.8 + 0.8 * sum(pitches_deg) / len(pitches_deg) / 30.0)


def exceptional_in_valley(*, depth_m: float, ground_kn_m2: float) -> float:
    """Return μ1 of the exceptional drift in a valley, Annex B.2: the lesser of 2 h / sk and 5.

    ``depth_m`` is the height of the lower ridge above the foot of the valley, h. The limit by the
    widths of the slopes is left out, because nobody of us has read it; that gives more, not less.
    """
    _refuse_nothing(depth_m=depth_m, ground_kn_m2=ground_kn_m2)
    return min(2.0 * depth_m / ground_kn_m2, MOST_EXCEPTIONAL)


def _refuse_nothing(**values: float) -> None:
    """Raise a `DimensionError` for every value that is not above 0."""
    faults = [
        Fault(name, f"{name} of {value:g} makes no drift.", "Enter more than 0.")
        for name, value in values.items()
        if not 0.0 < value < math.inf
    ]
    if faults:
        raise DimensionError(faults)
