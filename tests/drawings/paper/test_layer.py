import re

from roofmodel.buildups import catalogue
from roofmodel.drawings.paper import layer

MAKERS = (
    layer.cut,
    layer.bevel,
    layer.direction,
    layer.mark,
    layer.dimension,
    layer.stock,
    layer.offcut,
    layer.offcut_mark,
    layer.sequence,
    layer.diagonal,
    layer.laid_board,
    layer.laid_mark,
)


def test_the_layers_of_a_deck_board_carry_the_agreed_names_and_colours():
    made = {one.name: one.colour for one in (make("27OSB") for make in MAKERS[:7])}

    assert made == {
        "W-27OSB-E-CUT": 1,
        "W-27OSB-E-BVL": 6,
        "W-27OSB-J-GRN": 3,
        "W-27OSB-T-MRK": 7,
        "W-27OSB-D-DIM": 2,
        "W-27STK-E-BRD": 8,
        "W-27STK-E-OFF": 8,
    }


def test_every_layer_name_keeps_the_pattern_agent_element_presentation():
    codes = [good.drawing_code for good in catalogue.shipped().sheet_goods().values()]
    own = [one for one in vars(layer).values() if isinstance(one, layer.DrawingLayer)]
    names = [one.name for one in own] + [make(code).name for make in MAKERS for code in codes]

    assert all(re.fullmatch(r"W-[0-9A-Z-]{6}[ETHDJKGUBV]-[A-Z]{3}", name) for name in names)


def test_what_a_layer_is_called_does_not_choose_how_its_lines_are_dashed():
    hidden = layer.DrawingLayer("W-27DET-E-OLD", 8, line=layer.LineType.HIDDEN)
    unbroken = layer.DrawingLayer("W-27DET-E-HID", 8)

    assert hidden.line.value == (3.0, 1.5)
    assert unbroken.line.value == ()
