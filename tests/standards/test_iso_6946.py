"""Resistances, surfaces, air spaces, the combined method and its corrections."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roofmodel.foundation.errors import DimensionError
from roofmodel.standards import iso_6946_2017 as iso_6946
from roofmodel.standards import iso_6946_2017_air as air
from roofmodel.standards import iso_6946_2017_corrections as corrections
from roofmodel.standards.iso_6946_2017 import Flow, Surfaces
from roofmodel.standards.iso_6946_2017_combined import (
    OutOfScopeError,
    Path,
    ThermalLayer,
    combined,
    homogeneous,
    sections_m2k_w,
)
from roofmodel.standards.iso_6946_2017_corrections import GapLevel

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


@pytest.mark.parametrize(
    ("pitch", "inside", "outside"), [(0.0, 0.10, 0.04), (59.9, 0.10, 0.04), (60.0, 0.13, 0.04)]
)
def test_a_roof_of_60_degrees_counts_as_a_wall(pitch, inside, outside):
    """BR 443 (2019) 4.2 as a public program quotes it."""
    assert iso_6946.surfaces(pitch) == Surfaces(inside_m2k_w=inside, outside_m2k_w=outside)


def test_outside_a_ventilated_space_the_surface_is_like_an_inside_one():
    """BR 443 (2019) 4.7.3 as a public program quotes it: 0.10 for a roof, 0.13 for a wall."""
    assert iso_6946.surfaces(25.0, ventilated_covering=True).outside_m2k_w == 0.10
    assert iso_6946.surfaces(90.0, ventilated_covering=True).outside_m2k_w == 0.13


def test_heat_going_down_meets_the_most_resistance_inside():
    assert iso_6946.RSI_M2K_W == {Flow.UPWARD: 0.10, Flow.HORIZONTAL: 0.13, Flow.DOWNWARD: 0.17}


@pytest.mark.parametrize(("exact", "printed"), [(0.0583, 0.058), (1.234, 1.2), (0.1627, 0.16)])
def test_a_u_value_is_printed_to_two_significant_figures(exact, printed):
    """ISO 6946:2017 6.5.2 as a public program quotes it."""
    assert iso_6946.rounded_u_w_m2k(exact) == printed


def test_an_emissivity_above_one_is_refused():
    with pytest.raises(DimensionError, match="emissivity"):
        air.between_m2k_w(25.0, Flow.UPWARD, (1.2, 0.9))


def test_foil_as_it_ages_gives_the_values_a_convention_prints():
    """BR 443 (2019) 4.7.2 as a public program quotes it."""
    for way, printed in ((Flow.UPWARD, 0.34), (Flow.HORIZONTAL, 0.44)):
        found = air.between_m2k_w(50.0, way, (0.2, air.ORDINARY_EMISSIVITY))
        assert found == pytest.approx(printed, abs=0.005)


def test_gaps_of_the_usual_level_add_the_published_correction():
    """A public program's tests: 2.857 of 3.877 m²K/W, level 1, 0.00543, left out at U 0.258."""
    more = corrections.gaps_w_m2k(GapLevel.THROUGH, 2.857, 3.877)

    assert more == pytest.approx(0.00543, abs=5e-6)
    found = corrections.corrected(0.258, gaps_w_m2k=more, fixings_w_m2k=0.0)
    assert not found.counted
    assert found.u_w_m2k == 0.258


def test_fixings_add_what_each_of_them_loses():
    """A public program's tests: 0.004 W/K, 5 in every m²."""
    more = corrections.fixings_w_m2k(0.004, 5.0)

    assert more == pytest.approx(0.02)
    found = corrections.corrected(0.258, gaps_w_m2k=0.0, fixings_w_m2k=more)
    assert found.counted
    assert found.u_w_m2k == pytest.approx(0.278)


def test_corrections_small_one_by_one_count_when_they_are_not_together():
    found = corrections.corrected(0.2, gaps_w_m2k=0.004, fixings_w_m2k=0.004)

    assert found.u_w_m2k == pytest.approx(0.208)


def test_a_ratio_above_the_limit_is_refused_and_told_what_to_do():
    wide = replace(combined([homogeneous("x", 1.0)], EDGES), upper_m2k_w=2.0)

    with pytest.raises(OutOfScopeError, match=r"1\.75 times .* EN ISO 10211"):
        wide.u_w_m2k()
