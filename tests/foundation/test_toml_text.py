"""Any small table is written so that it reads back equal."""

import tomllib

from hypothesis import given
from hypothesis import strategies as st

from roofmodel.foundation import toml_text

PLAIN = st.one_of(
    st.text(), st.integers(-9999, 9999), st.booleans(), st.lists(st.text(), max_size=3)
)
GROUP = st.dictionaries(st.text(), PLAIN, max_size=3)
TABLE = st.dictionaries(st.text(), st.one_of(PLAIN, GROUP, st.lists(GROUP, max_size=2)), max_size=4)


@given(TABLE)
def test_any_small_table_reads_back_equal(table):
    assert tomllib.loads(toml_text.dumps(table)) == table


def test_rows_are_written_one_under_the_other_and_nothing_is_left_out_but_none():
    text = toml_text.dumps({"row": [{"code": "A", "x": None}, {"code": "B"}]}, head="Ours")

    assert text == '# Ours\n\n[[row]]\ncode = "A"\n\n[[row]]\ncode = "B"\n'
