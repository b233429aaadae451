"""Numbers as people type them, and as the window writes them."""

import math
import re
from dataclasses import dataclass

from roofmodel.foundation.entered import RAIN
from roofmodel.foundation.errors import Offer

_GROUPED = re.compile(r"(?<=\d)[\s\u00a0\u2009\u202f'](?=\d{3}(?!\d))")
_THOUSANDS = re.compile(r"\d{1,3},\d{3}")
_NUMBER = re.compile(r"[+-]?(\d+([.,]\d*)?|[.,]\d+)")

_LONG = 10_000.0
_IN_MM = {
    "m": 1000.0,
    "cm": 10.0,
    "in": 25.4,
    "inch": 25.4,
    '"': 25.4,
    "ft": 304.8,
    "'": 304.8,
}


@dataclass(frozen=True, slots=True)
class Unreadable:
    """A text that is no number: what is wrong with it, what to do, and what it may mean."""

    text: str
    remedy: str
    offer: Offer | None = None


def read(typed: str, *, unit: str) -> float | Unreadable:
    """Return the number in a text; comma and point both mark decimals.

    Parameters
    ----------
    typed
        As it stands in the field; the field's own unit may follow the number.
    unit
        The field's unit, ``mm`` or ``°``. Another unit is asked about, never converted.
    """
    text = _GROUPED.sub("", typed.strip())
    if not text:
        return Unreadable("This field is empty.", f"Enter a number in {_spoken(unit)}.")
    number = _NUMBER.match(text)
    if number is None or not number.group(0):
        return _no_number(typed, unit)
    rest = text[number.end() :].strip().lower()
    value = float(number.group(0).replace(",", "."))
    if rest in ("", unit, *(("deg", "degrees") if unit == "°" else ())):
        return value
    meant = _meant(value, rest, unit)
    if meant is not None:
        said = f"{shown(meant)} {unit}"
        return Unreadable(
            f"“{typed.strip()}” is not in {unit}.",
            f"Did you mean {said}? Type it so.",
            Offer(said, meant),
        )
    return _no_number(typed, unit)


def length_mm(typed: str) -> float | None:
    """Return a length as it is meant where one side of a plan is typed; None where it is none.

    No side is a few millimetres long: ``2.5 m`` and ``1,500`` say what they mean there.
    """
    if _THOUSANDS.fullmatch(typed.strip()):
        return float(typed.strip().replace(",", ""))
    value = read(typed, unit="mm")
    if isinstance(value, Unreadable):
        return float(str(value.offer.value)) if value.offer is not None else None
    return value


def _meant(value: float, other: str, unit: str) -> float | None:
    """Return what a number in another unit comes to; None where that is not known."""
    if unit == "mm" and other in _IN_MM:
        return round(value * _IN_MM[other], 6)
    if unit == RAIN and other == "mm/h":
        return round(value / 3600.0, 4)
    return None


def shown(value: float | None) -> str:
    """Return a number as it is written into a field: no more digits than it has."""
    if value is None or not math.isfinite(value):
        return ""
    text = f"{value:.6f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def spaced(value: float, *, decimals: int = 0) -> str:
    """Return a number for reading, from 10 000 up with a thin space before every three digits.

    Below that the space would make two numbers of one, among running dimensions above all.
    """
    text = f"{value:,.{decimals}f}"
    return text.replace(",", "\u202f" if abs(value) >= _LONG else "")


def _no_number(typed: str, unit: str) -> Unreadable:
    return Unreadable(
        f"“{typed.strip()}” is not a number.",
        f"Enter digits in {_spoken(unit)}, with one comma or point at most.",
    )


def _spoken(unit: str) -> str:
    return "degrees" if unit == "°" else unit
