"""Days as papers write them: in English, whatever language the machine is set to."""

from datetime import date

_DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_MONTHS = (
    *("January", "February", "March", "April", "May", "June"),
    *("July", "August", "September", "October", "November", "December"),
)


def long_day(day: date) -> str:
    """Return a day as a letter writes it, such as 4 May 2026."""
    return f"{day.day} {_MONTHS[day.month - 1]} {day.year}"


def week_day(day: date) -> str:
    """Return the same with its day of the week, such as Monday 4 May 2026."""
    return f"{_DAYS[day.weekday()]} {long_day(day)}"


def short_day(day: date) -> str:
    """Return a day of the current months, such as 4 May."""
    return f"{day.day} {_MONTHS[day.month - 1][:3]}"
