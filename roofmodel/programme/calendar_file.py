"""A programme as a calendar file other programs read (iCalendar, RFC 5545, from memory)."""

from collections.abc import Iterator
from datetime import date

from roofmodel.programme import working_days
from roofmodel.programme.schedule import Schedule, Slot

_START_H = 8
_WRAP = 73


def text(schedule: Schedule, *, first_day: date, job_code: str, title: str, plan: str = "") -> str:
    """Return a programme as iCalendar text, weekends and bank holidays left out.

    Parameters
    ----------
    schedule
        The programme.
    first_day
        Day 1; moved on to a working day.
    job_code, title
        Stand in every entry.
    plan
        Which of a job's programmes it is, so that a calendar that takes several keeps them apart.
    """
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//roofmodel//programme//EN"]
    for number, slot in enumerate(schedule.slots, start=1):
        uid = "-".join(filter(None, (job_code, plan, f"{number}")))
        day = working_days.nth(first_day, slot.day, schedule.crew.nation)
        lines += _event(slot, uid, day, job_code, title)
    lines.append("END:VCALENDAR")
    return "".join(f"{part}\r\n" for line in lines for part in _folded(line))


def _event(slot: Slot, uid: str, day: date, job_code: str, title: str) -> list[str]:
    stamp = f"{day:%Y%m%d}"
    return [
        "BEGIN:VEVENT",
        f"UID:{uid}@roofmodel",
        f"DTSTAMP:{stamp}T000000Z",
        f"DTSTART:{stamp}T{_clock(slot.start_h)}",
        f"DTEND:{stamp}T{_clock(slot.end_h)}",
        f"SUMMARY:{_escaped(f'{job_code}: {slot.words} ({slot.task.trade})')}",
        f"DESCRIPTION:{_escaped(_said(slot, title))}",
        "END:VEVENT",
    ]


def _said(slot: Slot, title: str) -> str:
    hold = f"Hold point: {slot.task.hold}" if slot.task.hold else ""
    return "\n".join(filter(None, (title, hold)))


def _clock(hours: float) -> str:
    minutes = round(hours * 60)
    return f"{_START_H + minutes // 60:02d}{minutes % 60:02d}00"


def _escaped(words: str) -> str:
    for sign in ("\\", ";", ","):
        words = words.replace(sign, f"\\{sign}")
    return words.replace("\n", "\\n")


def _folded(line: str) -> Iterator[str]:
    """Yield a line in parts of so many octets; a letter of several octets is not divided."""
    part = ""
    for letter in line:
        if len((part + letter).encode()) > _WRAP:
            yield part
            part = " "
        part += letter
    yield part
