"""Laws of every plan of lengths, on random pieces, stocks, racks and saws."""

from dataclasses import replace
from itertools import accumulate, combinations, pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from roofmodel.cutting.lengths import nest as length_nest
from roofmodel.cutting.lengths.bound import least_cost
from roofmodel.cutting.lengths.layout import LengthLayout
from roofmodel.cutting.lengths.plan import LengthOptions, plan
from roofmodel.cutting.lengths.problem import (
    LengthPart,
    LengthPiece,
    LengthProblem,
    RackLength,
    StockLength,
)
from roofmodel.cutting.lengths.splice import SpliceRule, parts_of
from roofmodel.cutting.lengths.verify import faults, faults_in_runs
from roofmodel.foundation.cancellation import Watch

lengths = st.lists(st.integers(50, 3_600), min_size=1, max_size=14)
racks = st.lists(st.integers(50, 4_000), max_size=3).map(
    lambda sizes: tuple(RackLength(label=f"K{i}", length=size) for i, size in enumerate(sizes))
)
stocks = st.sampled_from(
    [
        (StockLength(length=4_800),),
        (StockLength(length=3_600), StockLength(length=4_800)),
        (StockLength(length=3_600, price_pence=290), StockLength(length=4_800, price_pence=390)),
        (
            StockLength(length=3_600, price_pence=111, most=2),
            StockLength(length=4_200, price_pence=350),
            StockLength(length=5_400, price_pence=420),
        ),
    ]
)
kerfs = st.integers(0, 60)


@st.composite
def problems(draw):
    parts = [LengthPart(mark=f"P{i}", length=size) for i, size in enumerate(draw(lengths))]
    return LengthProblem(parts=tuple(parts), stock=draw(stocks), rack=draw(racks), kerf=draw(kerfs))


def nested(problem):
    return length_nest.nest(problem, bound=least_cost(problem).cost, watch=Watch())


@settings(deadline=None, max_examples=20)
@given(problem=problems())
def test_every_plan_can_be_cut_and_no_plan_lies_below_its_bound(problem):
    layout = nested(problem)

    assert faults(problem, layout) == []
    assert least_cost(problem).cost <= layout.cost(problem)


@settings(deadline=None, max_examples=20)
@given(problem=problems())
def test_longest_first_alone_gives_a_plan_that_can_be_cut(problem):
    layout = length_nest.first_fit(problem)

    assert faults(problem, layout) == []
    assert nested(problem).cost(problem) <= layout.cost(problem)


@settings(deadline=None, max_examples=10)
@given(problem=problems())
def test_the_same_input_gives_the_same_plan(problem):
    assert nested(problem) == nested(problem)


@settings(deadline=None, max_examples=20)
@given(problem=problems(), more=st.integers(1, 60))
def test_a_wider_saw_cut_never_needs_less_than_the_bound_of_a_narrower_one(problem, more):
    wider = replace(problem, kerf=problem.kerf + more)

    assert nested(wider).cost(wider) >= least_cost(problem).cost


@settings(deadline=None, max_examples=20)
@given(sizes=st.lists(st.integers(50, 3_600), min_size=1, max_size=6), kerf=kerfs)
def test_the_bound_is_not_above_the_best_plan_of_all_there_are(sizes, kerf):
    parts = tuple(LengthPart(mark=f"P{i}", length=size) for i, size in enumerate(sizes))
    stock = (StockLength(length=3_600, price_pence=290), StockLength(length=4_800, price_pence=390))
    problem = LengthProblem(parts=parts, stock=stock, rack=(), kerf=kerf)
    best = cheapest_of_all(sizes, kerf, {3_600: 290, 4_800: 390})

    assert least_cost(problem).cost <= best <= nested(problem).cost(problem)


def cheapest_of_all(sizes, kerf, prices):
    """Try every way of sharing a few pieces among bars."""

    def price(group):
        total = sum(group) + kerf * (len(group) - 1)
        return min((p for length, p in prices.items() if length >= total), default=None)

    def best(rest, groups):
        if not rest:
            costs = [price(group) for group in groups]
            return None if None in costs else sum(costs)
        found = []
        for i in range(len(groups) + 1):
            grown = [*groups, []] if i == len(groups) else list(groups)
            grown[i] = [*grown[i], rest[0]]
            if price(grown[i]) is not None:
                cost = best(rest[1:], grown)
                found += [cost] if cost is not None else []
        return min(found, default=None)

    return best(sizes, [])


@settings(deadline=None)
@given(
    length=st.integers(5_000, 40_000),
    least=st.integers(100, 2_400),
    mitres=st.tuples(st.integers(0, 90), st.integers(0, 90)),
)
def test_a_joined_run_is_whole_and_has_no_short_part(length, least, mitres):
    piece = LengthPiece(mark="A", length=length, left_mitre=mitres[0], right_mitre=mitres[1])
    rule = SpliceRule(least=least)
    parts = parts_of([piece], longest=4_800, splice=rule)

    assert faults_in_runs([piece], parts, rule) == []
    assert max(part.length for part in parts) <= 4_800
    assert len(parts) == -(-piece.cut_length // 4_800)


@settings(deadline=None)
@given(gaps=st.lists(st.integers(1, 6), min_size=2, max_size=9), longest=st.integers(6, 20))
def test_joints_on_bars_are_the_fewest_there_can_be(gaps, longest):
    *places, run = accumulate(gaps)
    piece = LengthPiece(mark="A", length=run, joint_places=tuple(places))
    rule = SpliceRule(least=1)
    fewest = min(
        count
        for count in range(len(places) + 1)
        for joints in combinations(places, count)
        if all(b - a <= longest for a, b in pairwise((0, *joints, run)))
    )
    parts = parts_of([piece], longest=longest, splice=rule)

    assert faults_in_runs([piece], parts, rule) == []
    assert len(parts) == 1 + fewest


def test_the_verifier_names_each_kind_of_fault():
    parts = (LengthPart(mark="A", length=2_000), LengthPart(mark="B", length=2_700))
    rack = (RackLength(label="K", length=2_100),)
    problem = LengthProblem(
        parts=parts, stock=(StockLength(length=4_800, most=1),), rack=rack, kerf=30
    )
    (bar,) = nested(problem).bars

    def said(*bars):
        return " ".join(faults(problem, LengthLayout(bars=bars)))

    assert said(bar) == ""
    assert "B is missing" in said(replace(bar, parts=parts[:1]))
    assert "cut once too often" in said(bar, bar)
    assert "1 are available" in said(bar, bar)
    assert "beyond the length" in said(replace(bar, length=4_700))
    assert "No length of 470 mm can be bought" in said(replace(bar, length=4_700))
    assert "“Z”" in said(replace(bar, label="Z"))
    assert "is not 480 mm long" in said(replace(bar, label="K"))
    used_twice = replace(bar, label="K", length=2_100, parts=parts[:1])
    assert "is cut 2 times" in said(used_twice, used_twice)
    unsawn = replace(bar, kerf=0, parts=parts)
    assert said(unsawn) == "The saw mark of B is at 470, not 473 mm."


def test_the_verifier_finds_a_run_that_was_joined_wrongly():
    piece = LengthPiece(mark="A", length=9_000, joint_places=(4_500,))
    rule = SpliceRule(least=4_600)
    parts = (LengthPart(mark="AA", length=4_400), LengthPart(mark="AB", length=4_600))

    assert faults_in_runs([piece], parts[:1], rule) == ["Piece A is made 440 mm long, not 900 mm."]
    assert faults_in_runs([piece], parts, rule) == [
        "Piece A has a part shorter than 460 mm.",
        "Piece A is joined at 440 mm, where no joint is allowed.",
    ]
    assert faults_in_runs([piece], parts, None) == [
        "Piece A is joined, and joints are not allowed."
    ]
    stray = LengthPart(mark="Z", length=10)
    assert "1 parts belong to no piece ordered." in faults_in_runs([piece], (*parts, stray), rule)


def test_a_whole_plan_repeats_itself():
    ordered = [LengthPiece(mark=f"P{i}", length=1_000 + 137 * i % 2_900) for i in range(30)]
    first, second = (
        plan(
            ordered,
            [StockLength(length=4_800)],
            material="TEST",
            kerf_mm=3.0,
            keep_mm=50.0,
            options=LengthOptions(),
        )
        for _ in range(2)
    )

    assert first == second
