"""How far the corners of a plan lie from the regular plan nearest to it, and that drawn larger."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from roofmodel.desktop.kit.flat_canvas import Flat

TIMES = 10.0
"""How many times as large deviations are drawn."""

_MEANT_SQUARE_DEG = 8.0
"""A corner farther from a right angle is taken to be meant so (common practice, no source)."""

_TOLD_MM = 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Deviation:
    """One corner, where it would be on the regular plan, and how far it is from there [mm]."""

    name: str
    regular: Flat
    off: Flat

    def drawn(self, times: float = TIMES) -> Flat:
        """Return where the corner is drawn with its deviation so many times as large."""
        return (self.regular[0] + times * self.off[0], self.regular[1] + times * self.off[1])

    @property
    def text(self) -> str:
        """The true deviation in words; left and right as seen from the garden."""
        parts = [
            f"{abs(mm):.0f} {more if mm > 0.0 else less}"
            for mm, more, less in (
                (self.off[0], "left", "right"),
                (self.off[1], "out", "in"),
            )
            if abs(mm) >= _TOLD_MM
        ]
        return f"{self.name}: {', '.join(parts) or '0'}"


def why_not(corners: Sequence[Flat]) -> str:
    """Return why there is no regular plan to compare with; empty if there is one."""
    if len(corners) != 4:
        return (
            f"Out of square is only shown for plans with four corners; this one has {len(corners)}."
        )
    for i in range(4):
        if abs(_angle_deg(corners[i - 1], corners[i], corners[(i + 1) % 4]) - 90.0) > (
            _MEANT_SQUARE_DEG
        ):
            return (
                "The sides of this plan are not meant to be square, so there is nothing to compare."
            )
    return ""


def deviations(corners: Sequence[Flat], names: Sequence[str]) -> tuple[Deviation, ...]:
    """Return how far each corner lies from the rectangle of mean width and mean projection.

    Parameters
    ----------
    corners
        Four corners, clockwise seen from above, from the left end of the house wall [mm].
    names
        What the corners are called.
    """
    (ax, ay), (bx, by) = corners[:2]
    wall = math.hypot(bx - ax, by - ay)
    along = ((bx - ax) / wall, (by - ay) / wall)
    out = (along[1], -along[0]) if _leads_out(corners, along) else (-along[1], along[0])
    flat = [(x * along[0] + y * along[1], x * out[0] + y * out[1]) for x, y in corners]
    left, right = (flat[0][0] + flat[3][0]) / 2.0, (flat[1][0] + flat[2][0]) / 2.0
    near, far = (flat[0][1] + flat[1][1]) / 2.0, (flat[2][1] + flat[3][1]) / 2.0
    regular = [
        (u * along[0] + v * out[0], u * along[1] + v * out[1])
        for u, v in ((left, near), (right, near), (right, far), (left, far))
    ]
    return tuple(
        Deviation(name=name, regular=square, off=(x - square[0], y - square[1]))
        for name, square, (x, y) in zip(names, regular, corners, strict=True)
    )


def _leads_out(corners: Sequence[Flat], along: Flat) -> bool:
    """Return whether the wall turned by a right angle clockwise leads to the other side."""
    away = (corners[2][0] - corners[1][0], corners[2][1] - corners[1][1])
    return along[1] * away[0] - along[0] * away[1] > 0.0


def _angle_deg(before: Flat, at: Flat, after: Flat) -> float:
    one = math.atan2(before[1] - at[1], before[0] - at[0])
    other = math.atan2(after[1] - at[1], after[0] - at[0])
    turn = abs(math.degrees(one - other)) % 360.0
    return min(turn, 360.0 - turn)
