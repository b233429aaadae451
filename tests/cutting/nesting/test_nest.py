"""Nesting: whole plans only, the same every time, and stopped when asked."""

import threading
from types import SimpleNamespace

import pytest
from hypothesis import given, settings

from roofmodel.cutting.laying.from_facets import problem_for
from roofmodel.cutting.nesting import solver
from roofmodel.cutting.nesting.nest import Effort, nest
from roofmodel.cutting.nesting.verify import faults
from roofmodel.cutting.proof.bound import least_sheets
from roofmodel.foundation.cancellation import Cancelled, Watch
from roofmodel.foundation.errors import CuttingError
from tests.cutting import made
from tests.cutting.dissected import dissections


def nested(problem, effort=Effort.QUICK, bound=1, **watch):
    return nest(problem, effort=effort, bound=bound, watch=Watch(**watch))


@settings(max_examples=40, deadline=None)
@given(dissection=dissections(most_sheets=2))
def test_the_workshop_can_cut_every_plan(dissection):
    bound = least_sheets(dissection.problem).sheets
    plan = nested(dissection.problem, bound=bound)

    assert faults(dissection.problem, plan) == []
    assert plan.sheets >= bound


@settings(max_examples=20, deadline=None)
@given(dissection=dissections(most_sheets=2))
def test_the_same_job_gives_the_same_plan(dissection):
    assert nested(dissection.problem) == nested(dissection.problem)


@pytest.mark.parametrize("code", ["BRD-OSB18", "INS-PIR75", "BRD-PB12"])
def test_the_usual_effort_gives_the_same_plan_while_the_machine_is_busy(code):
    problem, _ = problem_for(made.roof("J06").facets, made.good(code), job_code="J06")
    alone = nested(problem, Effort.USUAL)
    done = threading.Event()

    def keep_busy():
        while not done.is_set():
            sum(range(10_000))

    others = [threading.Thread(target=keep_busy) for _ in range(3)]
    for other in others:
        other.start()
    busy = nested(problem, Effort.USUAL)
    done.set()

    assert busy == alone


def test_a_fit_without_a_hair_to_spare_is_found():
    """
    |-----||-----|
    |     ||     |   2 × 148 and the saw cut are 300, 2 × 48 and the saw cut are 100
    |-----||-----|
    """
    quarters = [made.rectangle(f"P{i}", 148, 48) for i in range(4)]

    assert nested(made.problem(*quarters)).sheets == 1


def test_two_wedges_share_a_sheet_where_one_may_be_turned():
    """
    |-------/ /--|
    |  A  / /  B |
    |---/ /------|
    """
    wedges = [made.part(mark, (0, 0), (190, 0), (100, 100), (0, 100)) for mark in "AB"]

    assert nested(made.problem(*wedges)).sheets == 1
    fixed = [
        made.part(m, (0, 0), (190, 0), (100, 100), (0, 100), turns=(0,), over=False) for m in "AB"
    ]
    assert nested(made.problem(*fixed)).sheets == 2


def test_a_piece_and_its_mirror_image_share_a_sheet_only_if_one_may_be_turned_over():
    """
    |------.    .------|
    |  A    .  .    B  |   both are wide at the bottom; turned about, both at the top
    |--------..--------|
    """
    left, right = (
        ((0, 0), (190, 0), (100, 100), (0, 100)),
        ((0, 0), (190, 0), (190, 100), (90, 100)),
    )

    def sheets(*, over):
        hands = made.part("A", *left, over=over), made.part("B", *right, over=over)
        return nested(made.problem(*hands)).sheets

    assert sheets(over=False) == 2
    assert sheets(over=True) == 1


def test_trim_is_kept_on_all_sides():
    problem = made.problem(made.rectangle("A", 290, 43), made.rectangle("B", 290, 43), trim=5)
    plan = nested(problem)

    assert plan.sheets == 1
    assert faults(problem, plan) == []


def test_sheets_are_numbered_from_the_fullest():
    parts = [made.rectangle("A", 100, 100), made.rectangle("B", 290, 100)]
    plan = nested(made.problem(*parts))

    assert [[p.part.mark for p in plan.on_sheet(n)] for n in (1, 2)] == [["B"], ["A"]]


def test_progress_is_told_with_the_bound():
    told = []
    nested(
        made.problem(made.rectangle("A", 151, 51), made.rectangle("B", 151, 51)),
        bound=2,
        progress=lambda sheets, bound: told.append((sheets, bound)),
    )

    assert told == [(2, 2)]


def unfinished(**also):
    """Return what the solver answers when it has placed nothing, or not everything."""
    return SimpleNamespace(solution=SimpleNamespace(full=lambda: False, number_of_bins=lambda: 0))


def test_an_empty_answer_is_never_a_plan(monkeypatch):
    limits = []

    def optimize(instance, parameters):
        limits.append(parameters.time_limit)
        return unfinished()

    monkeypatch.setattr(solver.irregular, "optimize", optimize)

    with pytest.raises(CuttingError, match="No plan was found that holds all 1 parts"):
        nested(made.problem(made.rectangle("A", 10, 10)))
    # Before giving up it was asked twice more, for longer each time.
    assert limits[-1] > limits[-2]
    assert len(limits) == 4


def test_an_empty_answer_is_followed_by_another_search(monkeypatch):
    real, asked = solver.irregular.optimize, []

    def optimize(instance, parameters):
        asked.append(parameters)
        return unfinished() if len(asked) == 1 else real(instance, parameters)

    monkeypatch.setattr(solver.irregular, "optimize", optimize)

    assert nested(made.problem(made.rectangle("A", 10, 10))).sheets == 1
    assert len(asked) == 2


def test_a_search_that_raises_is_followed_by_another(monkeypatch):
    real, asked = solver.irregular.optimize, []

    def optimize(instance, parameters):
        asked.append(parameters)
        if len(asked) == 1:
            raise RuntimeError("wrong item dimensions")
        return real(instance, parameters)

    monkeypatch.setattr(solver.irregular, "optimize", optimize)

    assert nested(made.problem(made.rectangle("A", 10, 10))).sheets == 1


def test_a_search_under_way_is_left_when_cancelled(monkeypatch):
    release, begun, ended = threading.Event(), threading.Event(), []

    def optimize(instance, parameters):
        begun.set()
        release.wait(timeout=20)
        ended.append(True)
        return unfinished()

    monkeypatch.setattr(solver.irregular, "optimize", optimize)
    with pytest.raises(Cancelled, match="stopped before it was ready"):
        nested(made.problem(made.rectangle("A", 10, 10)), cancelled=begun.is_set)

    assert ended == []  # it was left while it still searched
    release.set()


def test_nothing_is_searched_when_cancelled_before():
    with pytest.raises(Cancelled):
        nested(made.problem(made.rectangle("A", 10, 10)), cancelled=lambda: True)


def test_a_fault_in_the_work_reaches_the_caller():
    def fail():
        raise CuttingError("broken")

    with pytest.raises(CuttingError, match="broken"):
        Watch(cancelled=lambda: False).run(fail)
    assert Watch(cancelled=lambda: False).run(lambda: 7) == 7
