"""Lengths for the saw: whole tenths of a millimetre, rounded once to the safe side."""

import math

from roofmodel.foundation.tolerance import LENGTH_MM

Tenths = int
"""Whole tenths of a millimetre."""


def stock_tenths(length_mm: float) -> Tenths:
    """Return a length of stock rounded down; what is short by less than 0.01 mm is not.

    Examples
    --------
    >>> stock_tenths(2440.0), stock_tenths(2440.08)
    (24400, 24400)
    """
    return math.floor((length_mm + LENGTH_MM) * 10)


def cut_tenths(length_mm: float) -> Tenths:
    """Return a length of a part, saw cut or trim rounded up; an excess below 0.01 mm is dropped.

    Examples
    --------
    >>> cut_tenths(3.0), cut_tenths(3.02)
    (30, 31)
    """
    return math.ceil((length_mm - LENGTH_MM) * 10)
