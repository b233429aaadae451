"""A table of the firm over the shipped one: read, laid, written back, refused where it is none."""

import pytest

from roofmodel.foundation.errors import ResourceError
from roofmodel.foundation.layered import Own, Standing
from roofmodel.workbench.firm import table
from roofmodel.workbench.firm.table import EXTRAS, RECIPES, STACKS, SUPPLIERS, TABLES


def keep(folder, one, text):
    (folder / one.file).write_text(text, encoding="utf-8")
    return folder


@pytest.mark.parametrize("one", TABLES, ids=lambda one: one.name)
def test_every_shipped_table_is_rows_with_a_code_each_and_laid_bare_reads_the_same(one, tmp_path):
    found = one.laid(tmp_path)

    assert found.rows == one.layers.shipped
    assert all(found.rows)
    assert set(found.standing.values()) == {Standing.SHIPPED}


@pytest.mark.parametrize("one", TABLES, ids=lambda one: one.name)
def test_rows_of_any_table_that_are_kept_read_back_equal_with_their_marks(one, tmp_path):
    shipped = one.layers.shipped
    if one.whole:
        rows = shipped
    elif one.key:
        rows = {code: {**row, "note": "ours"} for code, row in list(shipped.items())[:2]}
    else:
        rows = {"group.sheets": {"supplier": "ours", "lead": "?"}, "not_ordered": ["structure"]}
    own = Own()
    for code, row in rows.items():
        own = one.layers.with_row(own, code, row)
    one.save(own, tmp_path)

    assert own.rows == rows
    assert one.own(tmp_path) == own


def test_rows_are_added_replaced_and_withdrawn_by_the_file(tmp_path):
    keep(
        tmp_path,
        EXTRAS,
        'withdrawn = ["four-lights"]\n'
        '[[extra]]\nid = "one-light"\nname = "Another light"\nchanges = "fitted"\n'
        'methods = ["new-roof"]\nlights = 1\nsource = "the firm"\n'
        '[[extra]]\nid = "two-lights"\nname = "Two"\nchanges = "fitted"\n'
        'methods = ["new-roof"]\nlights = 2\nsource = "the firm"\n',
    )
    found = EXTRAS.laid(tmp_path)

    assert found.rows["one-light"]["name"] == "Another light"
    assert "four-lights" not in found.rows
    assert list(found.rows)[-1] == "two-lights"
    assert found.of(Standing.NEW) == {"two-lights"}


def test_a_supplier_of_one_group_is_the_firms_and_the_others_are_as_shipped(tmp_path):
    keep(
        tmp_path, SUPPLIERS, '[group]\n"box gutter" = { supplier = "our fabricator", lead = "4" }\n'
    )
    found = SUPPLIERS.as_read(SUPPLIERS.laid(tmp_path).rows)

    assert found["group"]["box gutter"]["supplier"] == "our fabricator"
    assert found["group"]["sheets"]["supplier"] == "timber and sheet merchant"


@pytest.mark.parametrize(
    ("one", "text", "said"),
    [
        (RECIPES, "[[recipes]]\nmaterial = 'X'\n", r"“recipes” does not belong.*\[\[recipe\]\]"),
        (RECIPES, "recipe = 3\n", "not a list of rows"),
        (RECIPES, "[[recipe]]\ngroup = 'g'\n", "recipe 1: the row has no code. Add “material”"),
        (RECIPES, "[[recipe]]\nmaterial='X'\n[[recipe]]\nmaterial='X'\n", "“X” appears 2 times"),
        (RECIPES, "withdrawn = 3\n", "not a list of codes"),
        (RECIPES, "[[recipe]\n", "cannot be read"),
        (STACKS, "[[method]]\nid = 'thatch'\n", "thatch: in “Presets of the methods” rows can be"),
        (STACKS, "withdrawn = ['new-roof']\n", "none added or withdrawn"),
    ],
)
def test_a_file_that_is_no_table_is_refused_with_file_row_and_remedy(tmp_path, one, text, said):
    keep(tmp_path, one, text)

    with pytest.raises(ResourceError, match=said) as told:
        one.laid(tmp_path)
    assert one.file in str(told.value)


def test_a_file_no_firm_has_is_not_read(tmp_path):
    keep(tmp_path, RECIPES, "#" * (table.door.MOST_BYTES + 1))

    with pytest.raises(ResourceError, match=r"recipes\.toml has 4\.0 MB"):
        RECIPES.laid(tmp_path)


def test_the_version_before_stays_beside_the_file(tmp_path):
    code, row = next(iter(RECIPES.layers.shipped.items()))
    own = RECIPES.layers.with_row(Own(), code, {**row, "note": "ours"})
    RECIPES.save(own, tmp_path)
    RECIPES.save(RECIPES.layers.restored(own, code), tmp_path)

    assert "ours" in (tmp_path / "recipes.before.toml").read_text(encoding="utf-8")
    assert not RECIPES.own(tmp_path)


def test_nothing_of_ones_own_makes_no_file(tmp_path):
    RECIPES.save(Own(), tmp_path)

    assert list(tmp_path.iterdir()) == []


def test_a_mark_does_not_hang_on_the_order_of_the_fields():
    assert table.mark({"a": 1, "b": [2]}) == table.mark({"b": [2], "a": 1})
    assert table.mark({"a": 1}) != table.mark({"a": 1.5})
