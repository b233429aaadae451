"""Runs joined so that they take the least stock, each by the rule of its kind."""

from hypothesis import given
from hypothesis import strategies as st

from roofmodel.cutting.lengths.joining import Joinable, Saw, joinings
from roofmodel.cutting.lengths.problem import LengthPiece
from roofmodel.cutting.lengths.splice import SpliceRule
from roofmodel.cutting.lengths.verify import faults_in_runs

BATTEN = Saw(stock=48_000, longest=48_000, kerf=30, least=3_000)


def run(mark, length_mm, joined, *joints_mm):
    return Joinable(piece=LengthPiece.of_mm(mark, length_mm, joints_mm=joints_mm), joined=joined)


def lengths_of(parts):
    return sorted(part.length for part in parts)


def test_a_level_batten_is_joined_on_the_bars_into_what_others_leave():
    """By hand: two of 2900 leave 1897 each; 3600 on bars at 600 is 1800 and 1800."""
    bars = (600.0, 1200.0, 1800.0, 2400.0, 3000.0)
    runs = [
        run("bar 1", 2900.0, "when too long"),
        run("bar 2", 2900.0, "when too long"),
        run("wall", 3600.0, "freely", *bars),
    ]

    assert lengths_of(joinings(runs, BATTEN)) == [18_000, 18_000, 29_000, 29_000]


def test_a_run_that_fits_the_stock_stays_whole_where_it_is_not_joined_freely():
    runs = [run(f"bar {n}", 2900.0, "when too long") for n in range(4)]

    assert lengths_of(joinings(runs, BATTEN)) == [29_000] * 4


def test_a_run_too_long_is_joined_once_and_never_more_often_than_it_must():
    parts = joinings([run("eaves", 6000.0, "when too long"), run("x", 4000.0, "never")], BATTEN)

    assert len([part for part in parts if part.mark.startswith("eaves")]) == 2


def test_without_a_place_for_a_joint_there_is_no_way():
    assert joinings([run("rafter", 6000.0, "never")], BATTEN) is None


@given(
    st.lists(
        st.tuples(st.floats(400.0, 9000.0), st.sampled_from(["when too long", "freely"])),
        min_size=1,
        max_size=8,
    )
)
def test_the_parts_make_up_every_run_and_none_is_too_short(given_runs):
    runs = [run(f"R{n}-", length, joined) for n, (length, joined) in enumerate(given_runs)]
    parts = joinings(runs, BATTEN)
    if parts is None:
        return

    pieces = [one.piece for one in runs]
    assert faults_in_runs(pieces, parts, SpliceRule(least=BATTEN.least)) == []
    assert max(part.length for part in parts) <= BATTEN.stock
