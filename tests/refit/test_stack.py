import pytest

from roofmodel.buildups import catalogue
from roofmodel.foundation.errors import DimensionError
from roofmodel.refit import stack
from roofmodel.refit.layer import Layer, Lie, Zone
from roofmodel.refit.method import Method


def offsets(layers, bar_depth_mm=75.0):
    found = stack.placed(layers, catalogue.shipped(), bar_depth_mm=bar_depth_mm)
    return {one.material.code: (one.inside_mm, one.outside_mm) for one in found}


def over(material, zone=Zone.ROOM, **more):
    return Layer(material=material, zone=zone, lie=Lie.OVER, **more)


def test_layers_lie_one_on_the_other_with_the_datum_on_the_outside_of_the_bars():
    found = offsets(stack.shipped()[Method.BUILD_ROUND].layers)

    # Bars 75 deep: 25 batten, 30 foil, 38 counter-batten, 12.5 board and 2 skim below them.
    assert found["INS-PIR75"] == (-75.0, 0.0)
    assert found["TIM-B25"] == (-100.0, -75.0)
    assert found["INS-MF30"] == (-130.0, -100.0)
    assert found["TIM-CB38"] == (-168.0, -130.0)
    assert found["BRD-PB12"] == (-180.5, -168.0)
    assert found["BRD-OSB18"] == (0.0, 18.0)
    assert found["TIL-LW"] == (18.5, 43.5)


def test_deep_bars_push_the_room_layers_down_and_leave_the_board_at_the_top():
    found = offsets(stack.shipped()[Method.BUILD_ROUND].layers, bar_depth_mm=110.0)

    assert found["INS-PIR75"] == (-75.0, 0.0)
    assert found["TIM-B25"] == (-135.0, -110.0)


def test_every_method_has_layers_of_known_materials():
    for method in Method:
        assert offsets(stack.shipped()[method].layers)


def test_all_that_is_wrong_with_a_build_up_is_said_at_once():
    layers = [over("BRD-OSB18", Zone.OUTSIDE), over("NO-SUCH"), over("SCR-BAR")]

    with pytest.raises(DimensionError) as error:
        offsets(layers)

    assert [fault.field for fault in error.value.faults] == [
        "layers.1.material",
        "layers.2.thickness_mm",
        "layers.1.zone",
    ]


def test_a_build_up_of_nothing_is_refused():
    with pytest.raises(DimensionError, match="no layer"):
        offsets([])


@pytest.mark.parametrize(
    ("fields", "field"),
    [
        ({"zone": Zone.ROOM, "lie": Lie.BETWEEN}, "zone"),
        ({"zone": Zone.BARS, "lie": Lie.OVER}, "zone"),
        ({"zone": Zone.ROOM, "lie": Lie.ACROSS}, "spacing_mm"),
        ({"zone": Zone.ROOM, "lie": Lie.ACROSS, "spacing_mm": float("nan")}, "spacing_mm"),
        ({"zone": Zone.ROOM, "lie": Lie.OVER, "spacing_mm": 400.0}, "spacing_mm"),
        ({"zone": Zone.ROOM, "lie": Lie.OVER, "thickness_mm": -2.0}, "thickness_mm"),
        ({"zone": Zone.ROOM, "lie": Lie.OVER, "thickness_mm": float("nan")}, "thickness_mm"),
    ],
)
def test_a_layer_that_cannot_lie_there_is_refused(fields, field):
    with pytest.raises(DimensionError) as error:
        Layer(material="X", **fields)

    assert [fault.field for fault in error.value.faults] == [field]
