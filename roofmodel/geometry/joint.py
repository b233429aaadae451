"""The line in which two sloping planes meet, and the angles a carpenter cuts along it."""

import math
from dataclasses import dataclass

import numpy as np

from roofmodel.foundation.errors import GeometryError
from roofmodel.geometry import plane
from roofmodel.geometry.plane import Plane, Vector

_LEVEL = 1e-9
"""Rise of a unit direction below which a joint counts as level, a ridge."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """Angles of a hip, ridge or valley between planes a and b, each pair in the order (a, b).

    ``pitch_deg`` is the joint's own pitch. ``plan_angles_deg`` lie in plan between the eaves of
    each plane and the joint: from the eaves running away from a hip's foot, from the eaves run on
    past a valley's foot. They pass 90° where unequal pitches meet on a blunt corner.
    ``backings_deg`` are the bevels a hip member gets on its top, each side; negative in that same
    case. ``dihedral_deg`` is measured inside the roof, ``bevel_deg`` is half the angle between the
    normals: what a board's edge is cut to for a mitred joint.
    """

    pitch_deg: float
    plan_angles_deg: tuple[float, float]
    backings_deg: tuple[float, float]
    dihedral_deg: float
    bevel_deg: float


def joint(a: Plane, b: Plane, *, valley: bool) -> Joint:
    """Return the angles along the line in which two upward-facing planes meet.

    Parameters
    ----------
    a, b : Plane
        Sloping planes whose normals point up.
    valley
        True when water runs into the joint, false at a hip or ridge.

    Raises
    ------
    GeometryError
        If the planes are parallel.
    """
    along = _upward(a, b)
    turn = plane.angle_between_deg(a, b)
    sides = _side(a, b, along, valley=valley), _side(b, a, along, valley=valley)
    return Joint(
        pitch_deg=math.degrees(math.atan2(abs(along[2]), math.hypot(along[0], along[1]))),
        plan_angles_deg=(
            _plan_angle_deg(a, along, sides[0], valley=valley),
            _plan_angle_deg(b, along, sides[1], valley=valley),
        ),
        backings_deg=(
            _backing_deg(a, along, sides[0], valley=valley),
            _backing_deg(b, along, sides[1], valley=valley),
        ),
        dihedral_deg=180.0 + turn if valley else 180.0 - turn,
        bevel_deg=turn / 2.0,
    )


def jack_side_cut_deg(pitch_deg: float, plan_angle_deg: float) -> float:
    """Return the angle, on the facet, between a jack's length and its cut along the hip [°].

    Negative where the plan angle passes 90°: atan2 instead of a division, so that the blunt corner
    of unequal pitches comes out right.
    """
    plan = math.radians(plan_angle_deg)
    across = math.cos(math.radians(pitch_deg)) * math.cos(plan)
    return math.degrees(math.atan2(across, math.sin(plan)))


def _upward(a: Plane, b: Plane) -> Vector:
    """Return the unit direction of the joint, up the slope."""
    cross = np.cross(a.normal, b.normal)
    length = float(np.linalg.norm(cross))
    if length < 1e-12:
        raise GeometryError("Two facets of one plane, or parallel ones, have no line in common.")
    direction = cross / length
    return np.asarray(-direction if direction[2] < 0 else direction, dtype=float)


def _side(own: Plane, other: Plane, along: Vector, *, valley: bool) -> Vector:
    """Return the level unit vector square to the joint that points to a plane's own side.

    Beside a hip the lower of the two planes is the roof, beside a valley the higher.
    """
    across = np.array([-along[1], along[0], 0.0])
    across = across / np.linalg.norm(across)
    own_is_lower = _rise(own, across) < _rise(other, across)
    return np.asarray(across if own_is_lower != valley else -across, dtype=float)


def _rise(of: Plane, level: Vector) -> float:
    """Return how fast a plane rises in a level direction."""
    return -float(np.dot(of.normal, level)) / of.normal[2]


def _plan_angle_deg(of: Plane, along: Vector, side: Vector, *, valley: bool) -> float:
    if along[2] < _LEVEL:
        return 0.0
    x, y, _ = of.normal
    eaves = np.array([-y, x, 0.0])
    if float(eaves @ side) < 0:
        eaves = -eaves
    forward = np.array([along[0], along[1], 0.0])
    forward = forward / np.linalg.norm(forward)
    away = math.degrees(math.atan2(float(eaves @ side), float(eaves @ forward)))
    return 180.0 - away if valley else away


def _backing_deg(of: Plane, along: Vector, side: Vector, *, valley: bool) -> float:
    over = np.array([0.0, 0.0, 1.0]) - along[2] * along
    over = over / np.linalg.norm(over)
    lean = math.degrees(math.atan2(float(np.dot(of.normal, side)), float(np.dot(of.normal, over))))
    return -lean if valley else lean
