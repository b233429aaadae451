"""A programme as a calendar file other programs read (iCalendar, RFC 5545, from memory)."""

from collections.abc import Iterator
from datetime import date, timedelta

from roofmodel.programme.schedule import Schedule, Slot

_START_H = 8
_WRAP = 73
_WEEKEND = (5, 6)


def text(schedule: Schedule, *, first_day: date, job_code: str, title: str) -> str:
    """Return a programme as iCalendar text, weekends left out.

    Parameters
    ----------
    schedule
        The programme.
    first_day
        Day 1; moved on to a working day.
    job_code, title
        Stand in every entry.
    """
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//roofmodel//programme//EN"]
    for number, slot in enumerate(schedule.slots, start=1):
        lines += _event(slot, number, working_day(first_day, slot.day), job_code, title)
    lines.append("END:VCALENDAR")
    return "".join(f"{part}\r\n" for line in lines for part in _folded(line))


def working_day(first_day: date, number: int) -> date:
    """Return the n-th working day from a day on; the day itself is the first."""
    day, left = first_day, number
    while True:
        if day.weekday() not in _WEEKEND:
            left -= 1
            if left == 0:
                return day
        day += timedelta(days=1)


def _event(slot: Slot, number: int, day: date, job_code: str, title: str) -> list[str]:
    stamp = f"{day:%Y%m%d}"
    return [
        "BEGIN:VEVENT",
        f"UID:{job_code}-{number}@roofmodel",
        f"DTSTAMP:{stamp}T000000",
        f"DTSTART:{stamp}T{_clock(slot.start_h)}",
        f"DTEND:{stamp}T{_clock(slot.end_h)}",
        f"SUMMARY:{_escaped(f'{job_code}: {slot.words} ({slot.task.trade})')}",
        f"DESCRIPTION:{_escaped(title)}",
        "END:VEVENT",
    ]


def _clock(hours: float) -> str:
    minutes = round(hours * 60)
    return f"{_START_H + minutes // 60:02d}{minutes % 60:02d}00"


def _escaped(words: str) -> str:
    for sign in ("\\", ";", ","):
        words = words.replace(sign, f"\\{sign}")
    return words.replace("\n", "\\n")


def _folded(line: str) -> Iterator[str]:
    yield line[:_WRAP]
    for start in range(_WRAP, len(line), _WRAP - 1):
        yield f" {line[start : start + _WRAP - 1]}"
