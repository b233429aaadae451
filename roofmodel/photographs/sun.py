"""Where the sun stood: chosen, or from time, place and the way the house faces."""

import math
from datetime import UTC, datetime

import numpy as np

from roofmodel.foundation.errors import DrawingError
from roofmodel.geometry.plane import Vector
from roofmodel.photographs.entry import Sun

_LEAST_HEIGHT_DEG = 1.0
_EPOCH = datetime(2000, 1, 1, 12, tzinfo=UTC)
_DAY_S = 86_400.0


def towards(sun: Sun) -> Vector:
    """Return the unit vector towards the sun in the roof's axes, (3,)."""
    turn, height = math.radians(sun.right_deg), math.radians(sun.height_deg)
    # The onlooker in the garden has -x at his right and the house at -y before him.
    level = math.cos(height)
    return np.array([-math.sin(turn) * level, -math.cos(turn) * level, math.sin(height)])


def stood(when: datetime, *, latitude_deg: float, longitude_deg: float, faces_deg: float) -> Sun:
    """Return where the sun stood, as seen by somebody who looks at the house.

    Good to about 0.1° (the low-precision formulas of the Astronomical Almanac, from memory).

    Parameters
    ----------
    when
        Time of the photograph, with its zone.
    latitude_deg, longitude_deg
        Place; north and east are positive.
    faces_deg
        Compass bearing the eaves in front face, clockwise from north; 180 faces south.

    Raises
    ------
    DrawingError
        If the sun was below the horizon.
    """
    days = (when.astimezone(UTC) - _EPOCH).total_seconds() / _DAY_S
    mean = math.radians((357.528 + 0.9856003 * days) % 360.0)
    along = math.radians(
        280.460 + 0.9856474 * days + 1.915 * math.sin(mean) + 0.020 * math.sin(2.0 * mean)
    )
    tilt = math.radians(23.439 - 4e-7 * days)
    ascension = math.atan2(math.cos(tilt) * math.sin(along), math.cos(along))
    declination = math.asin(math.sin(tilt) * math.sin(along))
    sidereal = math.radians((280.46062 + 360.98564737 * days + longitude_deg) % 360.0)
    hour, north = sidereal - ascension, math.radians(latitude_deg)
    height = math.asin(
        math.sin(north) * math.sin(declination)
        + math.cos(north) * math.cos(declination) * math.cos(hour)
    )
    bearing = math.degrees(
        math.atan2(
            -math.sin(hour),
            math.tan(declination) * math.cos(north) - math.sin(north) * math.cos(hour),
        )
    )
    if math.degrees(height) < _LEAST_HEIGHT_DEG:
        raise DrawingError(
            "At that time and place the sun was below the horizon. Check date, time zone, "
            "latitude and longitude, or choose where the sun stands yourself."
        )
    # Who looks at the house looks against the way it faces.
    return Sun(right_deg=(bearing - faces_deg - 180.0) % 360.0, height_deg=math.degrees(height))
