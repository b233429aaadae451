"""The firm's tables in a window: a row is typed, refused, saved, withdrawn and put back."""

import pytest

from roofmodel.foundation.layered import Standing
from roofmodel.workbench.firm import tables
from roofmodel.workbench.firm.table import NORMS, RECIPES, STACKS, SUPPLIERS

pytestmark = pytest.mark.desktop


@pytest.fixture
def window(qtbot, tmp_path):
    from roofmodel.desktop.firm.tables_window import TablesWindow

    made = TablesWindow(None, tmp_path)
    qtbot.addWidget(made)
    return made


def show(window, one):
    window.table.setCurrentIndex(window.table.findData(one))


def test_a_row_is_typed_and_saved_and_then_is_the_firms(window, tmp_path, qtbot):
    window.choose("FOM-750")
    window.form.type("terms", "2 × bay_rim_m + job ÷ 4")
    with qtbot.waitSignal(window.saved):
        window.save.click()

    row = next(one for one in tables.load(tmp_path).recipes if one.material == "FOM-750")
    assert [(term.driver, term.rate, term.divide) for term in row.terms] == [
        ("bay_rim_m", 2.0, None),
        ("job", None, 4.0),
    ]
    assert window.current.standing is Standing.OWN
    window.only_own.setChecked(True)
    assert window.list.rowCount() == 1
    window.restore.click()
    assert not RECIPES.own(tmp_path)


def test_a_row_that_cannot_stand_stays_typed_and_is_told(window, tmp_path):
    window.choose("FOM-750")
    window.form.type("terms", "3 × eave_m")
    window.save.click()

    assert "“eave_m”" in window.trouble.text()
    assert "Did you mean eaves_m" in window.trouble.text()
    assert window.form.typed["terms"] == "3 × eave_m"
    assert not (tmp_path / RECIPES.file).exists()


def test_a_row_is_copied_under_a_new_code_and_removed(window, tmp_path):
    show(window, NORMS)
    window.choose("set-up")
    window.form.type("name", "Set up twice")
    window.new_code.setText("set-up")
    window.copy.click()
    assert "There is a row set-up already" in window.trouble.text()
    window.new_code.setText("set-up-again")
    window.copy.click()

    assert window.current.code == "set-up-again"
    assert [one.code for one in tables.load(tmp_path).norms if one.name == "Set up twice"] == [
        "set-up-again"
    ]
    assert window.restore.text() == "&Remove"
    window.restore.click()
    assert not NORMS.own(tmp_path)


def test_a_row_is_withdrawn_unless_the_table_cannot_do_without(window, tmp_path):
    show(window, STACKS)
    window.choose("new-roof")
    assert not window.withdraw.isEnabled()
    assert not window.copy.isEnabled()
    show(window, SUPPLIERS)
    window.choose("group.sheets")
    window.withdraw.click()

    assert window.current.standing is Standing.WITHDRAWN
    assert "sheets" not in tables.load(tmp_path).suppliers.group
    window.restore.click()
    assert tables.load(tmp_path).suppliers == tables.shipped().suppliers


def test_the_layers_of_a_preset_are_typed_one_a_line(window, tmp_path):
    show(window, STACKS)
    window.choose("build-round")
    text = window.form.typed["layers"].replace("BRD-OSB18", "BRD-OSB22")
    window.form.type("layers", text)
    window.save.click()

    (method,) = [m for m in tables.load(tmp_path).stacks if m.value == "build-round"]
    codes = [layer.material for layer in tables.load(tmp_path).stacks[method].layers]
    assert "BRD-OSB22" in codes
    assert "BRD-OSB18" not in codes


def test_what_ships_otherwise_since_is_marked_until_it_is_kept(window, tmp_path):
    window.choose("FOM-750")
    window.form.type("note", "ours")
    window.save.click()
    path = tmp_path / RECIPES.file
    text = path.read_text(encoding="utf-8")
    mark = text.split("FOM-750 = ")[1].split("\n")[0]
    path.write_text(text.replace(mark, '"OLDMARK"'), encoding="utf-8")
    window.refresh()

    assert "has changed since" in window.current.remark
    window.noted.click()
    assert window.current.remark == ""
    assert RECIPES.own(tmp_path).rows["FOM-750"]["note"] == "ours"


def test_a_file_that_cannot_be_read_is_told_and_left_alone(window, tmp_path):
    (tmp_path / RECIPES.file).write_text("[[recipe]\n", encoding="utf-8")
    window.refresh()

    assert "recipes.toml cannot be read" in window.trouble.text()
    assert window.list.rowCount() == 0
