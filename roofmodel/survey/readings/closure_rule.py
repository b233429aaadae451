"""A closure: one thing known in two ways, so that a wrong reading shows."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from roofmodel.survey.readings.reading import Unit

Values = Mapping[str, float]
Formula = Callable[[Values], float]


def exactly(_values: Values) -> float:
    """Return the slack of a formula that takes nothing for granted."""
    return 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class ClosureRule:
    """How one closure is reckoned from the values of the lines it needs.

    ``measured`` and ``expected`` are the two ways; their difference is the misclosure. ``limit``
    is what may be left before it is asked about, ``slack`` the standard error that comes from what
    the formula takes for granted, such as parallel sides. Rules of one ``title`` stand in for each
    other: the first whose lines were all read counts.
    """

    title: str
    lines: tuple[str, ...]
    measured: Formula
    expected: Formula
    limit: Formula
    unit: Unit
    slack: Formula = exactly


def read(name: str) -> Formula:
    """Return the way that is a reading itself."""
    return lambda values: values[name]


def up_to(limit: float) -> Formula:
    """Return a limit that is the same for every size."""
    return lambda _values: limit
