"""Man-hours follow the drivers by the firm's norms, trade by trade; the norms are invented."""

from decimal import Decimal

import pytest

from roofmodel.quantities import labour
from roofmodel.quantities.driver import Driver, Unit
from roofmodel.quantities.labour import Trade
from roofmodel.refit.method import Method
from tests.cutting import made


def every_driver(value=1.0):
    names = {
        term.driver
        for task in labour.shipped()
        for terms in (task.terms, task.glass_terms, task.site_terms)
        for term in terms
    }
    return {
        name: Driver(name=name, value=value, unit=Unit.EACH, words=name) for name in sorted(names)
    }


def hours(method=Method.BUILD_ROUND, value=1.0, **more):
    return labour.hours(method, every_driver(value), **{"glass": False, **more})


def test_a_task_takes_the_sum_of_its_terms():
    for one in hours(value=3.0):
        by_hand = sum(
            3.0 * t.rate if t.rate is not None else 3.0 / t.divide for t in one.task.terms
        )
        assert one.hours == pytest.approx(by_hand), one.task.id
        assert one.formula.count(" + ") == len(one.task.terms) - 1


def test_only_the_tasks_of_the_method_are_counted():
    for method in Method:
        ids = [one.task.id for one in hours(method)]
        assert ids == [task.id for task in labour.shipped() if method in task.methods]


def test_glass_and_cutting_on_site_change_the_tasks_that_have_norms_for_them_and_no_other():
    plain = {one.task.id: one.hours for one in hours()}
    for name, changed in (
        ("glass_terms", {one.task.id: one.hours for one in hours(glass=True)}),
        ("site_terms", {one.task.id: one.hours for one in hours(cut_on_site=True)}),
    ):
        wanted = {
            task.id
            for task in labour.shipped()
            if Method.BUILD_ROUND in task.methods and getattr(task, name)
        }
        assert {key for key in plain if plain[key] != changed[key]} == wanted
        assert wanted


def test_a_task_whose_driver_is_not_charged_is_left_out():
    known = every_driver()
    (name, *_) = (t.driver for task in labour.shipped() for t in task.terms)
    del known[name]
    found = labour.hours(Method.BUILD_ROUND, known, glass=False)

    assert all(name not in [t.driver for t in one.task.terms] for one in found)
    assert len(found) < len(hours())


def test_a_total_is_of_one_trade_to_the_ten_thousandth_halves_up():
    one = hours()[0]
    own = one.task.trade
    tasks = tuple(
        labour.TaskHours(task=one.task, hours=h, formula="") for h in (1.00004, 0.00001, 2.0)
    )

    assert labour.total_h(tasks, own) == Decimal("3.0001")  # 3.00005
    others = [trade for trade in Trade if trade is not own]
    assert [labour.total_h(tasks, trade) for trade in others] == [0] * len(others)


def test_the_workshop_counts_square_raked_and_bevelled_pieces():
    parts = [
        made.rectangle("A", 300, 100),
        made.rectangle("B", 200, 100),
        made.part("C", (0, 0), (200, 0), (100, 50), (0, 50)),
        made.rectangle("D", 300, 100, bevels_deg=(0.0, 12.0, 0.0, 0.0)),
        made.part("E", (0, 0), (200, 0), (100, 50), (0, 50), bevels_deg=(9.0, 0.0, 0.0, 0.0)),
    ]
    found = {name: driver.value for name, driver in labour.of_pieces(parts).items()}

    assert found == {"square_pieces": 2, "raked_pieces": 1, "bevelled_pieces": 2}
