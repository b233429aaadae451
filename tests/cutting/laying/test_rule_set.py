"""Ways of laying chosen by name."""

import pytest

from roofmodel.cutting.laying import rule_set
from roofmodel.cutting.plan import plan
from roofmodel.foundation.errors import CuttingError, ResourceError
from tests.cutting import made

ROW = """
[[rule_set]]
code = "A"
name = "Any"
layers = ["deck"]
joints = "free"
bays_spanned_least = 1
rows = "whole"
rows_from = "eaves"
abutment_gap_mm = 0.0
source = { document = "common practice, no source", place = "", verified = false }
"""


@pytest.mark.parametrize("code", rule_set.shipped())
def test_every_shipped_way_makes_rules_for_a_material_of_its_layers(code):
    way = rule_set.shipped()[code]
    codes = {"deck": "BRD-OSB18", "insulation": "INS-PIR75", "lining": "BRD-PB12"}
    for layer in way.layers:
        rules = way.rules(made.good(codes[layer]))
        assert (rules.joints, rules.rows) == (way.joints, way.rows)
        assert f"from the {way.rows_from}" in rules.claim


def test_one_switch_of_the_way_of_laying_moves_the_gable_from_seven_to_eight():
    def sheets(code):
        return plan(
            made.roof("J07").facets,
            made.good(),
            job_code="J07",
            rules=rule_set.shipped()[code].rules(made.good()),
            supports_mm=made.SUPPORTS["J07"],
            effort="quick",
        ).sheets

    assert (sheets("LAY-BARS-1"), sheets("LAY-BARS-2")) == (7, 8)


def test_a_way_for_another_layer_is_refused():
    with pytest.raises(CuttingError, match="LAY-BARS-2 is not for the insulation, but for deck"):
        rule_set.shipped()["LAY-BARS-2"].rules(made.good("INS-PIR75"))


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (ROW + ROW, "two ways of laying have the code A"),
        (ROW.replace('"free"', '"loose"'), r"rule_set 1 \(A\), joints"),
        (ROW + "colour = 1\n", "colour"),
    ],
)
def test_a_wrong_file_is_refused_with_its_row(tmp_path, text, said):
    path = tmp_path / "laying_rules.toml"
    path.write_text(text, encoding="utf-8")

    with pytest.raises(ResourceError, match=said):
        rule_set.read(path)
