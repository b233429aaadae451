"""Planes with whole-number coefficients: where they meet is decided without any rounding.

A level ``t`` that rises through a plane cuts it in a line; ``a·x + b·y + e·t − f ≥ 0`` is the
roof's inside at that level. ``e`` is 0 for an upright plane, whose line stands still. Lengths are
whole nanometres, slopes whole multiples of 1/`SLOPE`.
"""

import math
from dataclasses import dataclass
from typing import NamedTuple

SLOPE = 1 << 60
"""Whole-number value of a slope of 1."""

NANOMETRES = 1_000_000
"""Nanometres in a millimetre."""


class ExactPlane(NamedTuple):
    """``a·x + b·y + e·t = f`` in whole numbers; x, y and t in nanometres."""

    a: int
    b: int
    e: int
    f: int


@dataclass(frozen=True, slots=True)
class Corner:
    """The point (x, y, t) / w in nanometres, in whole numbers with w > 0; ``level`` is t / w."""

    x: int
    y: int
    t: int
    w: int
    level: float

    def side_of(self, plane: ExactPlane) -> int:
        """Return a number with the sign of the point's side of a plane, exactly."""
        return plane.a * self.x + plane.b * self.y + plane.e * self.t - plane.f * self.w

    def below(self, other: "Corner") -> bool:
        """Return whether this corner lies lower than another, exactly."""
        return self.t * other.w < other.t * self.w

    def in_mm(self) -> tuple[float, float, float]:
        """Return the point rounded to floats [mm]."""
        scale = self.w * NANOMETRES
        return (self.x / scale, self.y / scale, self.t / scale)


def level_plane(level_nm: int) -> ExactPlane:
    """Return the horizontal plane at a level [nm]."""
    return ExactPlane(0, 0, 1, level_nm)


def common_corner(p: ExactPlane, q: ExactPlane, r: ExactPlane) -> Corner | None:
    """Return the one point on three planes (Cramer's rule), or None where there is not just one."""
    ab = q.a * r.b - q.b * r.a
    ae = q.a * r.e - q.e * r.a
    be = q.b * r.e - q.e * r.b
    w = p.a * be - p.b * ae + p.e * ab
    if w == 0:
        return None
    af = q.a * r.f - q.f * r.a
    bf = q.b * r.f - q.f * r.b
    ef = q.e * r.f - q.f * r.e
    x = p.f * be + p.b * ef - p.e * bf
    y = p.e * af - p.a * ef - p.f * ae
    t = p.a * bf - p.b * af + p.f * ab
    if w < 0:
        x, y, t, w = -x, -y, -t, -w
    return Corner(x, y, t, w, t / w)


def turns_left(p: ExactPlane, q: ExactPlane) -> int:
    """Return a number that is positive where the outline turns left from p's line to q's.

    Zero for parallel lines; both lines run with their inside on the left.
    """
    return p.a * q.b - p.b * q.a


def slope_vector(along: tuple[int, int], pitch_deg: float | None) -> tuple[int, int]:
    """Return (a, b) of a plane over an edge: the inward unit normal times the slope.

    Parameters
    ----------
    along
        Whole-number direction of the edge, its inside on the left.
    pitch_deg
        Pitch [°]; None for an upright plane, which gets the unit normal itself.
    """
    length = math.hypot(*along)
    slope = 1.0 if pitch_deg is None else math.tan(math.radians(pitch_deg))
    return (
        round(-along[1] / length * slope * SLOPE),
        round(along[0] / length * slope * SLOPE),
    )
