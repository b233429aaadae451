"""How a search goes on among boardings."""

from roofmodel.cutting.search.search_progress import Tried, Walk


def tried(number, value):
    return Tried(number, (number,), value)


def test_a_walk_goes_on_among_equals_but_counts_that_it_comes_no_further():
    walk = Walk((), 8.5)

    for number in (1, 2, 3):
        walk.meet(tried(number, 8.5))

    assert walk.state == (3,)
    assert walk.idle == 3

    walk.meet(tried(4, 8.4))
    assert (walk.state, walk.idle) == ((4,), 0)

    walk.meet(tried(5, 8.6))
    assert (walk.state, walk.idle) == ((4,), 1)


def test_what_was_thought_of_before_setting_out_anew_is_passed_over():
    walk = Walk((), 8.5)
    walk.anew([("a",), ("b",)], since=7)
    assert walk.state == ("b",)

    walk.meet(tried(7, 1.0))
    assert walk.state == ("b",)

    walk.meet(tried(8, 99.0))
    assert walk.state == (8,)
