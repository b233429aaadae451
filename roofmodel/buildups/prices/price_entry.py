"""Reads a price and its date as somebody in Britain types them: £1,234.50, 01/11/2026."""

import re
from datetime import date, datetime
from decimal import Decimal

from roofmodel.buildups import catalogue_words
from roofmodel.buildups.material import MOST_GBP, PRICE_RANGE

type Wrong = tuple[str, str]
"""What is wrong and what to do."""

FORMULA = "="
"""What a formula begins with, in every spreadsheet."""
_EXAMPLE = "Write it as day/month/year or year-month-day, for example 25/11/2026."
# Day before month, as in Britain: 03/04/2026 is the third of April.
_DATES = ("%d/%m/%Y", "%d/%m/%y", "%d.%m.%Y", "%d-%m-%Y", "%d %b %Y", "%d %B %Y", "%d-%b-%y",
          "%d-%b-%Y")  # fmt: skip
_POUNDS = re.compile(r"(?:£|GBP)?\s*([+-]?[\d,]*\.?\d*|\([\d,]*\.?\d*\))\s*(?:GBP)?", re.IGNORECASE)
_THOUSANDS = re.compile(r"[+-]?\d{1,3}(,\d{3})+(\.\d+)?|[+-]?\d*\.?\d*")
_OTHER_MONEY = re.compile(r"[€$¥₹]|\b(EUR|USD|US\$|CHF|PLN|SEK|DKK|NOK|JPY|CNY)\b", re.IGNORECASE)


def amount_of(written: str) -> tuple[Decimal | None, Wrong | None]:
    """Return a price as typed [GBP], or what is wrong with it and what to do.

    A £ sign, GBP, and commas between thousands may stand in it; a decimal comma is asked about.

    Examples
    --------
    >>> amount_of("£1,234.50")
    (Decimal('1234.50'), None)
    >>> amount_of("64,20")[1]
    ('“64,20” is not a plain number.', 'Did you mean 64.20? If so, write that.')
    """
    bare = written.strip()
    if wrong := _no_amount(bare):
        return None, wrong
    found = _POUNDS.fullmatch(bare)
    figures = found[1] if found else ""
    if figures.startswith("("):
        figures = f"-{figures[1:-1]}"
    if not any(sign.isdigit() for sign in figures) or not _THOUSANDS.fullmatch(figures):
        return None, _not_plain(bare)
    amount = Decimal(figures.replace(",", ""))
    if not 0 <= amount <= MOST_GBP:
        return None, (f"A price of {figures} is not possible.", PRICE_RANGE)
    return amount, None


def _no_amount(bare: str) -> Wrong | None:
    """Return why a text is no amount of pounds whatever its figures are; None where it may be."""
    if not bare:
        return "There is no price.", "Enter it, or leave the row out of the list."
    if bare.startswith(FORMULA):
        return _formula(bare)
    if _OTHER_MONEY.search(bare):
        return f"“{_short(bare)}” is not in pounds.", "Enter what it costs in GBP, ex VAT."
    return None


def _formula(bare: str) -> Wrong:
    told = f"The cell holds a formula, {_short(bare)}."
    return told, "Paste its value over it: copy, then paste special, values."


def date_of(written: str, *, today: date | None = None) -> tuple[date | None, Wrong | None]:
    """Return the date of a price as typed, or what is wrong with it and what to do.

    Examples
    --------
    >>> date_of("01/11/2026")
    (datetime.date(2026, 11, 1), None)
    """
    bare = written.strip()
    if not bare:
        return None, ("The price has no date.", _EXAMPLE)
    if bare.startswith(FORMULA):
        return None, _formula(bare)
    day = _day(bare)
    if day is None:
        return None, (f"“{_short(bare)}” is not a date.", _EXAMPLE)
    if today is not None and day > today:
        return None, (f"{day} is in the future.", "Enter the day the price was given.")
    return day, None


def _day(bare: str) -> date | None:
    try:
        return date.fromisoformat(bare)
    except ValueError:
        pass
    for form in _DATES:
        try:
            day = datetime.strptime(bare, form).date()  # noqa: DTZ007 - a day has no zone
        except ValueError:
            continue
        # A year of one or two figures too few is a slip of the key, not the time of the Romans.
        return day if day.year >= 1990 else None
    return None


def _not_plain(bare: str) -> Wrong:
    meant = catalogue_words.as_number(bare)
    if meant is not None:
        told = f"“{_short(bare)}” is not a plain number."
        return told, f"Did you mean {meant}? If so, write that."
    remedy = "Enter pounds and pence in figures, for example 12.50."
    return f"“{_short(bare)}” is not a number.", remedy


def _short(text: str) -> str:
    return text if len(text) <= 40 else f"{text[:37]}…"
