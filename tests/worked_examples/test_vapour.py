"""Saturation and dew point against published figures and two libraries: C-01, C-02, C-03, C-07.

Published: the tests of two public programs for the same formulas, in shared/vapour.toml, to their
last place. Independent: psychrolib (ASHRAE) and iapws (IAPWS-97), which use other formulas; over
-10 to 25 °C all three agree within 0.25 %.
"""

import pytest

from roofmodel.standards import iso_13788_2012 as iso_13788
from tests.worked_examples.published import rows

TABLE = rows("vapour.toml", "saturation")
CELSIUS = [row["celsius"] for row in TABLE]


@pytest.mark.parametrize("row", TABLE, ids=lambda row: f"{row['celsius']:g}")
def test_saturation_is_as_published(row):
    assert iso_13788.saturation_pa(row["celsius"]) == pytest.approx(row["pascal"], abs=0.01)


@pytest.mark.parametrize("celsius", CELSIUS)
def test_saturation_agrees_with_psychrolib(celsius):
    psychrolib = pytest.importorskip("psychrolib")
    psychrolib.SetUnitSystem(psychrolib.SI)

    assert iso_13788.saturation_pa(celsius) == pytest.approx(
        psychrolib.GetSatVapPres(celsius), rel=0.0025
    )


@pytest.mark.parametrize("celsius", [one for one in CELSIUS if one > 0.0])
def test_saturation_agrees_with_the_steam_tables(celsius):
    iapws = pytest.importorskip("iapws")

    steam = iapws.IAPWS97(T=celsius + 273.15, x=0).P * 1e6
    assert iso_13788.saturation_pa(celsius) == pytest.approx(steam, rel=0.0025)


def test_air_of_20_degrees_and_half_saturated_dews_at_9_27_degrees():
    """Published in a public program's tests: 9.26903 °C."""
    half = 0.5 * iso_13788.saturation_pa(20.0)

    assert iso_13788.dew_point_c(half) == pytest.approx(9.26903, abs=1e-4)


@pytest.mark.parametrize("humidity", [0.2, 0.4, 0.5, 0.6, 0.8])
def test_the_dew_point_agrees_with_psychrolib(humidity):
    psychrolib = pytest.importorskip("psychrolib")
    psychrolib.SetUnitSystem(psychrolib.SI)

    ours = iso_13788.dew_point_c(humidity * iso_13788.saturation_pa(20.0))
    assert ours == pytest.approx(psychrolib.GetTDewPointFromRelHum(20.0, humidity), abs=0.03)


def test_room_air_of_20_degrees_and_60_percent_dews_at_12_degrees():
    """Acceptance job J01, reckoned by hand: 12.0 °C."""
    assert iso_13788.dew_point_c(0.6 * iso_13788.saturation_pa(20.0)) == pytest.approx(
        12.0, abs=0.05
    )


@pytest.mark.parametrize("pressure", [130.0, 400.0, 610.4, 610.6, 1200.0, 3000.0])
def test_air_at_its_dew_point_is_saturated(pressure):
    assert iso_13788.saturation_pa(iso_13788.dew_point_c(pressure)) == pytest.approx(pressure)


def test_a_membrane_of_a_quarter_meganewton_second_per_gram_is_50_mm_of_air():
    """A public program quotes the definition of a low resistance underlay."""
    assert iso_13788.vapour_resistance_mns_g(0.05) == pytest.approx(0.25)
