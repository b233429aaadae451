"""Prices go out to a spreadsheet and come back, or the whole list is refused by row and column."""

import csv
import io
import zipfile
from dataclasses import replace
from datetime import date
from decimal import Decimal
from pathlib import Path

import openpyxl
import pytest

from roofmodel.buildups import catalogue
from roofmodel.buildups.catalogue_words import CatalogueFileError
from roofmodel.buildups.material import Price, StockSize
from roofmodel.buildups.prices import csv_list, history, list_file, listed, price_list, workbook
from roofmodel.foundation.errors import ResourceError

SHIPPED = catalogue.shipped()
TODAY = date(2026, 11, 25)
DAY = "2026-11-20"


def preview(content, ending=".csv", known=SHIPPED, **more):
    stored = content.encode() if isinstance(content, str) else content
    reader = {".csv": csv_list.lines, ".xlsx": workbook.lines}[ending]
    has_date = more.get("dated") is not None
    rows = listed.rows(reader(stored, name="list"), name="list", has_date=has_date)
    return price_list.read(rows, known, name="list", today=TODAY, **more)


def faults(content, **more):
    with pytest.raises(CatalogueFileError) as error:
        preview(content, **more)
    return [(one.row, one.column, f"{one.text} {one.remedy}") for one in error.value.faults]


def book(*rows, formats=()):
    made = openpyxl.Workbook()
    for row in rows:
        made.active.append(row)
    for cell, form in formats:
        made.active[cell].number_format = form
    written = io.BytesIO()
    made.save(written)
    return written.getvalue()


@pytest.mark.parametrize("name", ["prices.csv", "prices.xlsx"])
def test_the_list_as_written_changes_nothing(name, tmp_path):
    path = tmp_path / name
    path.write_bytes(list_file.content(SHIPPED, path))
    found = price_list.read(list_file.open_list(path), SHIPPED, name=name, today=TODAY)

    assert found.changes == ()
    assert found.catalogue == SHIPPED
    assert found.same >= len(SHIPPED.materials)


def test_every_price_is_listed_those_of_single_sizes_too():
    rows = list(csv.DictReader(io.StringIO(csv_text_of(SHIPPED))))
    of_material = [row for row in rows if not row["size"]]

    assert [row["code"] for row in of_material] == list(SHIPPED.materials)
    for row in of_material:
        material = SHIPPED.material(row["code"])
        assert Decimal(row["price"]) == material.price.amount
        assert date.fromisoformat(row["date"]) == material.price.dated
    sizes = {(row["code"], row["size"]): row["price"] for row in rows if row["size"]}
    assert sizes["PNL-ALU32", "3000 × 1300"]


def csv_text_of(known):
    return list_file.content(known, Path("x.csv")).decode(csv_list.ENCODING)


def test_a_changed_price_is_taken_and_no_longer_called_invented():
    found = preview(csv_text_of(SHIPPED).replace("62.00,2026-11-01", f"64.20,{DAY}"))

    (change,) = found.changes
    assert (change.code, change.before.amount, change.after.amount) == (
        "TIL-LW",
        62,
        Decimal("64.20"),
    )
    assert change.after.source == price_list.SOURCE
    assert found.catalogue == SHIPPED.with_material(found.catalogue.material("TIL-LW"))


@pytest.mark.parametrize("mark", [",", ";", "\t"])
@pytest.mark.parametrize("end", ["\n", "\r\n"])
@pytest.mark.parametrize("encoding", ["utf-8-sig", "utf-8", "cp1252", "utf-16"])
def test_lists_of_any_spreadsheet_are_understood(mark, end, encoding):
    rows = [["Code", "Price (£)", "Date"], ["TIL-LW", "£64.20", "20/11/2026"], ["", "", ""]]
    text = end.join(mark.join(row) for row in rows)

    (change,) = preview(text.encode(encoding)).changes
    assert (change.after.amount, change.after.dated) == (Decimal("64.20"), date(2026, 11, 20))


def test_a_suppliers_letterhead_may_stand_above_the_headings():
    text = (
        f"Our prices from 1 November,,\n,,\nMaterial code,Net price,Valid from\nTIL-LW,64,{DAY}\n"
    )

    assert [one.code for one in preview(text).changes] == ["TIL-LW"]


def test_a_workbook_may_have_other_sheets_before_the_one_with_prices():
    made = openpyxl.Workbook()
    made.active.append(["Dear customer"])
    sheet = made.create_sheet("List")
    sheet.append(["code", "price", "date"])
    sheet.append(["TIL-LW", 64.2, date(2026, 11, 20)])
    written = io.BytesIO()
    made.save(written)

    (change,) = preview(written.getvalue(), ".xlsx").changes
    assert change.after == Price(
        amount=Decimal("64.2"), dated=date(2026, 11, 20), source=price_list.SOURCE
    )


def test_the_day_of_a_whole_list_may_be_said_once():
    (change,) = preview("code,price\nTIL-LW,64\n", dated=TODAY).changes

    assert change.after.dated == TODAY


def test_a_price_of_one_size_of_sheet_is_changed_alone():
    (change,) = preview(f"code,size,price,date\nPNL-ALU32,3000 x 1300,190,{DAY}\n").changes

    assert change.named == "PNL-ALU32 3000 × 1300"
    found = preview(f"code,size,price,date\nPNL-ALU32,3000 x 1300,190,{DAY}\n").catalogue
    sizes = {(x.length_mm, x.width_mm): x.price for x in found.material("PNL-ALU32").sheet.sizes}
    assert sizes[3000.0, 1300.0].amount == 190
    assert found.material("PNL-ALU32").price == SHIPPED.material("PNL-ALU32").price


def test_a_suppliers_code_is_taken_and_finds_its_row_from_then_on():
    first = preview("code,price,date,supplier code\nTIL-LW,62.00,2026-11-01,RT 4471\n")
    assert [change.supplier_code for change in first.changes] == ["RT 4471"]
    known = first.catalogue

    (change,) = preview(f"part no,code,price,date\nrt 4471,,66,{DAY}\n", known=known).changes
    assert (change.code, change.after.amount) == ("TIL-LW", 66)


def test_every_fault_is_told_with_row_and_column_and_nothing_is_taken():
    found = faults(
        "code;price;date\n"
        f"TIL-LW;64,20;{DAY}\n"
        f"TILE-LW;64;{DAY}\n"
        "GUT-112;-1;31/11/2026\n"
        f"GUT-UNI;;{DAY}\n"
        "GUT-ANG;€ 4.80;\n"
        "GUT-BKT;cheap;soon\n"
        f"MEM-BR15;1;{DAY}\n"
        f"MEM-BR15;2;{DAY}\n"
        "FOM-750;=B2*1.2;2062-11-20\n"
    )

    assert [(row, column) for row, column, _ in found] == [
        (row, column) for row, column, _ in _WANTED
    ]
    for (_, _, told), (_, _, words) in zip(found, _WANTED, strict=True):
        assert words in told


_WANTED = [
    (2, "price", "Did you mean 64.20?"),
    (3, "code", "Did you mean “TIL-LW”?"),
    (4, "price", "is not possible"),
    (4, "date", "“31/11/2026” is not a date."),
    (5, "price", "There is no price."),
    (6, "price", "is not in pounds. Enter what it costs in GBP"),
    (6, "date", "has no date"),
    (7, "price", "“cheap” is not a number."),
    (7, "date", "day/month/year"),
    (9, "code", "MEM-BR15 is in rows 8 and 9."),
    (10, "price", "holds a formula, =B2*1.2. Paste its value"),
    (10, "date", "in the future"),
]


def test_formulas_and_other_currencies_of_a_workbook_are_refused_by_row():
    content = book(
        ["code", "price", "date"],
        ["TIL-LW", "=2*32", date(2026, 11, 20)],
        ["GUT-UNI", 2.7, date(2026, 11, 20)],
        ["GUT-ANG", 5.1, date(2026, 11, 20)],
        formats=[("B3", "[$€-407]#,##0.00"), ("B4", "[$£-809]#,##0.00")],
    )
    found = faults(content, ending=".xlsx")

    assert [(row, column) for row, column, _ in found] == [(2, "price"), (3, "price")]
    assert "formula" in found[0][2]
    assert "not in pounds" in found[1][2]


def test_a_column_of_another_currency_is_refused():
    ((_, column, told),) = faults(f"code,price,date,currency\nTIL-LW,64,{DAY},EUR\n")

    assert (column, "in EUR, not in pounds" in told) == ("currency", True)


@pytest.mark.parametrize(
    ("content", "ending", "said"),
    [
        ("", ".csv", "list is empty. Head the columns code, price, date"),
        (" \n\n", ".csv", "list is empty"),
        (book(), ".xlsx", "list is empty"),
        ("code,price,date\n", ".csv", "headings but no rows under them"),
        ("code,price,price,date\nx,1,2,3\n", ".csv", "Two columns are headed “price”"),
        ("code;cost price list\nTIL-LW;3\n", ".csv", "price: This column is missing"),
        ("code,price,date\n" + "x" * 200_000, ".csv", "is not a list"),
        (b"PK\x03\x04 not really", ".xlsx", "is not a workbook"),
        (b"\x89PNG\x00\x00", ".csv", "is not a CSV list"),
        ("code,price,date\n" + "TIL-LW,1,2026-11-01\n" * 50_000, ".csv", "more than 20000 rows"),
        (f"code,price,date\nX-1,1,{DAY}\nX-2,1,{DAY}\n", ".csv", "There is no material “X-1”"),
    ],
    ids=["empty", "blank", "bare book", "no rows", "twice", "missing", "no list", "broken book",
         "picture", "long", "strange"],
)  # fmt: skip
def test_what_is_no_price_list_is_refused_in_a_sentence(content, ending, said):
    with pytest.raises(ResourceError, match=said):
        preview(content, ending)


def test_a_workbook_that_unpacks_to_more_than_any_list_is_not_unpacked():
    written = io.BytesIO()
    with zipfile.ZipFile(written, "w", zipfile.ZIP_DEFLATED) as packed:
        packed.writestr("xl/worksheets/sheet1.xml", b" " * 70_000_000)
    assert len(written.getvalue()) < 100_000

    with pytest.raises(ResourceError, match="unpacks to 70 MB"):
        preview(written.getvalue(), ".xlsx")


def test_materials_the_firm_does_not_have_may_be_passed_over_and_are_counted():
    text = f"code,price,date\nTIL-LW,64,{DAY}\nX-1,1,{DAY}\nX-2,1,{DAY}\n"
    found = preview(text, only_known=True)

    assert (len(found.changes), found.passed_over) == (1, 2)
    with pytest.raises(ResourceError, match="no row has the code"):
        preview(f"code,price,date\nX-1,1,{DAY}\n", only_known=True)


def test_thousands_of_faults_are_counted_not_printed():
    with pytest.raises(CatalogueFileError) as told:
        preview("code,price,date\n" + "".join(f"X-{i},1,{DAY}\n" for i in range(3000)))

    assert len(str(told.value)) < 10_000
    assert "and 2960 more. Nothing was changed." in str(told.value)


def test_a_comma_that_makes_two_cells_of_a_price_is_noticed():
    (row, column, told), other = faults(
        f"code,price,date\nTIL-LW,64,20,{DAY}\nGUT-UNI,dear,{DAY}\n"
    )

    assert (row, column) == (2, "row")
    assert other[:2] == (3, "price")
    assert "4 cells under 3 headings" in told


def test_a_material_without_a_price_may_stay_so():
    bare = SHIPPED.with_material(replace(SHIPPED.material("TIL-LW"), price=None))

    assert preview(csv_text_of(bare), known=bare).changes == ()


def test_a_change_that_should_be_looked_at_says_why():
    def remark(price, day=DAY):
        (change,) = preview(f"code,price,date\nTIL-LW,{price},{day}\n").changes
        return change.remark

    assert remark("64") == ""
    assert remark("6.40").startswith("changes by more than half")
    assert remark("64", "2026-10-01") == "older than the price of 2026-11-01"
    assert "half" in remark("0")


def test_a_name_a_spreadsheet_would_run_is_written_as_text_and_its_code_still_known():
    code, material = next(iter(SHIPPED.materials.items()))
    odd = SHIPPED.with_material(replace(material, name="=1+1"))

    assert f"{code},'=1+1," in csv_text_of(odd)
    assert preview(csv_text_of(odd), known=odd).changes == ()
    found = openpyxl.load_workbook(io.BytesIO(workbook.content(price_list.rows(odd))))
    assert found.active["B2"].data_type == "s"


def test_a_history_holds_old_and_new_prices_and_reads_back_equal():
    tile = SHIPPED.material("TIL-LW")
    dearer = replace(tile, price=Price(amount=Decimal("64.20"), dated=TODAY, source="=list"))
    panel = SHIPPED.material("PNL-ALU32")
    sizes = (replace(panel.sheet.sizes[0], price=dearer.price), *panel.sheet.sizes[1:])
    resized = replace(panel, sheet=replace(panel.sheet, sizes=sizes))
    after = SHIPPED.with_material(dearer).with_material(resized)

    found = history.grown((), SHIPPED, after, day=TODAY)
    assert [(x.code, x.size, str(x.price.amount)) for x in found if x.code == "TIL-LW"] == [
        ("TIL-LW", "", "62.00"),
        ("TIL-LW", "", "64.20"),
    ]
    assert isinstance(sizes[0], StockSize)
    assert [x.size for x in found if x.code == "PNL-ALU32"] == [
        price_list.size_words((sizes[0].length_mm, sizes[0].width_mm))
    ]
    assert history.loads(history.dumps(found), name="x") == found
    assert history.grown(found, after, after, day=TODAY) == found
    with pytest.raises(ResourceError, match="row 2: the line is damaged"):
        history.loads("head\nTIL-LW,1\n", name="x")
