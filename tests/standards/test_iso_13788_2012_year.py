"""What gathers and dries over the months of a year."""

import pytest

from roofmodel.foundation.errors import DimensionError
from roofmodel.standards import iso_13788_2012_year as iso_year
from roofmodel.standards.iso_13788_2012_profile import (
    Air,
    Component,
    VapourLayer,
    rates_kg_m2s,
)

"""A tight sheet outside wool: water gathers under it."""
"""The same with the tight sheet on the room's side."""

WINTER = Air(outside_c=0.0, outside_pa=550.0, inside_c=20.0, inside_pa=1400.0)


SUMMER = Air(outside_c=18.0, outside_pa=1000.0, inside_c=20.0, inside_pa=1050.0)


def component(*rows, rse=0.04, rsi=0.13):
    """Layers from outside to inside, each a resistance and an equivalent air."""
    return Component(
        layers=tuple(
            VapourLayer(name=f"layer {i}", resistance_m2k_w=r, sd_m=sd)
            for i, (r, sd) in enumerate(rows)
        ),
        rse_m2k_w=rse,
        rsi_m2k_w=rsi,
    )


TRAP = component((0.0, 5.0), (4.0, 0.5), (0.05, 0.1))


SOUND = component((0.0, 0.1), (4.0, 0.5), (0.05, 50.0))


def test_a_wet_level_dries_in_summer_and_no_further_than_dry():
    wet = iso_year.after(TRAP, SUMMER, {1: 50.0}, seconds=86_400.0)
    long = iso_year.after(TRAP, SUMMER, {1: 50.0}, seconds=365 * 86_400.0)

    assert 0.0 < wet[1] < 50.0
    assert long == {}


def test_half_a_month_twice_is_a_month():
    once = iso_year.after(TRAP, WINTER, {}, seconds=2_592_000.0)
    half = iso_year.after(TRAP, WINTER, {}, seconds=1_296_000.0)
    twice = iso_year.after(TRAP, WINTER, half, seconds=1_296_000.0)

    assert twice == pytest.approx(once)


def test_a_level_that_dries_out_gives_the_rest_of_the_month_to_the_other():
    """Two wet levels, one nearly dry: the time after must be that of one wet level alone."""
    two = component((0.05, 2.0), (2.0, 0.5), (0.05, 1.0), (2.0, 0.5), (0.05, 2.0))
    start = {1: 1.0, 3: 50.0}
    rates = rates_kg_m2s(two, SUMMER, start)
    first_s = 1.0 / (-1000.0 * rates[1])
    then = {3: 50.0 + 1000.0 * rates[3] * first_s}
    alone = iso_year.after(two, SUMMER, then, seconds=1e6)

    assert first_s > 0.0
    assert iso_year.after(two, SUMMER, start, seconds=first_s + 1e6) == pytest.approx(alone)


def test_the_year_starts_with_the_first_month_that_condenses():
    airs = [WINTER] * 3 + [SUMMER] * 7 + [WINTER] * 2
    found = iso_year.year(TRAP, airs)

    assert [month.name for month in found.months][:2] == ["Nov", "Dec"]
    assert found.peak is not None
    assert found.peak.name == "Mar"
    assert found.left_g_m2 == 0.0
    assert found.dry_again is not None


def test_a_year_without_a_dry_month_leaves_water():
    found = iso_year.year(TRAP, [WINTER] * 12)

    assert found.left_g_m2 > 0.0
    assert found.dry_again is None
    assert found.months[0].name == "Jan"


def test_a_year_in_which_nothing_condenses_has_no_months():
    found = iso_year.year(SOUND, [WINTER] * 6 + [SUMMER] * 6)

    assert found.months == ()
    assert found.peak is None
    assert found.left_g_m2 == 0.0


def test_eleven_months_are_no_year():
    with pytest.raises(DimensionError, match="11 months"):
        iso_year.year(SOUND, [WINTER] * 11)
