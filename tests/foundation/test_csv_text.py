"""Nothing anybody typed is run by the spreadsheet that opens a list (OWASP's list of signs)."""

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roofmodel.foundation import csv_text

RUN = ["=1+1", "+cmd|' /C calc'!A0", "@SUM(A1)", "-2+3", "\t=1", "\r=1", '=HYPERLINK("x")']


@pytest.mark.parametrize("entry", RUN)
def test_text_a_spreadsheet_would_run_is_text(entry):
    ((found,),) = csv.reader(io.StringIO(csv_text.text([[entry]]), newline=""))

    assert found == f"'{entry}"


@pytest.mark.parametrize("entry", ["-12.50", "+3", "1e-3", -4.5, 0, "O'Neill", "a=b", None])
def test_numbers_and_ordinary_text_stay_as_they_are(entry):
    ((found,),) = csv.reader(io.StringIO(csv_text.text([[entry]]), newline=""))

    assert found == ("" if entry is None else str(entry))


@given(st.text() | st.text("'=+-@a1", max_size=5))
def test_what_was_typed_comes_back_from_the_list(entry):
    assert csv_text.as_typed(str(csv_text.harmless(entry))) == entry
