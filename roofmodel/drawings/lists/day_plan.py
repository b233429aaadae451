"""The programme as bars over hours, a stripe for each day, and the same day by day in words."""

from collections.abc import Sequence
from datetime import date

from roofmodel.drawings.paper.day_words import short_day, week_day
from roofmodel.drawings.paper.heading import Heading
from roofmodel.drawings.paper.release import Stamp
from roofmodel.drawings.pdf import pdf_table
from roofmodel.drawings.pdf.pdf_sheet import PagePen, PdfPages
from roofmodel.drawings.pdf.pdf_table import Bar, Column, Listing
from roofmodel.programme import working_days
from roofmodel.programme.schedule import Schedule, Slot

STAMP = Stamp(
    status="PLAN: days from the supplied norms, which are invented; weather and hold points move it"
)

_LEFT, _RIGHT, _TOP, _BOTTOM = 20.0, 287.0, 200.0, 14.0
_NAMES_MM = 92.0
_BAR_ROW_MM, _LETTERS_MM = 5.6, 2.2
_MARK_MM = 1.3
_WIDE_DAY_MM = 50.0
"""A stripe that wide has room for the whole date."""
_KEY = (
    "dark: installers, middle: electrician, light: plasterer; pale and thin: waiting while it dries"
)
_HOLD_KEY = (
    "hold point: inspected and photographed before anything covers it; what, see the day plan"
)
_GREYS = {"installer": 0.45, "electrician": 0.65, "plasterer": 0.8}
_ROWS = int((_TOP - 28.0 - _BOTTOM) / _BAR_ROW_MM)


def content(schedule: Schedule, heading: Heading, method: str, *, first_day: date) -> bytes:
    """Return the plan as a PDF file, the same for the same programme and first day on site."""
    return pages(schedule, heading, method, first_day=first_day).content()


def pages(schedule: Schedule, heading: Heading, method: str, *, first_day: date) -> PdfPages:
    """Return the plan before it is a file; its days are dated as in the calendar."""
    nation = schedule.crew.nation
    dates = [working_days.nth(first_day, day + 1, nation) for day in range(schedule.days)]
    made = PdfPages(title=f"{heading.words}: programme", size_mm=pdf_table.SIZE_MM)
    names = list(dict.fromkeys(slot.words for slot in schedule.slots))
    title = f"{heading.words}: programme, {method}"
    for start in range(0, max(len(names), 1), _ROWS):
        _bars(schedule, title, dates, names[start : start + _ROWS], made.next_page())
    pdf_table.draw(_in_words(schedule, method, dates), heading, STAMP, made)
    return made


def _bars(
    schedule: Schedule, title: str, dates: Sequence[date], names: list[str], pen: PagePen
) -> None:
    """Draw one row for each task, the days side by side."""
    pen.write(title, (_LEFT, _TOP), height_mm=4.0, bold=True)
    pen.write(STAMP.status, (_LEFT, _TOP - 6.0), height_mm=_LETTERS_MM, bold=True)
    pen.write(schedule.explained, (_LEFT, _TOP - 10.5), height_mm=_LETTERS_MM)
    longest_h = max([schedule.crew.day_h, *(slot.end_h for slot in schedule.slots)])
    days = max(schedule.days, 1)
    first, day_mm = _LEFT + _NAMES_MM, (_RIGHT - _LEFT - _NAMES_MM) / days
    foot = _TOP - 22.0 - _BAR_ROW_MM * len(names)
    _stripes(dates, first, day_mm, foot, pen)
    for row, name in enumerate(names):
        base = _TOP - 22.0 - _BAR_ROW_MM * (row + 1)
        mine = [slot for slot in schedule.slots if slot.words == name]
        for slot in mine:
            left = first + (slot.day - 1 + slot.start_h / longest_h) * day_mm
            right = first + (slot.day - 1 + slot.end_h / longest_h) * day_mm
            grey = _GREYS.get(slot.task.trade.value, 0.5)
            if slot is mine[0] and slot.task.wait_h:
                dries_mm = min(slot.task.wait_h / longest_h * day_mm, left - first)
                pen.fill((left - dries_mm, base + 2.0), (left, base + _BAR_ROW_MM - 2.0), grey=0.9)
            pen.fill((left, base + 1.0), (right, base + _BAR_ROW_MM - 1.0), grey=grey)
            if slot is mine[-1] and slot.task.hold:
                _diamond((right, base + _BAR_ROW_MM / 2.0), pen)
        pen.write(name, (_LEFT, base + 1.6), height_mm=_LETTERS_MM)
        pen.rule((_LEFT, base), (_RIGHT, base), width_mm=0.05)
    at = max(foot - 5.0, 6.0)
    pen.write(_KEY, (_LEFT, at), height_mm=_LETTERS_MM)
    _diamond((_LEFT + 1.0, at - 4.0), pen)
    pen.write(_HOLD_KEY, (_LEFT + 4.0, at - 5.0), height_mm=_LETTERS_MM)


def _stripes(dates: Sequence[date], first: float, day_mm: float, foot: float, pen: PagePen) -> None:
    """Draw the days side by side, each with its number and date."""
    for day, on in enumerate(dates):
        left = first + day * day_mm
        words = week_day(on) if day_mm >= _WIDE_DAY_MM else short_day(on)
        pen.write(f"day {day + 1}", (left + 1.0, _TOP - 15.5), height_mm=_LETTERS_MM, bold=True)
        pen.write(words, (left + 1.0, _TOP - 19.0), height_mm=_LETTERS_MM)
        pen.rule((left, foot), (left, _TOP - 14.0), width_mm=0.15)
    pen.rule((_RIGHT, foot), (_RIGHT, _TOP - 14.0), width_mm=0.15)


def _diamond(middle: tuple[float, float], pen: PagePen) -> None:
    x, y = middle
    corners = [(x - _MARK_MM, y), (x, y - _MARK_MM), (x + _MARK_MM, y), (x, y + _MARK_MM)]
    pen.fill_outline(corners, grey=0.0)


def _in_words(schedule: Schedule, method: str, dates: Sequence[date]) -> Listing:
    rows: list[tuple[str, ...]] = []
    bars: dict[int, Bar] = {}
    day_h = max([schedule.crew.day_h, *(slot.end_h for slot in schedule.slots)])
    for day, on in enumerate(dates, start=1):
        rows.append((f"Day {day}: {week_day(on)}",))
        for slot in schedule.of_day(day):
            grey = _GREYS.get(slot.task.trade.value, 0.5)
            bars[len(rows)] = Bar(slot.start_h / day_h, slot.end_h / day_h, grey)
            rows.append(_row(slot))
    return Listing(
        title=f"day plan, {method}",
        columns=(
            Column(heading="From h:min", share=0.75, figures=True),
            Column(heading="To h:min", share=0.65, figures=True),
            Column(heading="Task", share=2.8, wraps=True),
            Column(heading="Who", share=0.8),
            Column(heading="Hold point: before work goes on", share=2.4, wraps=True),
            Column(heading="Seen by", share=0.8),
            Column(heading=f"The day, 0:00 to {hours_minutes(day_h)}", share=1.6),
        ),
        rows=tuple(rows),
        bars=bars,
        notes=(
            "Hours count from the start of the day. What is opened is closed the same day; do not "
            "open in rain, or in wind that lifts a board.",
            f"Saturdays, Sundays and the bank holidays of {schedule.crew.nation} are left out.",
        ),
    )


def _row(slot: Slot) -> tuple[str, ...]:
    task = slot.task
    words = f"{slot.words}, after {task.wait_h:g} h of drying" if task.wait_h else slot.words
    seen = "............" if task.hold else ""
    times = (hours_minutes(slot.start_h), hours_minutes(slot.end_h))
    return (*times, words, task.trade.value, task.hold, seen, "")


def hours_minutes(hours: float) -> str:
    """Return a time as people on site read it.

    Examples
    --------
    >>> hours_minutes(1.9)
    '1:54'
    """
    minutes = round(hours * 60)
    return f"{minutes // 60}:{minutes % 60:02d}"
