"""What each reading that may be wrong does to the roof's area, were it as it would have to be."""

from dataclasses import dataclass, replace

from roofmodel.foundation.errors import DimensionError
from roofmodel.survey.fit import adjustment, fitted_footprint
from roofmodel.survey.fit.adjustment import Adjusted
from roofmodel.survey.fit.closure import WouldBe
from roofmodel.survey.fit.suspect import Suspect

_SAME_M2 = 0.0005


@dataclass(frozen=True, slots=True, kw_only=True)
class AreaEffect:
    """The area of the roof with one reading put right, and how much more than as read [m²]."""

    area_m2: float
    difference_m2: float

    @property
    def text(self) -> str:
        """The effect as part of a line."""
        area = f"roof {self.area_m2:.3f} m²"
        if abs(self.difference_m2) < _SAME_M2:
            return f"{area}, no change"
        more = "more" if self.difference_m2 > 0.0 else "less"
        return f"{area}, {abs(self.difference_m2):.3f} {more} than as read"


def of_way(adjusted: Adjusted, way: WouldBe) -> AreaEffect | None:
    """Return what follows if one line reads what a closure makes of it.

    None where that line is no part of the roof, such as a frame, or no roof stands on the result.
    """
    if adjusted.network.line(way.line).measure is None:
        return None
    readings = [
        replace(one, value=way.would_be) if one.name == way.line else one
        for one in adjusted.readings
    ]
    try:
        return _effect(adjusted, adjustment.adjust(adjusted.network, readings))
    except DimensionError:
        return None


def of_suspect(adjusted: Adjusted, suspect: Suspect) -> AreaEffect | None:
    """Return what follows if one suspected reading is left out; None where no roof stands then."""
    return _effect(adjusted, suspect.without)


def area_m2(adjusted: Adjusted) -> float | None:
    """Return the area of the roof fitted to readings [m²]; None where no roof stands on them."""
    try:
        return fitted_footprint.footprint(adjusted).roof(eaves_height_mm=0.0).area_m2
    except DimensionError:
        return None


def _effect(as_read: Adjusted, put_right: Adjusted) -> AreaEffect | None:
    before, after = area_m2(as_read), area_m2(put_right)
    if before is None or after is None:
        return None
    return AreaEffect(area_m2=after, difference_m2=after - before)
