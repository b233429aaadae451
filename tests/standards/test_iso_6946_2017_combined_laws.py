"""Laws of the combined method on random layers."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roofmodel.foundation.errors import DimensionError
from roofmodel.standards.iso_6946_2017 import Surfaces
from roofmodel.standards.iso_6946_2017_combined import (
    OutOfScopeError,
    Path,
    ThermalLayer,
    combined,
    homogeneous,
    sections_m2k_w,
)

EDGES = Surfaces(inside_m2k_w=0.10, outside_m2k_w=0.04)


def bridged(clear, across, share, *, pattern="", metal=False):
    return ThermalLayer(
        name="bridged",
        paths=(
            Path(share=1.0 - share, resistance_m2k_w=clear),
            Path(share=share, resistance_m2k_w=across, metal=metal),
        ),
        pattern=pattern,
        insulation=True,
    )


resistances = st.floats(0.01, 10.0)
bridges = st.builds(bridged, resistances, resistances, st.floats(0.01, 0.99))
solid = st.builds(homogeneous, st.just("solid"), resistances)


@given(st.lists(bridges | solid, min_size=1, max_size=4))
def test_the_upper_limit_is_never_below_the_lower(layers):
    found = combined(layers, EDGES)

    assert found.upper_m2k_w >= found.lower_m2k_w * (1.0 - 1e-9)


@given(st.lists(solid, min_size=1, max_size=4))
def test_layers_without_bridges_have_one_resistance(layers):
    found = combined(layers, EDGES)
    by_hand = 0.14 + sum(layer.paths[0].resistance_m2k_w for layer in layers)

    assert found.upper_m2k_w == pytest.approx(by_hand)
    assert found.lower_m2k_w == pytest.approx(by_hand)


@given(st.lists(bridges, min_size=1, max_size=4))
def test_bridged_layers_cross_into_sections_that_make_one_whole(layers):
    sections = sections_m2k_w(layers)

    assert len(sections) == 2 ** len(layers)
    assert sum(share for share, _ in sections) == pytest.approx(1.0)


@given(st.lists(bridges | solid, min_size=1, max_size=3), resistances)
def test_another_layer_never_lets_more_heat_through(layers, more):
    before, after = combined(layers, EDGES), combined([*layers, homogeneous("more", more)], EDGES)

    assert after.total_m2k_w > before.total_m2k_w


def test_layers_bridged_in_line_are_not_crossed():
    in_line = [bridged(3.0, 0.1, 0.1, pattern="bars"), bridged(0.5, 0.2, 0.1, pattern="bars")]

    assert sections_m2k_w(in_line) == [
        (pytest.approx(0.9), pytest.approx(3.5)),
        (pytest.approx(0.1), pytest.approx(0.3)),
    ]


def test_layers_in_line_with_other_shares_are_refused():
    layers = [bridged(3.0, 0.1, 0.1, pattern="bars"), bridged(0.5, 0.2, 0.2, pattern="bars")]

    with pytest.raises(DimensionError, match="same shares"):
        combined(layers, EDGES)


def test_metal_through_insulation_is_refused_even_where_the_limits_agree():
    found = combined([bridged(3.0, 2.9, 0.05, metal=True)], EDGES)

    assert found.ratio < 1.01
    with pytest.raises(OutOfScopeError, match="Metal passes through"):
        found.u_w_m2k()


@pytest.mark.parametrize(("share", "clear"), [(1.2, 1.0), (float("nan"), 1.0), (0.1, 0.0)])
def test_parts_that_make_no_whole_or_resist_nothing_are_refused(share, clear):
    with pytest.raises(DimensionError):
        bridged(clear, 1.0, share)


def test_a_ratio_above_the_limit_is_refused_and_told_what_to_do():
    wide = replace(combined([homogeneous("x", 1.0)], EDGES), upper_m2k_w=2.0)

    with pytest.raises(OutOfScopeError, match=r"1\.75 times .* EN ISO 10211"):
        wide.u_w_m2k()
