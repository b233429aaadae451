"""Where the sun stood: plain facts of the year, and the onlooker's left and right."""

from datetime import UTC, datetime

import numpy as np
import pytest

from roofmodel.foundation.errors import DrawingError
from roofmodel.photographs import sun
from roofmodel.photographs.entry import Sun

NORTH_DEG = 51.48  # on the meridian: noon differs from the clock by the equation of time alone


def stood(*when, faces_deg=180.0):
    return sun.stood(
        datetime(*when, tzinfo=UTC), latitude_deg=NORTH_DEG, longitude_deg=0.0, faces_deg=faces_deg
    )


def test_the_sun_at_noon_stands_as_high_as_the_season_says():
    # 90° less latitude, more or less the tilt of the earth's axis, 23.44° (any almanac).
    assert stood(2026, 6, 21, 12, 2).height_deg == pytest.approx(90 - NORTH_DEG + 23.44, abs=0.1)
    assert stood(2026, 12, 21, 12, 0).height_deg == pytest.approx(90 - NORTH_DEG - 23.44, abs=0.1)
    assert stood(2026, 3, 20, 12, 7).height_deg == pytest.approx(90 - NORTH_DEG, abs=0.3)


def test_at_noon_it_is_behind_whoever_looks_at_a_house_that_faces_south():
    assert stood(2026, 6, 21, 12, 2).right_deg == pytest.approx(180.0, abs=2.0)


def test_in_the_morning_it_is_at_the_right_of_a_house_that_faces_south():
    # The onlooker looks north; the east, where the sun rises, is at his right.
    assert 60.0 < stood(2026, 6, 21, 8, 0).right_deg < 120.0
    assert sun.towards(Sun(right_deg=90.0, height_deg=10.0))[0] == pytest.approx(-0.985, abs=1e-3)


def test_at_night_there_is_none():
    with pytest.raises(DrawingError, match="below the horizon"):
        stood(2026, 6, 21, 0, 0)


def test_a_sun_behind_the_onlooker_shines_from_the_garden():
    assert sun.towards(Sun(right_deg=180.0, height_deg=30.0)) == pytest.approx(
        [0.0, np.cos(np.radians(30.0)), 0.5], abs=1e-9
    )
