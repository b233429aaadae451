"""Laws of vapour in a component: the string held below saturation."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import MultiPoint

from roofmodel.foundation.errors import DimensionError
from roofmodel.standards import iso_13788_2012 as iso_13788
from roofmodel.standards.iso_13788_2012_profile import (
    Air,
    Component,
    VapourLayer,
    rates_kg_m2s,
)

WINTER = Air(outside_c=0.0, outside_pa=550.0, inside_c=20.0, inside_pa=1400.0)


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
"""A tight sheet outside wool: water gathers under it."""

SOUND = component((0.0, 0.1), (4.0, 0.5), (0.05, 50.0))
"""The same with the tight sheet on the room's side."""

layers = st.lists(st.tuples(st.floats(0.01, 3.0), st.floats(0.01, 50.0)), min_size=2, max_size=6)


def test_a_tight_sheet_outside_gathers_water_and_inside_does_not():
    assert set(rates_kg_m2s(TRAP, WINTER)) == {1}
    assert rates_kg_m2s(SOUND, WINTER) == {}


@given(layers)
def test_dividing_a_layer_changes_neither_resistance_nor_air(rows):
    whole = component(*rows)
    parts = whole.divided()

    assert parts.resistance_m2k_w == pytest.approx(whole.resistance_m2k_w)
    assert parts.sd_m[-1] == pytest.approx(whole.sd_m[-1])
    assert all(layer.resistance_m2k_w <= 0.25 + 1e-9 for layer in parts.layers)


@given(layers, st.floats(-15.0, 15.0), st.floats(0.3, 0.95))
def test_a_dry_component_only_ever_gains_water(rows, outside_c, humidity):
    air = Air(
        outside_c=outside_c,
        outside_pa=0.85 * iso_13788.saturation_pa(outside_c),
        inside_c=20.0,
        inside_pa=humidity * iso_13788.saturation_pa(20.0),
    )

    assert all(rate >= 0.0 for rate in rates_kg_m2s(component(*rows).divided(), air).values())


@given(layers, st.floats(0.4, 0.9))
def test_what_gathers_is_what_enters_less_what_leaves(rows, humidity):
    """The pressure is held below saturation at every level, so the flows at both faces tell."""
    known = component(*rows)
    air = Air(
        outside_c=-5.0,
        outside_pa=0.9 * iso_13788.saturation_pa(-5.0),
        inside_c=20.0,
        inside_pa=humidity * iso_13788.saturation_pa(20.0),
    )
    rates = rates_kg_m2s(known, air)
    straight = iso_13788.DELTA0_KG_MSPA * (air.inside_pa - air.outside_pa) / known.sd_m[-1]
    if not rates:
        held = [iso_13788.saturation_pa(c) for c in known.temperatures_c(-5.0, 20.0)][1:-1]
        for sd, most in zip(known.sd_m[1:-1], held, strict=True):
            at = air.outside_pa + straight * sd / iso_13788.DELTA0_KG_MSPA
            assert at <= most * (1.0 + 1e-9)
        return
    held = {n: iso_13788.saturation_pa(known.temperatures_c(-5.0, 20.0)[n]) for n in rates}
    first, last = min(rates), max(rates)
    enters = (air.inside_pa - held[last]) / (known.sd_m[-1] - known.sd_m[last])
    leaves = (held[first] - air.outside_pa) / known.sd_m[first]
    balance = iso_13788.DELTA0_KG_MSPA * (enters - leaves)
    assert sum(rates.values()) == pytest.approx(balance, rel=1e-9, abs=1e-20)


@given(layers, st.floats(-10.0, 10.0), st.floats(0.4, 0.9))
def test_the_string_lies_where_shapely_puts_the_convex_hull(rows, outside_c, humidity):
    """shapely (GEOS) as an independent judge of where water condenses."""
    known = component(*rows).divided()
    air = Air(
        outside_c=outside_c,
        outside_pa=0.9 * iso_13788.saturation_pa(outside_c),
        inside_c=20.0,
        inside_pa=humidity * iso_13788.saturation_pa(20.0),
    )
    sd = np.array(known.sd_m)
    held = np.array([iso_13788.saturation_pa(c) for c in known.temperatures_c(outside_c, 20.0)])
    held[0], held[-1] = air.outside_pa, air.inside_pa
    # Two corners far above leave only the lower side of the hull to the levels.
    points = [*zip(sd, held, strict=True), (sd[0], 1e5), (sd[-1], 1e5)]
    corners = set(MultiPoint(points).convex_hull.exterior.coords)
    lower = [i for i, point in enumerate(zip(sd, held, strict=True)) if point in corners]
    string = np.interp(sd, sd[lower], held[lower])
    by_hull = np.diff(iso_13788.DELTA0_KG_MSPA * np.diff(string) / np.diff(sd))
    ours = rates_kg_m2s(known, air)

    for level, gained in enumerate(by_hull, start=1):
        assert ours.get(level, 0.0) == pytest.approx(gained, rel=1e-6, abs=1e-13)


@pytest.mark.parametrize(("r", "sd"), [(-0.1, 1.0), (1.0, 0.0), (1.0, float("nan"))])
def test_layers_that_cannot_be_are_refused(r, sd):
    with pytest.raises(DimensionError, match="equivalent air"):
        VapourLayer(name="x", resistance_m2k_w=r, sd_m=sd)
