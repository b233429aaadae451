"""The partings of a long piece: what the rules allow, and nothing else."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roofmodel.cutting.parts.parting import FULL_FIRST, Parting, Room, Sizes, candidates

BOARD = Room(sheet_mm=2400.0, least_mm=150.0, gap_mm=0.0)

mm = st.floats(1.0, 9_000.0)
partings = st.one_of(
    st.just(Parting()),
    st.builds(
        lambda x, end: Parting(rest_mm=x, rest_at=end), mm, st.sampled_from(["head", "foot"])
    ),
    st.builds(lambda x: Parting(first_mm=x), mm),
)


@given(
    length_mm=mm,
    parting=partings,
    room=st.builds(
        Room,
        sheet_mm=st.floats(900.0, 3_000.0),
        least_mm=st.floats(20.0, 300.0),
        gap_mm=st.floats(0.0, 10.0),
    ),
)
def test_parts_and_gaps_make_up_the_piece_in_as_few_parts_as_can_be(length_mm, parting, room):
    found = room.lengths_mm(length_mm, parting)
    gaps = room.gap_mm * (len(found) - 1)

    assert sum(found) + gaps == pytest.approx(length_mm)
    assert max(found) <= room.sheet_mm + 0.02
    # One part fewer would be longer than the sheets in line.
    assert (len(found) - 1) * (room.sheet_mm + room.gap_mm) < length_mm + room.gap_mm
    if len(found) > 1 and length_mm - gaps >= len(found) * room.least_mm:
        assert min(found) >= room.least_mm - 1e-6


def test_full_lengths_come_first_where_the_rest_is_long_enough():
    assert BOARD.lengths_mm(2900.0, FULL_FIRST) == pytest.approx([2400.0, 500.0])
    assert BOARD.lengths_mm(5000.0, FULL_FIRST) == pytest.approx([2400.0, 2400.0, 200.0])


def test_a_rest_below_the_least_takes_from_the_part_before_it():
    """The case of the review: a bay of 2409.2 on boards of 2400."""
    assert BOARD.lengths_mm(2409.2, FULL_FIRST) == pytest.approx([2259.2, 150.0])


def test_the_rest_lies_at_the_end_asked_for():
    parting = Parting(rest_mm=600.0, rest_at="foot")

    assert BOARD.lengths_mm(2500.0, parting) == pytest.approx([600.0, 1900.0])


def test_a_rest_as_wide_as_two_to_a_board_is_worth_a_trial():
    """By hand: 2 × 598.5 + 3 = 1200."""
    sizes = Sizes(lengths_mm=(2409.2,), widths_mm=(545.0,), raked=False)
    found = candidates(sizes, BOARD, sheet_width_mm=1200.0, kerf_mm=3.0, most=50)

    assert found[0] == FULL_FIRST
    assert Parting(rest_mm=598.5) in found
    assert Parting(first_mm=2400.0 - 548.0) in found
