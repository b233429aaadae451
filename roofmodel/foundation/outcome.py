"""How a question about the roof is answered, and at what confidence.

A figure has a standard error. It passes a limit when it stays within it with 95 % confidence, that
is with 1.645 standard errors to spare on the one side that matters; it fails when it misses the
limit by as much. In between nobody knows, and it is to be measured again.
"""

import math
from enum import StrEnum

CONFIDENCE = 0.95
"""Confidence of a pass and of a fail, on one side."""

GUARD = 1.6448536269514722
"""Standard errors on one side of a limit that give `CONFIDENCE`, of the normal distribution."""

CONFIDENCE_WORDS = f"{CONFIDENCE:.0%} confidence, one-sided"
"""What is printed where a verdict stands."""


class Outcome(StrEnum):
    """How a question is answered; whoever signs decides, the program only computes.

    ``ASSUMED`` is what would pass if a default that nobody entered were true.
    """

    PASS = "pass"
    ASSUMED = "assumed"
    NOT_CALCULABLE = "not calculable"
    MEASURE_AGAIN = "measure again"
    FAIL = "fail"

    @property
    def gravity(self) -> int:
        """How grave it is: the higher, the graver."""
        return list(Outcome).index(self)


def against_most(value: float, limit: float, error: float = 0.0) -> Outcome:
    """Return how a value stands to a limit it must not exceed, given its standard error.

    Examples
    --------
    >>> against_most(0.14, 0.15).value, against_most(0.149, 0.15, 0.002).value
    ('pass', 'measure again')
    """
    return against_least(-value, -limit, error)


def against_least(value: float, limit: float, error: float = 0.0) -> Outcome:
    """Return how a value stands to a limit it must reach, given its standard error.

    Examples
    --------
    >>> against_least(14.3, 14.0, 0.2).value, against_least(14.33, 14.0, 0.2).value
    ('measure again', 'pass')
    """
    guard = GUARD * error
    if value - guard >= limit - _ROUNDING:
        return Outcome.PASS
    return Outcome.MEASURE_AGAIN if value + guard >= limit - _ROUNDING else Outcome.FAIL


def band_against_most(low: float, high: float, limit: float) -> Outcome:
    """Return how a band whose ends are sure stands to a limit it must not exceed.

    Examples
    --------
    >>> band_against_most(0.149, 0.152, 0.15).value
    'measure again'
    """
    if high <= limit + _ROUNDING:
        return Outcome.PASS
    return Outcome.MEASURE_AGAIN if low <= limit + _ROUNDING else Outcome.FAIL


_ROUNDING = 1e-9
"""What floating point may take off a value that is exactly its limit."""


def needed_error(margin: float) -> float:
    """Return the standard error at which a margin to a limit would decide; either way of it.

    Examples
    --------
    >>> round(needed_error(0.1), 4)
    0.0608
    """
    return math.fabs(margin) / GUARD
