"""The one place that asks what day it is and how long work takes; everything else is told."""

import time
from datetime import UTC, date, datetime


def today() -> date:
    """Return today's date where the program runs."""
    return datetime.now(tz=UTC).astimezone().date()


def seconds() -> float:
    """Return seconds since some moment or other: the difference of two says how long work took.

    For whoever asked for the work, to report; what was computed never holds it, so that the same
    entry gives the same figures and files.
    """
    return time.perf_counter()
