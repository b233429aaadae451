"""The cuts of a bar or rafter: side cuts, plumb and level cuts, and what the next member takes.

A member's theoretical length runs from line to line of the roof. What it is cut to is shorter: a
common rafter loses half the ridge's thickness, a jack half the hip's, both measured level and
square to the line it meets. A jack meets a hip whose run makes the plan angle D with the eaves at
90° − D, so level along the jack the hip takes (thickness / 2) / cos D: 1.414 of the half at a
square corner, 2.613 at an octagon's. Along the slope that is divided by cos(pitch).
"""

import math
from dataclasses import dataclass
from typing import Literal

from roofmodel.foundation.errors import Fault
from roofmodel.foundation.source import Source
from roofmodel.geometry.joint import jack_side_cut_deg
from roofmodel.shapes import limit
from roofmodel.shapes.flat_edge import FlatEdge, Spot
from roofmodel.shapes.roof import LineKind

SHORTENING_SOURCE = Source(
    "NAVEDTRA 14044",
    "ridge layout: half the ridge's thickness for a common rafter, half the 45° thickness of the "
    "hip for a jack; other corners by arithmetic",
    verified=True,
)
HIP_SHORTENING_SOURCE = Source("common practice, no source", "", verified=False)

Side = Literal["left", "right", "none"]

_LEAST_SINE = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class BarWidths:
    """Widths of the bars, seen from above for rafters and on the glazing for bars [mm].

    ``starter_mm`` stands up a verge or along a house wall; 0 where there is none. ``plate_mm`` is
    the thickness of a wall plate that a level wall line is the face of. ``from_above`` says that
    hips, valleys and ridges, too, are measured level, as new timbers are.
    """

    rafter_mm: float
    hip_mm: float
    valley_mm: float
    ridge_mm: float
    starter_mm: float
    plate_mm: float = 0.0
    from_above: bool = False

    def __post_init__(self) -> None:
        """Refuse widths no bar has."""
        faults: list[Fault] = []
        for name in ("rafter_mm", "hip_mm", "valley_mm", "ridge_mm", "starter_mm", "plate_mm"):
            width_mm = getattr(self, name)
            least = 1.0 if name == "rafter_mm" else 0.0
            if not least <= width_mm <= 500.0:
                text = f"A width of {width_mm:g} mm is not possible for a bar."
                remedy = f"Measure across the bar and enter {least:g} to 500 mm."
                faults.append(Fault(name, text, remedy))
        limit.refuse_outside(faults)

    @classmethod
    def alike(cls, width_mm: float) -> "BarWidths":
        """Return the widths of a roof whose bars are all equally wide, without a wall plate."""
        return cls(
            rafter_mm=width_mm,
            hip_mm=width_mm,
            valley_mm=width_mm,
            ridge_mm=width_mm,
            starter_mm=width_mm,
        )

    @property
    def all_mm(self) -> tuple[float, ...]:
        """Every bar's width, the wall plate not among them [mm]."""
        return (self.rafter_mm, self.hip_mm, self.valley_mm, self.ridge_mm, self.starter_mm)

    def half_mm(self, edge: FlatEdge) -> float:
        """Return how far the member along a side of a facet reaches in from its line [mm]."""
        if edge.is_plate_line:
            return self.plate_mm
        if edge.is_starter_line:
            return self.starter_mm / 2.0
        shared_mm = {
            LineKind.HIP: self.hip_mm,
            LineKind.VALLEY: self.valley_mm,
            LineKind.RIDGE: self.ridge_mm,
        }
        return shared_mm.get(edge.kind, 0.0) / 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class SideCut:
    """How a bar's end is cut against one line of the roof.

    ``on_face_deg`` is the angle on the facet between the bar's length and the cut: 90 is square
    across. ``blade_deg`` is how far a saw that follows the plumb line leans off square. ``short``
    is the side of the bar, looking up the slope, on which the cut makes it shorter.
    """

    meets: LineKind
    on_face_deg: float
    blade_deg: float
    short: Side


def side_cut(edge: FlatEdge, pitch_deg: float, *, at_head: bool) -> SideCut:
    """Return the cut of a bar that runs straight up the slope and ends on a side of its facet."""
    plan_deg = plan_angle_deg(edge, pitch_deg)
    fall = (edge.end[1] - edge.start[1]) * (edge.end[0] - edge.start[0])
    short: Side = "none"
    if plan_deg > 1e-6:
        # Where the side rises to the right, a head is cut away at the left, a foot at the right.
        short = "left" if (fall > 0.0) == at_head else "right"
    return SideCut(
        meets=edge.kind,
        on_face_deg=jack_side_cut_deg(pitch_deg, plan_deg),
        blade_deg=plan_deg,
        short=short,
    )


def plan_angle_deg(edge: FlatEdge, pitch_deg: float) -> float:
    """Return the plan angle between a facet's eaves and one of its sides [°], 0 to 90."""
    across = abs(edge.end[0] - edge.start[0])
    run = abs(edge.end[1] - edge.start[1]) * math.cos(math.radians(pitch_deg))
    return math.degrees(math.atan2(run, across))


def level_distance_mm(edge: FlatEdge, spot: Spot, pitch_deg: float) -> float:
    """Return how far a spot of a facet lies, level, from the line of one of its sides [mm]."""
    level = math.cos(math.radians(pitch_deg))
    across, run = edge.end[0] - edge.start[0], (edge.end[1] - edge.start[1]) * level
    u, v = spot[0] - edge.start[0], (spot[1] - edge.start[1]) * level
    return abs(across * v - run * u) / math.hypot(across, run)


def shortening_mm(half_mm: float, plan_deg: float, pitch_deg: float) -> float:
    """Return what a member takes off a bar, along the slope [mm].

    Parameters
    ----------
    half_mm
        How far the member reaches from its line, level and square to it [mm].
    plan_deg
        Plan angle between the eaves and the member [°].
    pitch_deg
        Pitch of the facet [°].
    """
    if half_mm == 0.0:
        return 0.0
    level = max(abs(math.cos(math.radians(plan_deg))), _LEAST_SINE)
    return half_mm / level / math.cos(math.radians(pitch_deg))


def member_side_cut_deg(pitch_deg: float, plan_turn_deg: float) -> float:
    """Return the angle on a member's top face between its length and an upright cut [°].

    Parameters
    ----------
    pitch_deg
        The member's own pitch: for a hip, the hip's [°].
    plan_turn_deg
        Plan angle between the member's run and the face it is cut to [°].
    """
    turn = math.radians(plan_turn_deg)
    across = math.sin(turn) * math.cos(math.radians(pitch_deg))
    return math.degrees(math.atan2(across, math.cos(turn)))
