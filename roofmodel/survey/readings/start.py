"""First guesses: the sizes of a roof from whatever was read, one slip among them or not."""

import math
from collections.abc import Iterable, Mapping
from statistics import median_low

Values = Mapping[str, float]
Place = tuple[float, float, float]

USUAL_EAVES_MM = 2100.0
USUAL_PITCH_DEG = 20.0
USUAL_SIZE_MM = 3500.0


def one_of(values: Values, names: Iterable[str]) -> float | None:
    """Return the middle one of the values that were read, None if there is none."""
    read = [values[name] for name in names if name in values]
    return median_low(read) if read else None


def size_mm(values: Values, names: Iterable[str]) -> float:
    """Return a plan size from the lines that show it, a usual one without any."""
    return one_of(values, names) or USUAL_SIZE_MM


def eaves_mm(values: Values, corners: Iterable[str]) -> float:
    """Return the height of the eaves above the floor."""
    return one_of(values, (f"height {corner}" for corner in corners)) or USUAL_EAVES_MM


def pitch_deg(values: Values, start: str = "pitch") -> float:
    """Return a pitch among all that were read."""
    names = [name for name in values if name.startswith(start)]
    return one_of(values, names) or USUAL_PITCH_DEG


def rise_mm(values: Values, tops: Iterable[str], base_mm: float, run_mm: float) -> float:
    """Return how far the top lies above the eaves, by heights or else by pitch."""
    top_mm = one_of(values, (f"height {top}" for top in tops))
    if top_mm is not None and top_mm > base_mm:
        return top_mm - base_mm
    return run_mm * math.tan(math.radians(pitch_deg(values)))


def rectangle(width_mm: float, projection_mm: float, height_mm: float) -> dict[str, Place]:
    """Return the four corners of a rectangle against the house wall."""
    return {
        "A": (width_mm, 0.0, height_mm),
        "B": (0.0, 0.0, height_mm),
        "C": (0.0, projection_mm, height_mm),
        "D": (width_mm, projection_mm, height_mm),
    }
