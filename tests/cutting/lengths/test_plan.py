"""Lengths cut for one job: figures by hand, joints, the rack, prices, and what is refused."""

import pytest

from roofmodel.cutting.lengths.plan import LengthOptions, plan
from roofmodel.cutting.lengths.problem import LengthPiece, RackLength, StockLength
from roofmodel.cutting.lengths.splice import SpliceRule
from roofmodel.foundation.cancellation import Cancelled, Watch
from roofmodel.foundation.errors import CuttingError

BATTEN = StockLength(length=48_000)
FASCIA = StockLength(length=50_000)


def pieces(*lengths_mm):
    return [LengthPiece.of_mm(f"P{i}", mm) for i, mm in enumerate(lengths_mm, start=1)]


def planned(ordered, *stock, kerf_mm=3.0, keep_mm=500.0, **options):
    return plan(
        ordered,
        stock,
        material="TEST",
        kerf_mm=kerf_mm,
        keep_mm=keep_mm,
        options=LengthOptions(**options),
    )


def bar_pieces(found):
    return [tuple(part.length / 10 for part in bar.parts) for bar in found.bars]


class TestLeanToOfFourByTwoEight:
    """Quantities worked by hand for a lean-to of 4000 × 2800 at 15° with seven bars."""

    def test_battens_along_bars_leave_room_for_those_along_the_perimeter(self):
        # 8.0 m of perimeter in twelve pieces from bar to bar; two go in each 1.9 m left over.
        found = planned([*pieces(*[2898.77] * 7), *pieces_named("N", *[666.7] * 12)], BATTEN)

        assert found.lengths == 7
        assert found.proved

    def test_nine_rows_of_counter_battens_take_a_length_each(self):
        found = planned(pieces(*[4000.0] * 9), BATTEN)

        assert found.lengths == 9
        assert found.proved

    def test_front_and_two_barge_boards_take_a_length_of_fascia_each(self):
        found = planned(pieces(4000.0, 2898.77, 2898.77), FASCIA)

        assert found.lengths == 3
        assert found.proved


def pieces_named(letter, *lengths_mm):
    return [LengthPiece.of_mm(f"{letter}{i}", mm) for i, mm in enumerate(lengths_mm, start=1)]


def test_two_pieces_and_the_saw_cut_between_them_fill_a_length_exactly():
    assert planned(pieces(2398.5, 2398.5), BATTEN).lengths == 1
    assert planned(pieces(2398.5, 2398.6), BATTEN).lengths == 2


def test_saw_marks_run_from_the_left_with_the_saw_cuts_in_them():
    (bar,) = planned(pieces(1000.0, 2000.0, 1500.0), BATTEN).bars

    assert [part.mark for part in bar.parts] == ["P2", "P3", "P1"]
    assert bar.marks == (20_000, 35_030, 45_060)
    assert bar.offcut == 48_000 - 45_060 - 30


def test_only_offcuts_worth_keeping_go_to_the_rack():
    found = planned(pieces(4000.0, 4400.0), BATTEN, keep_mm=500.0)

    assert [(one.label, one.length) for one in found.to_rack] == [("TEST bar 2", 7_970)]


def test_an_offcut_is_used_where_it_saves_a_length():
    found = planned(
        pieces(4000.0, 1500.0), BATTEN, rack=(RackLength(label="rack 7", length=16_000),)
    )

    assert found.lengths == 1
    assert found.from_rack == ("rack 7",)
    assert "with rack 7 from the rack" in found.sentence


def test_an_offcut_stays_in_the_rack_where_it_saves_nothing():
    found = planned(
        pieces(3000.0, 1500.0), BATTEN, rack=(RackLength(label="rack 7", length=16_000),)
    )

    assert found.lengths == 1
    assert found.from_rack == ()


def test_the_sentence_names_lengths_bound_and_rules():
    found = planned(pieces(3500.0, 4700.0), BATTEN, StockLength(length=36_000))

    assert found.sentence == (
        "TEST: 1 length of 4800 mm and 1 length of 3600 mm; these 2 pieces need no less "
        "(by length). Rules: saw cut 3 mm, no joint."
    )


def test_of_priced_lengths_the_cheapest_choice_is_bought():
    # Two of 3600 at 2.80 cost 5.60; one of 4800 and one of 3600 cost 6.70, two of 4800 cost 7.80.
    long = StockLength(length=48_000, price_pence=390)
    short = StockLength(length=36_000, price_pence=280)
    found = planned(pieces(3500.0, 3400.0), long, short)

    assert found.bought == ((36_000, 2),)
    assert found.cost == 560
    assert found.proved
    assert "for 5.60" in found.sentence


def test_a_length_of_which_few_can_be_had_is_not_used_more_often():
    cheap = StockLength(length=48_000, price_pence=100, most=2)
    dear = StockLength(length=48_100, price_pence=500)
    found = planned(pieces(*[4000.0] * 5), cheap, dear)

    assert found.bought == ((48_100, 3), (48_000, 2))
    assert found.cost == 1_700
    assert found.proved


def test_without_prices_the_least_length_is_bought():
    found = planned(pieces(3500.0, 4700.0), BATTEN, StockLength(length=36_000))

    assert found.bought == ((48_000, 1), (36_000, 1))
    assert found.proved
    assert "need no less" in found.sentence


def test_a_mitre_adds_its_own_length_to_the_cut():
    mitred = LengthPiece(mark="A", length=48_000 - 180, left_mitre=180)

    assert planned([mitred], BATTEN).lengths == 1
    with pytest.raises(CuttingError, match="A needs 4818 mm"):
        planned([LengthPiece(mark="A", length=48_000, left_mitre=180)], BATTEN)


def test_several_copies_of_a_piece_are_numbered():
    found = planned([LengthPiece.of_mm("R", 2000.0, count=3)], BATTEN)

    assert sorted(part.mark for part in found.parts) == ["R-1", "R-2", "R-3"]


class TestJoints:
    def test_a_run_joined_anywhere_takes_whole_lengths_first(self):
        found = planned(pieces(12_000.0), FASCIA, splice=SpliceRule(least=6_000))

        assert [(p.mark, p.length) for p in found.parts] == [
            ("P1A", 50_000),
            ("P1B", 50_000),
            ("P1C", 20_000),
        ]
        assert found.joints == 2

    def test_a_rest_too_short_takes_from_its_neighbour(self):
        found = planned(pieces(5200.0), FASCIA, splice=SpliceRule(least=6_000))

        assert [part.length for part in found.parts] == [46_000, 6_000]

    def test_joints_stand_only_where_a_bar_is(self):
        run = LengthPiece.of_mm("B", 7000.0, joints_mm=(600.0, 1800.0, 3000.0, 4200.0, 5400.0))
        found = planned([run], BATTEN, splice=SpliceRule(least=6_000))

        assert [part.length for part in found.parts] == [42_000, 28_000]

    def test_a_run_with_no_bar_within_reach_is_refused(self):
        run = LengthPiece.of_mm("B", 12_000.0, joints_mm=(6000.0,))

        with pytest.raises(CuttingError, match=r"B: a run of 12000 mm cannot be joined"):
            planned([run], BATTEN, splice=SpliceRule(least=6_000))

    def test_mitres_of_a_joined_run_stay_at_its_ends(self):
        run = LengthPiece(mark="B", length=70_000, left_mitre=200, right_mitre=300)
        found = planned([run], BATTEN, splice=SpliceRule(least=6_000))

        assert [part.length for part in found.parts] == [48_000, 22_500]

    def test_a_long_piece_is_refused_where_joints_are_not_allowed(self):
        with pytest.raises(CuttingError, match=r"P1 needs 5200 mm; the longest stock is 5000 mm"):
            planned(pieces(5200.0), FASCIA)


class TestRefusals:
    def test_every_piece_too_long_is_named(self):
        with pytest.raises(CuttingError, match=r"P1 needs.*P3 needs"):
            planned(pieces(6000.0, 1000.0, 5000.0), BATTEN)

    def test_a_missing_price_among_others_is_named(self):
        with pytest.raises(CuttingError, match=r"No price is given for the length of 3600 mm"):
            planned(
                pieces(1000.0),
                StockLength(length=48_000, price_pence=1),
                StockLength(length=36_000),
            )

    def test_too_few_lengths_are_said(self):
        with pytest.raises(CuttingError, match="3 pieces do not fit the lengths available"):
            planned(pieces(*[4000.0] * 3), StockLength(length=48_000, most=2))

    def test_two_pieces_of_one_mark_are_refused(self):
        with pytest.raises(CuttingError, match="Two pieces carry the mark A"):
            planned([LengthPiece.of_mm("A", 10.0), LengthPiece.of_mm("A", 20.0)], BATTEN)

    @pytest.mark.parametrize("length_mm", [0.0, -5.0, float("nan"), float("inf")])
    def test_a_length_that_is_none_is_refused(self, length_mm):
        with pytest.raises(CuttingError, match=r"A: a piece of .* mm cannot be cut"):
            LengthPiece.of_mm("A", length_mm)

    @pytest.mark.parametrize("kerf_mm", [-1.0, 25.0, float("nan")])
    def test_a_saw_cut_no_saw_makes_is_refused(self, kerf_mm):
        with pytest.raises(CuttingError, match="Enter a saw cut of 0 to 20 mm"):
            planned(pieces(1000.0), BATTEN, kerf_mm=kerf_mm)

    def test_nothing_to_cut_is_said(self):
        with pytest.raises(CuttingError, match="There is no piece to cut"):
            planned([], BATTEN)

    def test_a_material_without_stock_lengths_is_named(self):
        with pytest.raises(CuttingError, match="TEST: there is no stock length"):
            planned(pieces(1000.0))


def test_a_plan_that_is_stopped_has_no_result():
    with pytest.raises(Cancelled):
        planned(pieces(1000.0), BATTEN, watch=Watch(cancelled=lambda: True))


def test_progress_is_told_with_its_bound():
    told = []
    planned(pieces(*[4000.0] * 3), BATTEN, watch=Watch(progress=lambda *now: told.append(now)))

    assert told[-1] == (3, 3)
