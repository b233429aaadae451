"""Working days, against the bank holidays the government publishes (gov.uk, read from memory)."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roofmodel.programme import working_days

ENGLAND_2026 = [
    date(2026, 1, 1), date(2026, 4, 3), date(2026, 4, 6), date(2026, 5, 4), date(2026, 5, 25),
    date(2026, 8, 31), date(2026, 12, 25), date(2026, 12, 28),
]  # fmt: skip


def test_no_published_bank_holiday_of_the_year_is_worked_and_every_other_weekday_is():
    year = [date(2026, 1, 1) + timedelta(days=n) for n in range(365)]
    free = [d for d in year if d.weekday() < 5 and not working_days.is_worked(d, "England")]

    assert free == ENGLAND_2026


def test_nobody_works_between_christmas_eve_and_the_29th():
    """The review: the second working day from Christmas Eve 2026 was Christmas Day."""
    assert working_days.nth(date(2026, 12, 24), 2, "England") == date(2026, 12, 29)


def test_scotland_keeps_other_days_than_england():
    """Easter Monday is none in Scotland; 2 January and St Andrew's Day are."""
    monday, second = date(2026, 4, 6), date(2026, 1, 2)

    assert working_days.is_worked(monday, "Scotland")
    assert not working_days.is_worked(second, "Scotland")
    assert working_days.is_worked(second, "England")


@given(
    first=st.dates(date(2020, 1, 1), date(2035, 12, 31)),
    number=st.integers(1, 30),
    nation=st.sampled_from(["England", "Wales", "Scotland", "Northern Ireland"]),
)
def test_counting_forth_and_back_gives_worked_days_that_agree(first, number, nation):
    start = working_days.nth(first, 1, nation)
    there = working_days.nth(first, number, nation)

    assert working_days.is_worked(there, nation)
    assert working_days.before(there, number - 1, nation) == start


@pytest.mark.parametrize("days", [1, 5])
def test_an_order_over_easter_goes_out_before_it(days):
    tuesday = date(2026, 4, 7)

    assert working_days.before(tuesday, days, "England") < date(2026, 4, 3)
