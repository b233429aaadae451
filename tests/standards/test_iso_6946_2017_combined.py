"""The combined method reports a U-value where the document lets it, and only there."""

import pytest

from roofmodel.standards.iso_6946_2017 import Surfaces
from roofmodel.standards.iso_6946_2017_combined import (
    Combined,
    OutOfScopeError,
    Path,
    ThermalLayer,
    combined,
    homogeneous,
)

EDGES = Surfaces(inside_m2k_w=0.10, outside_m2k_w=0.04)


def insulation(*, metal, share=0.05, is_insulation=True):
    """Return insulation bridged by a bar, of metal or of timber; clear 2.0, bridged 1.5 m²K/W."""
    return ThermalLayer(
        name="between",
        paths=(
            Path(share=1.0 - share, resistance_m2k_w=2.0),
            Path(share=share, resistance_m2k_w=1.5, metal=metal),
        ),
        insulation=is_insulation,
    )


def test_timber_through_the_insulation_is_in_scope():
    found = combined([insulation(metal=False)], EDGES)

    assert found.in_scope
    assert found.u_w_m2k() == pytest.approx(1.0 / found.total_m2k_w)


def test_metal_through_the_insulation_is_out_of_scope_however_near_the_limits_lie():
    """ISO 6946 leaves metal through insulation out, as BR 443 (2019) and a public program say."""
    found = combined([homogeneous("deck", 0.1), insulation(metal=True)], EDGES)

    assert found.ratio < 1.1
    assert found.metal_in == ("between",)
    assert not found.in_scope
    with pytest.raises(OutOfScopeError, match=r"Metal passes through the insulation \(between\)"):
        found.u_w_m2k()


def test_metal_beside_the_insulation_and_metal_of_no_share_are_in_scope():
    assert combined([insulation(metal=True, is_insulation=False)], EDGES).in_scope
    assert combined([insulation(metal=True, share=0.0)], EDGES).in_scope


@pytest.mark.parametrize(("upper", "in_scope"), [(1.5, True), (1.501, False)])
def test_limits_further_apart_than_1_5_are_out_of_scope(upper, in_scope):
    found = Combined(upper_m2k_w=upper, lower_m2k_w=1.0)

    assert found.in_scope is in_scope
    if not in_scope:
        with pytest.raises(OutOfScopeError, match=r"1\.50 times the lower"):
            found.u_w_m2k()


def test_two_equal_halves_come_out_as_reckoned_by_hand():
    """Upper: 1 / (½ / 1.14 + ½ / 3.14); lower: 0.14 + 1 / (½ / 1 + ½ / 3)."""
    layer = ThermalLayer(
        name="halves",
        paths=(Path(share=0.5, resistance_m2k_w=1.0), Path(share=0.5, resistance_m2k_w=3.0)),
    )
    found = combined([layer], EDGES)

    assert found.upper_m2k_w == pytest.approx(1.6727, abs=5e-5)
    assert found.lower_m2k_w == pytest.approx(1.64)
