"""Days on which the firm works: neither weekends nor the bank holidays of its nation.

Bank holidays come from the kept library `holidays`, which follows the Banking and Financial
Dealings Act 1971 and the proclamations since; it is held in the tests against the list the
government publishes.
"""

from datetime import date, timedelta
from functools import lru_cache
from typing import Literal

Nation = Literal["England", "Wales", "Scotland", "Northern Ireland"]

_WEEKEND = (5, 6)
_SUBDIVISIONS: dict[Nation, str] = {
    "England": "ENG",
    "Wales": "WLS",
    "Scotland": "SCT",
    "Northern Ireland": "NIR",
}


@lru_cache(maxsize=64)
def _bank_holidays(nation: Nation, year: int) -> frozenset[date]:
    # Loaded only where a date is asked for: no other command waits for it.
    import holidays

    return frozenset(
        holidays.country_holidays("GB", subdiv=_SUBDIVISIONS[nation], years=year).keys()
    )


def is_worked(day: date, nation: Nation) -> bool:
    """Return whether the firm works on a day."""
    return day.weekday() not in _WEEKEND and day not in _bank_holidays(nation, day.year)


def nth(first_day: date, number: int, nation: Nation) -> date:
    """Return the n-th working day from a day on; the day itself is the first, if it is worked.

    Examples
    --------
    >>> nth(date(2026, 12, 24), 2, "England")
    datetime.date(2026, 12, 29)
    """
    day, left = first_day, number
    while True:
        left -= is_worked(day, nation)
        if left == 0:
            return day
        day += timedelta(days=1)


def before(first_day: date, number: int, nation: Nation) -> date:
    """Return the last working day that lies so many working days before a day."""
    day, left = first_day, number
    while left > 0 or not is_worked(day, nation):
        day -= timedelta(days=1)
        left -= is_worked(day, nation)
    return day
