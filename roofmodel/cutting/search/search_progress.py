"""Where a search for a boarding stands: what it found, what it tried, and how it goes on."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from roofmodel.cutting.laying.plain_ways import State
from roofmodel.cutting.parts.layout import Layout
from roofmodel.cutting.parts.problem import Problem


@dataclass(frozen=True, slots=True)
class Found:
    """A way to board the roof, its parts, and where they lie on the sheets."""

    state: State
    problem: Problem
    layout: Layout

    @property
    def sheets(self) -> int:
        """Number of sheets used."""
        return self.layout.sheets


@dataclass(frozen=True, slots=True)
class Tried:
    """A state: its number in the search, its value, where its parts lie if they were nested."""

    number: int
    state: State
    value: float
    found: Found | None = None


class Walk:
    """Where a search stands among the states, and how long it has not come further."""

    def __init__(self, state: State, value: float) -> None:
        """Take the state to set out from, and its value: sheets, the last by how full it is."""
        self.state, self.idle = state, 0
        self._value, self._times, self._since = value, 0, 0

    def meet(self, tried: Tried) -> None:
        """Go on from a state that is no worse, unless it was thought of before setting out anew."""
        if tried.number <= self._since:
            return
        # Among states as good as each other it goes on, but it does not come further.
        self.idle = 0 if tried.value < self._value else self.idle + 1
        if tried.value <= self._value:
            self.state, self._value = tried.state, tried.value

    def anew(self, origins: Sequence[State], *, since: int) -> None:
        """Set out again from one of these in turn; the next state met is taken, good or bad."""
        self._times += 1
        self.state = origins[self._times % len(origins)]
        self._value, self.idle, self._since = math.inf, 0, since
