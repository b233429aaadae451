"""Looks under way: handed back in the order they were begun, and a second one where it may help."""

import threading
import time
from itertools import cycle

import pytest

from roofmodel.cutting.laying.from_facets import boardings, problem_for
from roofmodel.cutting.laying.rule import rules_for
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.cutting.nesting.one_nest import glance
from roofmodel.cutting.parts.layout import Layout
from roofmodel.cutting.search import nests_under_way
from roofmodel.cutting.search.budget import work_of_look
from roofmodel.cutting.search.nests_under_way import Looks, Nestable
from roofmodel.cutting.search.search import Search
from roofmodel.foundation.cancellation import Cancelled, Watch
from tests.cutting import made


def nestable(number: int) -> Nestable:
    problem, _ = problem_for(made.roof("J04").facets, made.good(), job_code="J04")
    return Nestable(number, (), problem, 1, frozenset())


def test_looks_are_handed_back_in_the_order_begun_once_three_more_are_under_way(monkeypatch):
    last_is_done = threading.Event()

    def first_is_last(problem, least):
        # The look begun first ends only after the one begun second.
        if not last_is_done.is_set() and threading.current_thread().name.endswith("_0"):
            last_is_done.wait(10)
        last_is_done.set()
        return glance(problem, least)

    monkeypatch.setattr(nests_under_way, "glance", first_is_last)
    handed = []
    with Looks(Watch()) as under_way:
        for number in range(5):
            under_way.begin(nestable(number))
            handed.append([seen.one.number for seen in under_way.due(3)])
        rest = [seen.one.number for seen in under_way.rest(3)]

    assert handed == [[], [], [], [0], [1]]
    assert rest == [2, 3, 4]


def test_what_takes_hardly_more_than_the_most_is_looked_at_again(monkeypatch):
    one = nestable(1)
    found = glance(one.problem, 1)
    assert found is not None
    again = []

    def second(problem, least):
        again.append(problem)
        return Layout(placed=found.placed[:1])

    # The last sheet as good as empty, then as full as it came out.
    monkeypatch.setattr(nests_under_way, "second_glance", second)
    full = nests_under_way.value_of(found)
    for value, times in ((found.sheets - 0.9, 1), (full + 0.5, 0)):
        monkeypatch.setattr(
            nests_under_way, "value_of", lambda layout, v=value: v - 2 * (layout is not found)
        )
        monkeypatch.setattr(nests_under_way, "glance", lambda problem, least: found)
        again.clear()
        with Looks(Watch()) as under_way:
            under_way.begin(one)
            seen = list(under_way.rest(found.sheets - 1))

        assert len(again) == times
        assert [s.layout is found for s in seen] == [True, False][: 1 + times]
        assert seen[-1].work == work_of_look(one.problem.parts, again=bool(times))


def test_a_second_look_takes_the_longer_the_more_shapes_there_are():
    parts = nestable(1).problem.parts
    shapes = {(part.corners, part.may_turn_over) for part in parts}

    def times_as_long(some):
        return work_of_look(some, again=True) / work_of_look(some, again=False)

    assert len(shapes) < len(parts)
    assert times_as_long(parts) == pytest.approx(len(shapes) * times_as_long(parts[:1]))
    assert work_of_look(parts[:5], again=False) < work_of_look(parts, again=False)


def test_waiting_for_a_look_ends_when_the_work_is_cancelled(monkeypatch):
    ended = threading.Event()
    monkeypatch.setattr(nests_under_way, "glance", lambda problem, least: ended.wait(10))
    with Looks(Watch(cancelled=lambda: True)) as under_way:
        under_way.begin(nestable(1))
        with pytest.raises(Cancelled):
            list(under_way.rest(3))
    ended.set()


def test_looks_that_take_longer_lead_to_the_same_plan(monkeypatch):
    # Each look is held up for another while; what is looked at must not hang on who is first.
    facets, good = made.roof("J06").facets, made.good("INS-PIR75")
    ways = boardings(facets, good, rules_for(good), job_code="J06")
    quick = Search(ways, facets, good, floor=1, watch=Watch()).run(Effort.QUICK)
    waits = cycle([0.03, 0.0, 0.01])

    def slow(look):
        def held_up(problem, least):
            time.sleep(next(waits))
            return look(problem, least)

        return held_up

    monkeypatch.setattr(nests_under_way, "glance", slow(nests_under_way.glance))
    monkeypatch.setattr(nests_under_way, "second_glance", slow(nests_under_way.second_glance))
    late = Search(ways, facets, good, floor=1, watch=Watch()).run(Effort.QUICK)

    assert (late.problem, late.layout) == (quick.problem, quick.layout)
