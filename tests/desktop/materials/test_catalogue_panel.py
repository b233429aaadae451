"""The catalogue page: found, typed into, put back, saved."""

import dataclasses
from datetime import date, timedelta
from decimal import Decimal

import pytest

from roofmodel.buildups import catalogue, own
from roofmodel.buildups.material import Charge, WasteMode
from roofmodel.foundation.errors import JobFileError

pytestmark = pytest.mark.desktop

SHIPPED = catalogue.shipped()
TODAY = max(row.price.dated for row in SHIPPED.materials.values()) + timedelta(days=20)


class Desk:
    """The page as a person at the screen uses it."""

    def __init__(self, panel):
        self.panel = panel
        self.table = panel.table.table

    @property
    def codes(self):
        return [self.table.item(row, 0).text() for row in range(self.table.rowCount())]

    def cell(self, code, column):
        return self.table.item(self.codes.index(code), column)

    def type(self, code, column, text):
        self.cell(code, column).setText(text)

    def choose(self, code):
        self.table.setCurrentCell(self.codes.index(code), 0)

    def row(self, code):
        return self.panel.entry.merged.catalogue.material(code)


@pytest.fixture
def kept():
    return []


@pytest.fixture
def open_desk(qtbot, qapp, kept):
    from roofmodel.desktop.kit import theme
    from roofmodel.desktop.materials.catalogue_entry import CatalogueEntry
    from roofmodel.desktop.materials.catalogue_panel import CataloguePanel

    if not qapp.styleSheet():
        theme.dress(qapp)

    def keep(rows):
        kept.append(dataclasses.replace(rows, version=rows.version + 1, valid_from=TODAY))
        return kept[-1]

    def show(rows=None, *, today=TODAY, save=keep):
        rows = rows or own.empty(TODAY)
        panel = CataloguePanel(CatalogueEntry(SHIPPED, rows, today=today, save=save))
        qtbot.addWidget(panel)
        panel.resize(1240, 640)
        with qtbot.waitExposed(panel):
            panel.show()
        return Desk(panel)

    return show


@pytest.fixture
def desk(open_desk):
    return open_desk()


def columns():
    from roofmodel.desktop.materials import catalogue_columns

    return catalogue_columns


def test_every_material_stands_in_a_row(desk):
    assert desk.codes == list(SHIPPED.materials)
    assert desk.cell("TIL-LW", columns().PRICE).text() == "62.00"
    assert desk.cell("TIL-LW", columns().PACK).text() == "box of 20"
    assert desk.cell("TIL-LW", columns().WASTE).text() == "5 %"
    assert desk.cell("TIL-LW", columns().ROW).text() == "supplied"
    assert "invented" in desk.cell("TIL-LW", 11).text()


def test_what_is_shown_typed_again_changes_nothing(desk):
    for code, row in SHIPPED.materials.items():
        for column in range(len(columns().HEADS)):
            if columns().may_edit(row, column):
                text = desk.cell(code, column).text()
                assert columns().edited(row, column, text, today=TODAY).row == row


def test_search_and_category_narrow_the_rows(desk):
    desk.panel.search.setText("downpipe")
    assert desk.codes == ["DWN-68", "DWN-FIT", "DRN-GUL"]
    desk.panel.search.clear()
    desk.panel.category.setCurrentText("membrane")
    assert desk.codes == ["MEM-BR15", "TAP-MEM"]
    assert desk.panel.counts.text().startswith("2 of 89 materials")


def test_a_typed_price_makes_an_own_row_dated_today(desk):
    desk.type("TIL-LW", columns().PRICE, "64.20")

    price = desk.row("TIL-LW").price
    assert (price.amount, price.dated) == (Decimal("64.20"), TODAY)
    assert price.source != "invented"
    assert desk.cell("TIL-LW", columns().DATED).text() == str(TODAY)
    assert desk.cell("TIL-LW", columns().ROW).text() == "own"
    assert "dated today" in desk.panel.said.text()


@pytest.mark.parametrize(
    ("code", "column", "typed", "field", "value"),
    [
        ("TIL-LW", "NAME", "Tile, slate grey", "name", "Tile, slate grey"),
        ("TIL-LW", "DATED", "2026-11-03", "price.dated", date(2026, 11, 3)),
        ("TIL-LW", "CHARGED", "by use", "charge", Charge.BY_USE),
        ("TIL-LW", "WASTE", "7.5 %", "waste_percent", 7.5),
        ("TIL-LW", "WASTE", "none", "waste", WasteMode.NONE),
        ("TIL-LW", "PACK", "pallet of 400", "pack.holds", Decimal(400)),
        ("TIL-LW", "PACK", "piece", "pack.holds", Decimal(1)),
        ("BRD-OSB18", "SIZES", "2400 × 1200; 2440 x 1220 mm", "pack.holds", Decimal("2.88")),
        ("BRD-OSB18", "SIZES", "2400 x 1200", "sheet.sizes", None),
    ],
)
def test_every_editable_column_takes_what_belongs_there(desk, code, column, typed, field, value):
    desk.type(code, getattr(columns(), column), typed)

    found = desk.row(code)
    for name in field.split("."):
        found = getattr(found, name)
    assert not desk.panel.entry.rejected
    if value is None:
        assert [(size.length_mm, size.width_mm) for size in found] == [(2400.0, 1200.0)]
    else:
        assert found == value


def test_the_pack_of_a_sheet_follows_its_size_and_says_so(desk):
    desk.type("BRD-OSB18", columns().SIZES, "2400 × 1200")

    assert desk.cell("BRD-OSB18", columns().PACK).text() == "sheet of 2.88"
    assert "2.88 m²" in desk.panel.said.text()


def test_a_size_with_a_price_of_its_own_keeps_it(desk):
    dear = SHIPPED.material("PNL-ALU32").sheet.sizes[1]
    desk.type("PNL-ALU32", columns().SIZES, "3000 × 1300; 3000 × 1200")

    assert desk.row("PNL-ALU32").sheet.sizes[0] == dear


@pytest.mark.parametrize(
    ("code", "column", "typed", "words"),
    [
        ("TIL-LW", "PRICE", "3,5", "Did you mean 3.5?"),
        ("TIL-LW", "PRICE", "-1", "is not possible"),
        ("TIL-LW", "PRICE", "dear", "not a number"),
        ("TIL-LW", "DATED", "31/11/2026", "is not a date"),
        ("TIL-LW", "DATED", "2031-01-01", "in the future"),
        ("TIL-LW", "DATED", "", "has no date"),
        ("TIL-LW", "WASTE", "101", "Enter 0 to 100."),
        ("TIL-LW", "WASTE", "7,5 %", "Did you mean 7.5?"),
        ("TIL-LW", "WASTE", "by plan", "stock lengths"),
        ("TIL-LW", "NAME", "", "Enter the name."),
        ("TIL-LW", "PACK", "", "roll of 75"),
        ("TIL-LW", "PACK", "box of 0", "Enter more than 0."),
        ("TIL-LW", "PACK", "box of 2,5", "Did you mean 2.5?"),
        ("TIL-LW", "CHARGED", "by used", "Did you mean “by use”?"),
        ("BRD-OSB18", "PACK", "sheet of 3", "holds 2.9768 m²"),
        ("BRD-OSB18", "SIZES", "", "without a size"),
        ("BRD-OSB18", "SIZES", "2440", "2440 × 1220"),
        ("BRD-OSB18", "SIZES", "2440 × 200", "smallest piece"),
        ("BRD-OSB18", "SIZES", "2440 × 0", "not possible for a sheet"),
    ],
)
def test_what_cannot_stand_stays_typed_and_is_told_below(desk, code, column, typed, words):
    number = getattr(columns(), column)
    desk.type(code, number, typed)

    assert desk.row(code) == SHIPPED.material(code)
    assert desk.cell(code, number).text() == typed
    assert desk.panel.faults.isVisible()
    assert desk.panel.faults.text().startswith(f"{code}, {columns().HEADS[number]}: ")
    assert words in desk.panel.faults.text()
    assert not desk.panel.save.isEnabled()


def test_a_mended_entry_is_told_no_more(desk):
    desk.type("TIL-LW", columns().PRICE, "3,5")
    desk.type("GUT-UNI", columns().PRICE, "two")
    assert len(desk.panel.faults.text().splitlines()) == 2

    desk.type("TIL-LW", columns().PRICE, "3.5")

    assert desk.row("TIL-LW").price.amount == Decimal("3.5")
    assert desk.panel.faults.text().startswith("GUT-UNI")


def test_many_faults_leave_room_for_the_table(desk):
    for code in desk.codes[:9]:
        desk.type(code, columns().PRICE, "dear")

    lines = desk.panel.faults.text().splitlines()
    assert len(lines) == 6
    assert lines[-1] == "And 4 more, marked in the table."


def test_cells_that_are_not_for_typing_take_none(desk):
    from PySide6.QtCore import Qt

    for column in (0, 2, columns().SIZES, columns().ROW, columns().REMARK, 11):
        assert not desk.cell("TIL-LW", column).flags() & Qt.ItemFlag.ItemIsEditable
    assert desk.cell("TIL-LW", columns().PRICE).flags() & Qt.ItemFlag.ItemIsEditable


def test_stale_and_missing_prices_have_words_and_colour(open_desk):
    from roofmodel.desktop.kit import theme
    from roofmodel.desktop.materials import catalogue_panel

    late = TODAY + timedelta(days=SHIPPED.stale_days)
    desk = open_desk(today=late)
    desk.type("TIL-LW", columns().PRICE, "")
    desk.type("GUT-UNI", columns().PRICE, "2.70")

    remark = desk.cell("TIL-LW", columns().REMARK)
    assert (remark.text(), remark.foreground().color().name()) == ("No price", theme.STOP)
    remark = desk.cell("GUT-BKT", columns().REMARK)
    assert remark.text().startswith("Out of date: ")
    assert remark.foreground().color().name() == theme.QUESTION
    assert desk.cell("GUT-UNI", columns().REMARK).text() == ""
    assert "87 out-of-date and 1 missing prices" in desk.panel.counts.text()
    desk.panel.category.setCurrentText(catalogue_panel.DOUBTFUL)
    assert "GUT-UNI" not in desk.codes
    assert len(desk.codes) == 88


def test_steps_are_taken_back_and_forward(desk):
    desk.type("TIL-LW", columns().PRICE, "64.20")
    desk.type("GUT-UNI", columns().WASTE, "5")
    desk.type("GUT-UNI", columns().PRICE, "3,5")

    desk.panel.undo.click()
    assert not desk.panel.entry.rejected
    assert desk.row("GUT-UNI").waste_percent == 5.0
    desk.panel.undo.click()
    desk.panel.undo.click()
    assert desk.panel.entry.merged.catalogue is SHIPPED
    assert not desk.panel.undo.isEnabled()
    desk.panel.redo.click()
    assert desk.row("TIL-LW").price.amount == Decimal("64.20")


def test_undo_and_redo_keys_work_in_the_table(desk, qtbot):
    from PySide6.QtGui import QKeySequence

    desk.type("TIL-LW", columns().PRICE, "64.20")
    desk.table.setFocus()

    qtbot.keySequence(desk.table, QKeySequence(QKeySequence.StandardKey.Undo))
    assert desk.row("TIL-LW") == SHIPPED.material("TIL-LW")
    qtbot.keySequence(desk.table, QKeySequence(QKeySequence.StandardKey.Redo))
    assert desk.row("TIL-LW").price.amount == Decimal("64.20")


def test_a_price_is_typed_with_keys(desk, qtbot):
    from PySide6.QtCore import Qt
    from PySide6.QtWidgets import QLineEdit

    desk.table.setFocus()
    desk.table.setCurrentCell(desk.codes.index("TIL-LW"), columns().PRICE)
    qtbot.keyClick(desk.table, Qt.Key.Key_F2)
    editor = desk.table.findChild(QLineEdit)
    editor.selectAll()
    qtbot.keyClicks(editor, "71.5")
    qtbot.keyClick(editor, Qt.Key.Key_Return)

    qtbot.waitUntil(lambda: desk.row("TIL-LW").price.amount == Decimal("71.5"))


def test_a_copy_gets_a_code_of_its_own_and_is_led_to(desk):
    desk.panel.search.setText("TIL-LW")
    desk.choose("TIL-LW")
    assert not desk.panel.copy.isEnabled()
    desk.panel.new_code.setText("TIL-OWN")
    desk.panel.copy.click()

    assert desk.row("TIL-OWN") == dataclasses.replace(
        SHIPPED.material("TIL-LW"), code="TIL-OWN", short="OWN"
    )
    assert desk.panel.table.current_code == "TIL-OWN"
    assert desk.cell("TIL-OWN", columns().ROW).text() == "own, new"
    assert desk.panel.drop.text() == "Remove row"
    desk.panel.drop.click()
    assert "TIL-OWN" not in desk.codes


def test_pieces_of_a_copy_are_never_marked_like_those_of_another_material(desk):
    for code in ("BRD-OSB25", "DECK-OSB18"):
        desk.choose("BRD-OSB18")
        desk.panel.new_code.setText(code)
        desk.panel.copy.click()

    assert desk.row("BRD-OSB25").short == "OSB25"
    assert desk.row("DECK-OSB18").short == "DECK-OSB18"


@pytest.mark.parametrize(
    ("code", "words"), [("GUT-UNI", "already"), ("til own", "capital letters")]
)
def test_a_code_that_is_taken_or_none_is_refused(desk, code, words):
    desk.choose("TIL-LW")
    desk.panel.new_code.setText(code)
    desk.panel.copy.click()

    assert words in desk.panel.faults.text()
    assert len(desk.codes) == len(SHIPPED.materials)


def test_an_own_row_is_put_back_to_the_shipped_one(desk):
    desk.choose("TIL-LW")
    assert desk.panel.drop.text() == "Withdraw row"
    desk.type("TIL-LW", columns().PRICE, "64.20")
    assert desk.panel.drop.text() == "Restore"
    desk.panel.drop.click()

    assert desk.row("TIL-LW") == SHIPPED.material("TIL-LW")
    assert not desk.panel.unsaved


def test_saving_keeps_own_rows_only_and_tells_the_catalogue(desk, kept, qtbot):
    desk.type("TIL-LW", columns().PRICE, "64.20")
    desk.type("GUT-UNI", columns().PRICE, "3,5")
    with qtbot.waitSignal(desk.panel.saved) as told:
        desk.panel.save.click()

    (rows,) = kept
    assert list(rows.materials) == ["TIL-LW"]
    assert told.args[0].material("TIL-LW").price.amount == Decimal("64.20")
    assert told.args[0].version == SHIPPED.version + 1
    assert not desk.panel.unsaved
    assert "version 1" in desk.panel.said.text()
    assert "were left out" in desk.panel.said.text()
    assert "GUT-UNI" in desk.panel.faults.text()


def test_what_cannot_be_saved_is_told_and_kept_on_the_page(open_desk):
    def full(_rows):
        raise JobFileError("The disk is full. Nothing was changed.")

    desk = open_desk(save=full)
    desk.type("TIL-LW", columns().PRICE, "64.20")
    desk.panel.save.click()

    assert "The disk is full." in desk.panel.faults.text()
    assert desk.panel.unsaved
    assert desk.row("TIL-LW").price.amount == Decimal("64.20")


def test_kept_rows_are_there_when_the_page_opens_again(open_desk, kept):
    first = open_desk()
    first.type("TIL-LW", columns().PRICE, "64.20")
    first.panel.save.click()

    again = open_desk(kept[-1])

    assert again.cell("TIL-LW", columns().PRICE).text() == "64.20"
    assert not again.panel.unsaved


def test_the_page_opens_on_the_rows_of_a_folder_and_saves_into_it(qtbot, tmp_path):
    from roofmodel.desktop.materials import catalogue_start
    from roofmodel.workbench.firm import firm_catalogue

    panel = catalogue_start.page(tmp_path / "data", today=TODAY)
    qtbot.addWidget(panel)
    Desk(panel).type("TIL-LW", columns().PRICE, "64.20")
    panel.save.click()

    again = catalogue_start.page(tmp_path / "data", today=TODAY)
    qtbot.addWidget(again)
    assert Desk(again).cell("TIL-LW", columns().PRICE).text() == "64.20"
    found = firm_catalogue.load(tmp_path / "data")
    assert found.material("TIL-LW").price.amount == Decimal("64.20")


def test_rows_that_cannot_be_read_are_told_and_not_written_over(qtbot, tmp_path):
    from roofmodel.desktop.materials import catalogue_start

    file = own.file(tmp_path)
    file.write_text("schema = 1\n[[material", encoding="utf-8")
    panel = catalogue_start.page(tmp_path, today=TODAY)
    qtbot.addWidget(panel)
    assert "catalogue.toml cannot be read" in panel.faults.text()
    Desk(panel).type("TIL-LW", columns().PRICE, "64.20")

    panel.save.click()

    assert panel.unsaved
    assert file.read_text(encoding="utf-8") == "schema = 1\n[[material"


def test_a_price_list_is_shown_before_it_is_taken_and_is_one_step_to_undo(desk, tmp_path):
    from roofmodel.desktop.materials.price_list_dialog import PriceListDialog

    path = tmp_path / "list.csv"
    path.write_text(
        "code,price,date,part no\nTIL-LW,£64.20,20/11/2026,RT 4\nGUT-UNI,27,,\n", encoding="utf-8"
    )
    box = PriceListDialog(desk.panel, path, desk.panel.entry.merged.catalogue, TODAY)
    assert not box.take.isEnabled()
    assert "Row 3 (GUT-UNI), date: The price has no date." in box.faults.toPlainText()

    box.dated.setText("20/11/2026")
    box.dated.editingFinished.emit()
    assert box.take.isEnabled()
    assert [box.table.item(row, 4).text() for row in range(2)] == ["64.20", "27.00"]
    assert "changes by more than half" in box.table.item(1, 7).text()
    assert desk.row("TIL-LW") == SHIPPED.material("TIL-LW")

    desk.panel.entry.take(box.preview)
    desk.panel.refresh()
    assert desk.cell("TIL-LW", columns().PRICE).text() == "64.20"
    assert desk.cell("TIL-LW", columns().SUPPLIER).text() == "RT 4"
    desk.panel.undo.click()
    assert desk.row("GUT-UNI") == SHIPPED.material("GUT-UNI")
    assert not desk.panel.entry.own_codes


def test_the_age_of_a_good_price_is_set_on_the_page_and_kept(desk, kept):
    assert desk.panel.price_lists.days.value() == SHIPPED.stale_days
    desk.panel.price_lists.days.setValue(10)
    assert "Out of date: 20 days old" in desk.cell("TIL-LW", columns().REMARK).text()
    desk.panel.save.click()

    assert kept[-1].price_days == 10


def test_the_prices_of_the_page_are_written_out_and_a_wrong_ending_is_told(desk, tmp_path):
    desk.panel.price_lists.write_to(tmp_path / "prices.xlsx")
    assert (tmp_path / "prices.xlsx").exists()
    desk.panel.price_lists.write_to(tmp_path / "prices.pdf")
    assert "ends in .csv or .xlsx" in desk.panel.faults.text()


def test_what_prices_were_is_listed_newest_first(qtbot):
    from roofmodel.buildups.material import Price
    from roofmodel.buildups.prices.history import PastPrice
    from roofmodel.desktop.materials.price_list_dialog import PriceHistory

    past = [
        PastPrice(
            code="TIL-LW",
            size="",
            price=Price(amount=Decimal(amount), dated=TODAY, source="list"),
            taken_on=TODAY,
        )
        for amount in ("1062.00", "1064.20")
    ]
    box = PriceHistory(None, past)
    qtbot.addWidget(box)

    assert [box.table.item(row, 2).text() for row in range(2)] == ["1,064.20", "1,062.00"]


def test_a_shipped_row_is_withdrawn_found_again_and_restored(desk):
    desk.choose("TIL-LW")
    assert desk.panel.drop.text() == "Withdraw row"
    desk.panel.drop.click()
    assert "TIL-LW" not in desk.codes
    desk.panel.category.setCurrentText("Withdrawn rows")
    assert desk.codes == ["TIL-LW"]
    desk.choose("TIL-LW")
    desk.panel.drop.click()
    desk.panel.category.setCurrentText("All categories")

    assert "TIL-LW" in desk.codes
