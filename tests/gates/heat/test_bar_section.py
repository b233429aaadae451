"""A bay with half a metal bar between what the combined method leaves out and what cannot be."""

from dataclasses import replace

import pytest

from roofmodel.gates.heat import bar_section, u_value
from roofmodel.gates.heat import settings as thermal_settings
from roofmodel.gates.heat.bar_section import Bay, Cut
from roofmodel.refit.method import Method
from roofmodel.standards.iso_6946_2017 import Surfaces
from roofmodel.standards.iso_6946_2017_combined import Path, ThermalLayer, combined, homogeneous
from tests import acceptance_jobs

SETTINGS = thermal_settings.shipped()
EDGES = Surfaces(inside_m2k_w=0.10, outside_m2k_w=0.04)


def bridged(clear, bar, share, *, metal):
    paths = (
        Path(share=1.0 - share, resistance_m2k_w=clear),
        Path(share=share, resistance_m2k_w=bar, metal=metal),
    )
    return ThermalLayer(name="between", paths=paths, pattern="bars", insulation=True)


def bay(*cuts, share=0.1):
    return Bay(
        cuts=tuple(Cut(thickness_mm=t, layer=layer) for t, layer in cuts),
        edges=EDGES,
        half_bar_mm=30.0,
        half_bay_mm=30.0 / share,
        bar=SETTINGS.bar_section,
    )


LINING = (12.5, homogeneous("lining", 12.5e-3 / 0.21))
METAL = (100.0, bridged(100e-3 / 0.022, 0.03, 0.1, metal=True))
TIMBER = (100.0, bridged(100e-3 / 0.022, 100e-3 / 0.13, 0.1, metal=False))


def test_without_a_bar_the_section_is_its_layers():
    layers = (LINING, (100.0, homogeneous("board", 100e-3 / 0.022)))
    found = bar_section.of_bay(bay(*layers))

    total = 0.14 + 12.5e-3 / 0.21 + 100e-3 / 0.022
    assert found.at_most_w_m2k == pytest.approx(1.0 / total, rel=1e-6)
    assert found.factors[0] == pytest.approx(1.0 - 0.10 / total, abs=1e-6)


def test_a_timber_rafter_lies_between_the_two_limits_of_the_combined_method():
    """The method's own limits hold the true figure between them, whatever the section."""
    layers = (LINING, TIMBER)
    limits = combined([layer for _, layer in layers], EDGES)

    found = bar_section.of_bay(bay(*layers))

    assert 1.0 / limits.upper_m2k_w < found.at_most_w_m2k < 1.0 / limits.lower_m2k_w
    assert found.either_way_w_m2k < 0.005 * found.middle_w_m2k


def test_a_hollow_bar_is_hardly_better_than_a_solid_one():
    found = bar_section.of_bay(bay(LINING, METAL))

    assert found.at_least_w_m2k < found.at_most_w_m2k
    assert found.either_way_w_m2k < 0.1 * found.middle_w_m2k


def test_the_coldest_point_is_in_the_line_of_the_bar():
    with_bar, without = (
        bar_section.of_bay(bay(LINING, layer))
        for layer in (METAL, (100.0, homogeneous("board", 100e-3 / 0.022)))
    )

    assert with_bar.factors[0] < 0.75 < without.factors[0]


def test_a_wider_wall_lets_no_less_heat_through():
    thin = bay(LINING, METAL)
    thick = replace(thin, bar=replace(thin.bar, wall_mm=4.0))

    least = bar_section.of_bay(thin).at_least_w_m2k
    assert bar_section.of_bay(thick).at_least_w_m2k >= least * 0.995


def test_the_board_a_remedy_names_is_the_thinnest_that_does():
    plain = bay(LINING, METAL)
    extra = bar_section.extra_mm(plain, 0.18, 0.022)

    good, thinner = (
        bar_section.of_bay(plain.with_board(mm, 0.022)).at_most_w_m2k
        for mm in (extra, extra - bar_section.STEP_MM)
    )
    assert good <= 0.18 < thinner


def test_a_limit_no_board_reaches_has_no_thickness():
    assert bar_section.extra_mm(bay(LINING, METAL), 0.01, 0.022) is None


def test_panels_and_rafters_have_no_such_section():
    for method in (Method.PANEL_SWAP, Method.NEW_ROOF):
        refit = acceptance_jobs.drawn("J01").option_of(method).refit
        stack = u_value.heat(refit).stack

        assert bar_section.bay(refit, SETTINGS, share=stack.bar_share, edges=stack.edges) is None
