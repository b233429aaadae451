"""A layer is planned once: what was planned before is kept by what it follows from."""

from dataclasses import replace

import pytest

from roofmodel.cutting import plan as cutting_plan
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.foundation import plans_folder
from roofmodel.foundation.cancellation import Cancelled
from roofmodel.workbench.job import reckoning
from tests import acceptance_jobs


class Counted:
    """The door of the cutting room, counting who comes through it."""

    def __init__(self, monkeypatch):
        self.asked = 0
        for name in ("plan", "plan_pieces"):
            monkeypatch.setattr(cutting_plan, name, self._counted(getattr(cutting_plan, name)))

    def _counted(self, real):
        def asked(*what, **how):
            self.asked += 1
            return real(*what, **how)

        return asked


@pytest.fixture
def door(monkeypatch, tmp_path):
    monkeypatch.setenv(plans_folder.VARIABLE, str(tmp_path / "plans"))
    return Counted(monkeypatch)


def cut(job=None, **how):
    """Cut the lining, which takes least time."""
    drawn = job or acceptance_jobs.drawn("J01")
    lining = drawn.option.sheets[0].number
    return reckoning.cut(drawn, **{"effort": Effort.QUICK, "only": [lining], **how})


def test_the_second_time_nothing_is_searched_for(door):
    first = cut()
    made = door.asked
    told = []

    assert cut(progress=lambda _, sheets, bound: told.append((sheets, bound))) == first
    assert (made, door.asked) == (1, 1)
    assert told == [(one.sheets, one.least) for one in first.values()]


@pytest.mark.parametrize(
    "other",
    [
        {"effort": Effort.USUAL},
        {"job": acceptance_jobs.drawn("J01", boards=[{"material": "BRD-PB12", "stagger_mm": 300}])},
    ],
)
def test_another_effort_or_rule_is_searched_for_anew(door, other):
    cut()
    made = door.asked
    cut(**other)

    assert door.asked > made


def test_a_price_is_nothing_a_plan_follows_from(door):
    drawn = acceptance_jobs.drawn("J01")
    cut(drawn)
    made = door.asked
    board = drawn.catalogue.materials["BRD-PB12"]
    dearer = replace(board, price=replace(board.price, amount=board.price.amount + 1))
    known = replace(drawn.catalogue, materials={**drawn.catalogue.materials, "BRD-PB12": dearer})
    cut(drawn.changed(drawn.option.method, catalogue=known))

    assert door.asked == made


def test_a_plan_that_was_settled_for_is_not_kept(door):
    cut(settled=lambda: True)
    made = door.asked
    cut()

    assert door.asked == 2 * made


def test_who_cancels_gets_no_kept_plan_either(door):
    cut()

    with pytest.raises(Cancelled):
        cut(cancelled=lambda: True)


def test_without_a_folder_every_plan_is_made_anew(door, monkeypatch):
    monkeypatch.setenv(plans_folder.VARIABLE, "")
    cut()
    cut()

    assert door.asked == 2
