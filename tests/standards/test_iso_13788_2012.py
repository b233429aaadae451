"""Vapour in the air: saturation, dew point and the humidity of rooms."""

import pytest

from roofmodel.foundation.errors import DimensionError
from roofmodel.standards import iso_13788_2012 as iso_13788

"""A tight sheet outside wool: water gathers under it."""
"""The same with the tight sheet on the room's side."""


def test_saturation_over_ice_meets_saturation_over_water_at_freezing():
    assert iso_13788.saturation_pa(-1e-9) == pytest.approx(iso_13788.saturation_pa(0.0), rel=1e-6)


@pytest.mark.parametrize(("humidity_class", "excess"), [(1, 270), (2, 540), (3, 810), (4, 1080)])
def test_a_rooms_excess_falls_from_freezing_to_nothing_at_20_degrees(humidity_class, excess):
    """From memory: ISO 13788 annex A was not seen."""
    room = iso_13788.room_pressure_pa

    assert room(humidity_class, 0.0, 500.0) == pytest.approx(500.0 + excess)
    assert room(humidity_class, -10.0, 200.0) == pytest.approx(200.0 + excess)
    assert room(humidity_class, 10.0, 900.0) == pytest.approx(900.0 + excess / 2.0)
    assert room(humidity_class, 25.0, 1500.0) == pytest.approx(1500.0)


def test_a_fifth_humidity_class_is_refused():
    with pytest.raises(DimensionError, match="humidity class 5"):
        iso_13788.room_pressure_pa(5, 0.0, 500.0)


@pytest.mark.parametrize("pressure", [0.0, -1.0, float("nan")])
def test_air_without_vapour_has_no_dew_point(pressure):
    with pytest.raises(DimensionError, match="no dew point"):
        iso_13788.dew_point_c(pressure)
