"""A workbook counts with its own formulas and with nobody else's."""

import io

import openpyxl
import pytest

from roofmodel.drawings.lists import take_off_list


@pytest.mark.parametrize("typed", ["=1+1", '=HYPERLINK("x")'])
def test_what_somebody_typed_is_no_formula_of_a_workbook(typed):
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.append([typed, 3.5])
    take_off_list.as_text(sheet)
    sheet.cell(1, 3).value = "=B1*2"
    written = io.BytesIO()
    book.save(written)

    read = openpyxl.load_workbook(io.BytesIO(written.getvalue())).active

    assert [cell.data_type for cell in read[1]] == ["s", "n", "f"]
    assert read.cell(1, 1).value == typed
