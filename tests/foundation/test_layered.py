"""The firm's rows over the shipped ones: replaced, withdrawn, added; what ships anew is told."""

from hypothesis import given
from hypothesis import strategies as st

from roofmodel.foundation.layered import Layers, Own, Standing


def layers(**shipped):
    return Layers(shipped=shipped, mark=str)


def test_a_row_of_the_firm_stands_in_the_place_of_the_shipped_one_and_others_follow():
    table = layers(a=1, b=2, c=3)
    own = table.with_row(table.with_row(Own(), "new", 9), "b", 20)
    found = table.under(own)

    assert list(found.rows.items()) == [("a", 1), ("b", 20), ("c", 3), ("new", 9)]
    assert found.standing == {
        "a": Standing.SHIPPED,
        "b": Standing.OWN,
        "c": Standing.SHIPPED,
        "new": Standing.NEW,
    }


def test_a_withdrawn_row_is_not_used_and_comes_back_when_restored():
    table = layers(a=1, b=2)
    own = table.withdrawn(table.with_row(Own(), "a", 7), "a")

    assert table.under(own).rows == {"b": 2}
    assert table.under(own).of(Standing.WITHDRAWN) == {"a"}
    assert table.under(table.restored(own, "a")).rows == {"a": 1, "b": 2}


def test_a_row_that_says_what_ships_is_not_kept_unless_the_table_is_kept_whole():
    whole = Layers(shipped={"a": 1}, mark=str, whole=True)

    assert not layers(a=1).with_row(Own(), "a", 1)
    assert whole.under(whole.with_row(Own(), "a", 1)).of(Standing.OWN) == {"a"}


def test_an_update_of_what_ships_changes_no_own_row_and_is_noticed():
    own = layers(a=1, b=2, c=3).with_row(Own(), "a", 10)
    own = layers(a=1, b=2, c=3).withdrawn(own, "c")
    after = layers(a=1.5, b=2.5)  # a ships otherwise, b too, and c ships no more

    assert after.under(own).rows == {"a": 10, "b": 2.5}
    assert after.under(own).outdated == {"a", "c"}
    looked = after.looked_at(after.looked_at(own, "a"), "c")
    assert after.under(looked).outdated == set()
    assert after.under(looked).rows == {"a": 10, "b": 2.5}


codes = st.text("abcd", min_size=1, max_size=1)
steps = st.lists(
    st.tuples(st.sampled_from(["row", "withdraw", "restore"]), codes, st.integers(0, 3))
)


@given(st.dictionaries(codes, st.integers(0, 3)), steps)
def test_whatever_is_done_each_code_has_one_standing_and_is_used_by_it(shipped, steps):
    table, own = layers(**shipped), Own()
    for what, code, row in steps:
        if what == "row":
            own = table.with_row(own, code, row)
        elif what == "withdraw":
            own = table.withdrawn(own, code)
        else:
            own = table.restored(own, code)
    found = table.under(own)

    assert set(found.rows) == set(found.standing) - found.of(Standing.WITHDRAWN)
    for code, standing in found.standing.items():
        expected = {
            Standing.SHIPPED: shipped.get(code),
            Standing.OWN: own.rows.get(code),
            Standing.NEW: own.rows.get(code),
            Standing.WITHDRAWN: None,
        }[standing]
        assert found.rows.get(code) == expected
    assert found.outdated == set()
