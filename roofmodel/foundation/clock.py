"""The one place that asks what day it is; everything else is told."""

from datetime import UTC, date, datetime


def today() -> date:
    """Return today's date where the program runs."""
    return datetime.now(tz=UTC).astimezone().date()
