"""Undo against a plain list of values."""

from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule

from roofmodel.workbench.job.history import History


class UndoAgainstAPlainList(RuleBasedStateMachine):
    """Every value ever current is in `line`; `place` is where we stand."""

    def __init__(self):
        super().__init__()
        self.history = History(0)
        self.line = [0]
        self.place = 0
        self.told = []
        self.history.watch(self.told.append)

    @rule(value=st.integers(0, 5))
    def replace(self, value):
        self.history.replace(value)
        if value != self.line[self.place]:
            self.line = [*self.line[: self.place + 1], value]
            self.place += 1

    @rule()
    def undo(self):
        self.history.undo()
        self.place = max(self.place - 1, 0)

    @rule()
    def redo(self):
        self.history.redo()
        self.place = min(self.place + 1, len(self.line) - 1)

    @precondition(lambda self: self.place > 0)
    @rule(value=st.integers(10, 20))
    def open_another(self, value):
        self.history.start_afresh(value)
        self.line, self.place = [value], 0

    @invariant()
    def the_value_is_the_one_of_the_list(self):
        assert self.history.value == self.line[self.place]
        assert self.told[-1] == self.history.value
        assert self.history.can_undo == (self.place > 0)
        assert self.history.can_redo == (self.place < len(self.line) - 1)


TestUndo = UndoAgainstAPlainList.TestCase


def test_a_drag_is_one_step():
    history = History(0)
    for value in (1, 2, 3):
        history.replace(value, merge="pitch")
    history.undo()

    assert history.value == 0


def test_two_drags_are_two_steps():
    history = History(0)
    history.replace(1, merge="pitch")
    history.replace(2, merge="pitch")
    history.end_merge()
    history.replace(3, merge="pitch")
    history.undo()

    assert history.value == 2


def test_a_job_counts_as_changed_until_it_is_saved():
    history = History(0)
    history.replace(1)
    assert history.changed
    history.mark_saved()
    assert not history.changed
    history.undo()
    assert history.changed
