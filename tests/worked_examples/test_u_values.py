"""The combined method against published worked examples and figures reckoned by hand.

Sources stand beside each row in shared/u_values.toml: Technical Guidance Document L (2011 and
2022), appendix A, as a public program's tests quote them with their pages; that program's own hand
calculations; and hand calculations of the acceptance jobs. Exact figures are held to 2e-6. Printed
resistances come from layers that were rounded first and are held to 0.003; printed U-values to
their two places. Example A2 of the 2022 edition is left out: it has two misprints.
"""

import pytest

from roofmodel.standards import iso_6946_2017 as iso_6946
from roofmodel.standards import iso_6946_2017_air as air
from roofmodel.standards.iso_6946_2017 import Flow, Surfaces
from roofmodel.standards.iso_6946_2017_combined import (
    OutOfScopeError,
    Path,
    ThermalLayer,
    combined,
    homogeneous,
)
from tests.worked_examples.published import rows

FILE = "u_values.toml"
FOIL, ORDINARY = 0.05, 0.9


def layer(number, row):
    name = f"layer {number}"
    if isinstance(row, dict):
        return homogeneous(name, row["r"])
    thickness_m, conductivity, *bridge = row
    clear = iso_6946.resistance_m2k_w(1000.0 * thickness_m, conductivity)
    if not bridge:
        return homogeneous(name, clear)
    share, bridging = bridge
    across = iso_6946.resistance_m2k_w(1000.0 * thickness_m, bridging)
    return ThermalLayer(
        name=name,
        paths=(
            Path(share=1.0 - share, resistance_m2k_w=clear),
            Path(share=share, resistance_m2k_w=across),
        ),
    )


def limits(row):
    layers = [layer(i, one) for i, one in enumerate(row["layers"])]
    return combined(layers, Surfaces(inside_m2k_w=row["rsi"], outside_m2k_w=row["rse"]))


def named(table):
    return pytest.mark.parametrize("row", rows(FILE, table), ids=lambda row: row["id"])


@named("combined")
def test_both_limits_and_u_come_out_as_published(row):
    found = limits(row)

    assert found.upper_m2k_w == pytest.approx(row["upper"], abs=2e-6)
    assert found.lower_m2k_w == pytest.approx(row["lower"], abs=2e-6)
    assert found.total_m2k_w == pytest.approx(row["total"], abs=2e-6)
    assert found.u_w_m2k() == pytest.approx(row["u"], abs=2e-6)


@named("combined")
def test_printed_figures_are_kept_where_a_document_prints_them(row):
    found = limits(row)

    for name, value in (
        ("printed_upper", found.upper_m2k_w),
        ("printed_lower", found.lower_m2k_w),
        ("printed_total", found.total_m2k_w),
    ):
        assert value == pytest.approx(row.get(name, value), abs=0.003)
    rounded = iso_6946.rounded_u_w_m2k(found.u_w_m2k())
    assert rounded == row.get("printed_u", rounded)


@named("refused")
def test_metal_through_insulation_drives_the_limits_too_far_apart_for_a_u_value(row):
    found = limits(row)

    assert found.upper_m2k_w == pytest.approx(row["upper"], abs=2e-6)
    assert found.lower_m2k_w == pytest.approx(row["lower"], abs=2e-6)
    assert found.ratio >= row["least_ratio"]
    with pytest.raises(OutOfScopeError, match="EN ISO 10211"):
        found.u_w_m2k()


def test_the_error_of_the_hand_calculated_wall_is_1_8_percent():
    row = next(one for one in rows(FILE, "combined") if one["id"] == "U-10")

    assert limits(row).ratio == pytest.approx(1.0367895, abs=1e-6)
    assert limits(row).error_share == pytest.approx(0.01806, abs=1e-5)


def test_a_ratio_of_1_5_is_an_error_of_20_percent():
    found = combined(
        [
            ThermalLayer(
                name="",
                paths=(
                    Path(share=0.5, resistance_m2k_w=1.0),
                    Path(share=0.5, resistance_m2k_w=1.0),
                ),
            )
        ],
        Surfaces(inside_m2k_w=0.1, outside_m2k_w=0.1),
    )
    assert found.error_share == pytest.approx(0.0, abs=1e-12)

    wide = type(found)(upper_m2k_w=1.5, lower_m2k_w=1.0)
    assert wide.error_share == pytest.approx(0.2)
    assert wide.in_scope


def bar_stack(row):
    """Lean-to built round its bars, from the room: the bars' share 9 %, counter-battens 12.5 %."""
    void = air.between_m2k_w(38.0, Flow.UPWARD, (FOIL, ORDINARY))

    def two(clear, bridged, share):
        return (
            Path(share=1.0 - share, resistance_m2k_w=clear),
            Path(share=share, resistance_m2k_w=bridged),
        )

    bars = 60.0 / 666.67
    layers = [
        homogeneous("plasterboard", 0.0125 / 0.19),
        ThermalLayer(name="counter-battens", paths=two(void, 0.038 / 0.13, 0.125)),
        homogeneous("foil", 1.0),
        ThermalLayer(name="battens", paths=two(void, 0.025 / 0.13, bars), pattern="bars"),
        ThermalLayer(
            name="between", paths=two(row["between_mm"] / 22.0, 0.03, bars), pattern="bars"
        ),
        homogeneous("over", row["over_mm"] / 22.0),
        homogeneous("deck", 0.018 / 0.13),
    ]
    return layers, Surfaces(inside_m2k_w=0.10, outside_m2k_w=0.04)


@named("bars")
def test_a_roof_built_round_its_bars_comes_out_as_reckoned_by_hand(row):
    layers, edges = bar_stack(row)
    found = combined(layers, edges)

    ends = edges.inside_m2k_w + edges.outside_m2k_w
    clear = 1.0 / (ends + sum(one.paths[0].resistance_m2k_w for one in layers))
    bar = 1.0 / (ends + sum(one.paths[-1 if one.pattern else 0].resistance_m2k_w for one in layers))
    assert clear == pytest.approx(row["clear"], abs=0.0006)
    assert bar == pytest.approx(row["bar"], abs=0.0006)
    assert 1.0 / found.upper_m2k_w == pytest.approx(row["best"], abs=0.0006)
    assert 1.0 / found.lower_m2k_w == pytest.approx(row["worst"], abs=0.0006)
    assert 1.0 / found.total_m2k_w == pytest.approx(row["mean"], abs=0.0006)


@named("rafters")
def test_a_new_roof_comes_out_as_reckoned_by_hand(row):
    share = 47.0 / 400.0
    layers = [
        homogeneous("plasterboard", 0.0125 / 0.19),
        homogeneous("under", row["under_mm"] / 22.0),
        ThermalLayer(
            name="between",
            paths=(
                Path(share=1.0 - share, resistance_m2k_w=0.120 / 0.022),
                Path(share=share, resistance_m2k_w=0.120 / 0.13),
            ),
        ),
        homogeneous("deck", 0.018 / 0.13),
    ]
    found = combined(layers, Surfaces(inside_m2k_w=0.10, outside_m2k_w=0.04))

    assert found.u_w_m2k() == pytest.approx(row["u"], abs=0.0006)


@pytest.mark.parametrize("row", rows(FILE, "panels"), ids=lambda row: f"{row['thickness_mm']:g}")
def test_a_panel_alone_comes_out_as_reckoned_by_hand(row):
    panel = homogeneous("panel", iso_6946.resistance_m2k_w(row["thickness_mm"], 0.033))
    found = combined([panel], iso_6946.surfaces(15.0))

    assert found.u_w_m2k() == pytest.approx(row["u"], abs=0.006)


def test_bright_foil_gives_the_resistances_a_public_program_quotes_for_emissivity_0_2():
    """BR 443 (2019) 4.7.2 as quoted: 0.34 upward, 0.44 horizontal; to the places printed."""
    aged = (0.2, ORDINARY)

    assert air.between_m2k_w(25.0, Flow.UPWARD, aged) == pytest.approx(0.34, abs=0.005)
    assert air.between_m2k_w(25.0, Flow.HORIZONTAL, aged) == pytest.approx(0.44, abs=0.005)
    assert air.between_m2k_w(25.0, Flow.UPWARD, (FOIL, ORDINARY)) == pytest.approx(0.454, abs=5e-4)
