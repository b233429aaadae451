"""How likely a deviation is by chance alone: the normal and the chi-square distribution.

The three functions are those of `scipy.special` called ndtr, ndtri and chdtrc, and are tested
against them. They are written out because every survey that is opened asks them a few times, and
loading that library takes longer than reckoning the whole job.
"""

import math
from statistics import NormalDist

_NORMAL = NormalDist()


def below(deviation: float) -> float:
    """Return the chance that a normal deviation of spread 1 stays below this one."""
    # By the complement, so that chances far out in the tail keep their digits.
    return 0.5 * math.erfc(-deviation / math.sqrt(2.0))


def not_below(chance: float) -> float:
    """Return the deviation of spread 1 that a normal one stays below with this chance.

    Raises
    ------
    statistics.StatisticsError
        If the chance is not between 0 and 1.
    """
    return _NORMAL.inv_cdf(chance)


def of_more(chi_square: float, freedom: int) -> float:
    """Return the chance that chi-square of so many degrees of freedom is larger than this.

    Closed sums for whole degrees of freedom: M. Abramowitz, I. A. Stegun, Handbook of Mathematical
    Functions, 1964, 26.4.4 for odd and 26.4.5 for even ones.

    Examples
    --------
    Two degrees of freedom are an exponential distribution:

    >>> round(of_more(2.0 * math.log(20.0), 2), 12)
    0.05
    """
    half = 0.5 * chi_square
    if half <= 0.0:
        return 1.0
    if math.isinf(half):
        return 0.0
    odd = freedom % 2
    found = math.erfc(math.sqrt(half)) if odd else 0.0
    # Each term by its logarithm: neither a power nor a factorial may grow beyond all numbers.
    for step in range(freedom // 2):
        power = 0.5 * odd + step
        found += math.exp(power * math.log(half) - half - math.lgamma(power + 1.0))
    return min(found, 1.0)
