"""A row as it is typed: every shipped row reads back the same, and slips are told by label."""

import pytest

from roofmodel.foundation.errors import ResourceError
from roofmodel.workbench.firm import firm, row_text, table
from roofmodel.workbench.firm.table import EXTRAS, NORMS, RECIPES, STACKS, SUPPLIERS, WAYS

ROWS = [(one, code) for one in row_text.TYPED for code in one.layers.shipped]


def typed(one, code, row):
    return {field.path: field.shown(row) for field in row_text.fields(one, code)}


def without_float(value):
    """Return a value in which 1 and 1.0 are the same."""
    if isinstance(value, dict):
        return {name: without_float(one) for name, one in value.items()}
    if isinstance(value, list):
        return [without_float(one) for one in value]
    return float(value) if isinstance(value, int) and not isinstance(value, bool) else value


@pytest.mark.parametrize(("one", "code"), ROWS, ids=[f"{one.name}:{code}" for one, code in ROWS])
def test_every_shipped_row_reads_back_as_it_is_shown(one, code):
    row = one.layers.shipped[code]
    read = row_text.entered(one, code, typed(one, code, row), row)

    assert read == row
    # Typed from nothing it is the same too, but for what has no field and what is empty.
    bare = row_text.entered(one, code, typed(one, code, row), {})
    if not isinstance(row, dict):
        assert bare == row
        return
    known = {field.path.split(".")[0] for field in row_text.fields(one, code) if not field.fixed}
    expected = {name: value for name, value in row.items() if name in known and value != []}
    if "source" in expected and one is WAYS:
        expected["source"] = bare["source"]
    assert without_float(bare) == without_float(expected)


def test_a_changed_row_can_stand_and_keeps_what_has_no_field(tmp_path):
    row = NORMS.layers.shipped["set-up-new-roof"]
    texts = typed(NORMS, "set-up-new-roof", row) | {"terms": "2 × job + eaves_m ÷ 2.5"}
    read = row_text.entered(NORMS, "set-up-new-roof", texts, row)

    assert read["code"] == "set-up-new-roof"
    assert read["terms"] == [{"driver": "job", "rate": 2.0}, {"driver": "eaves_m", "divide": 2.5}]
    own = NORMS.layers.with_row(NORMS.own(None), "set-up-new-roof", read)
    firm.check(NORMS, own, tmp_path)


def test_a_field_that_is_emptied_is_left_out():
    row = RECIPES.layers.shipped["TIM-WP100"]
    read = row_text.entered(RECIPES, "TIM-WP100", typed(RECIPES, "", row) | {"note": ""}, row)

    assert "note" not in read


def test_a_row_is_copied_under_another_code():
    row = row_text.named(RECIPES, "FOAM-2", RECIPES.layers.shipped["FOM-750"])

    assert RECIPES.code_of(row) == "FOAM-2"
    assert row["material"] == "FOM-750"
    assert row_text.named(SUPPLIERS, "group.x", {"supplier": "s"}) == {"supplier": "s"}


@pytest.mark.parametrize(
    ("one", "field", "text", "said"),
    [
        (RECIPES, "terms", "two times eaves", "Quantity: “two times eaves” is no term. Write such"),
        (RECIPES, "terms", "2 × eaves_m ÷ 3", "is no term"),
        (RECIPES, "round_up", "much", "Rounded up to: “much” is not a number"),
        (RECIPES, "through_mm", "60", "two thicknesses, such as 0, 60"),
        (EXTRAS, "lights", "1.5", "More downlights: “1.5” is not a whole number"),
        (STACKS, "layers", "A; bars; between; thick", "“thick” is not a number"),
        (WAYS, "abutment_gap_mm", "3 mm", "Gap at walls"),
    ],
)
def test_a_slip_is_told_by_the_fields_label_and_what_to_type(one, field, text, said):
    code, row = next(iter(one.layers.shipped.items()))

    with pytest.raises(ResourceError, match=said):
        row_text.entered(one, code, typed(one, code, row) | {field: text}, row)


def test_every_typed_table_is_one_of_the_firms():
    assert set(row_text.TYPED) < set(table.TABLES)
