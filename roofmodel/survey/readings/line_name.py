"""The one name of each line of a survey sheet: what is read, and between which letters.

No name depends on the shape, on the number of a facet or on what stands on a side: the same tape
between the same points is called the same on every sheet, and a stored reading keeps its meaning
when the shape is changed.
"""

from roofmodel.survey.readings.plan_topology import Pair

FRAME = "frame"


def length(p: str, q: str) -> str:
    """Return the name of the level distance of two points."""
    return f"{p}{q}"


def off(point: str, side: Pair) -> str:
    """Return the name of a point's distance square off a side, both level."""
    return f"{point} off {side[0]}{side[1]}"


def middle_to(corner: str) -> str:
    """Return the name of the tape from the middle of the first side to a corner."""
    return f"middle to {corner}"


def angle(corner: str) -> str:
    """Return the name of the angle on plan at a corner."""
    return f"angle {corner}"


def height(point: str) -> str:
    """Return the name of a height above the finished floor."""
    return f"height {point}"


def middle_height(p: str, q: str) -> str:
    """Return the name of the height midway between two points."""
    return f"height middle {p}{q}"


def level(point: str, over: str) -> str:
    """Return the name of how far a point lies above another, by laser."""
    return f"level {point}{over}"


def pitch(eaves: Pair, top: str) -> str:
    """Return the name of the pitch of the bar from an eaves square up to a point."""
    return f"pitch {eaves[0]}{eaves[1]} to {top}"


def bar(eaves: Pair, top: str) -> str:
    """Return the name of the length of that bar."""
    return f"bar {eaves[0]}{eaves[1]} to {top}"


def along(what: str, p: str, q: str) -> str:
    """Return the name of the tape along a hip, valley, ridge or change of pitch."""
    return f"{what} {p}{q}"


def inside(width: str) -> str:
    """Return the name of the inside of a width that is taped outside."""
    return f"inside {width}"
