"""Understands a length or an angle as people type it; what is doubtful is asked, never guessed."""

import re
from dataclasses import dataclass

from roofmodel.foundation.errors import DimensionError, Fault

_PER_UNIT_MM = {"mm": 1.0, "cm": 10.0, "m": 1000.0}
_SHORT = {"": "mm", "metre": "m", "metres": "m", "meter": "m", "meters": "m"}
_LENGTH = re.compile(r"(?P<number>[0-9][0-9., \u2009\u202f]*)\s*(?P<unit>[a-z\"'′″]*)")
_ANGLE = re.compile(r"(?P<number>[0-9][0-9.,]*)\s*(?P<unit>°|deg|degs|degree|degrees|)")
_GROUPED = re.compile(r"[0-9]{1,3}(?:[ \u2009\u202f][0-9]{3})+(?:[.,][0-9]+)?")
_PLAIN = re.compile(r"[0-9]+(?:[.,][0-9]+)?")


@dataclass(frozen=True, slots=True, kw_only=True)
class Plausible:
    """Between what lengths nobody asks back, and what such a length is called."""

    what: str
    least_mm: float
    most_mm: float

    def holds(self, value_mm: float) -> bool:
        """Whether a length is an ordinary one."""
        return self.least_mm <= value_mm <= self.most_mm


PLAN = Plausible(what="a plan size", least_mm=1000.0, most_mm=12_000.0)
FACET_SIDE = Plausible(what="a side of the end", least_mm=400.0, most_mm=12_000.0)
HEIGHT = Plausible(what="a height", least_mm=1500.0, most_mm=5000.0)
PART = Plausible(what="a size", least_mm=10.0, most_mm=1000.0)
"""Usual sizes at conservatories (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Typed:
    """A value as it was typed, and the question it raises, if any.

    ``value`` is what stands there, taken by the letter; ``meant`` are the values it may stand for
    instead. Nothing is changed until somebody answers.
    """

    value: float
    question: str = ""
    meant: tuple[float, ...] = ()

    @property
    def doubtful(self) -> bool:
        """Whether it has to be asked about."""
        return bool(self.question)


def parse_length(text: str, *, field: str = "length", plausible: Plausible = PLAN) -> Typed:
    """Return the length of a text in mm; mm, cm or m, with a comma or a point.

    Without a unit it is taken as mm. A length that is no ordinary one is kept and asked about.

    Raises
    ------
    DimensionError
        If it is no length, or not more than 0; the text says how to write it.

    Examples
    --------
    >>> parse_length("3,5 m").value
    3500.0
    >>> parse_length("350").question
    '350: did you mean 3500 mm (350 cm)?'
    """
    typed = text.strip()
    match = _LENGTH.fullmatch(typed.lower())
    if match is None:
        raise _refused(field, typed, _why_no_length(typed))
    unit = _SHORT.get(match["unit"], match["unit"])
    if unit not in _PER_UNIT_MM:
        raise _refused(field, typed, f"“{match['unit']}” is not a unit of length used here.")
    number = _number(match["number"].strip(), field=field, typed=typed)
    value = number * _PER_UNIT_MM[unit]
    if not value > 0.0:
        raise _refused(field, typed, "A length must be more than 0.")
    return _asked(typed, number, unit, value, plausible)


def parse_angle(text: str, *, field: str = "angle", most_deg: float = 180.0) -> Typed:
    """Return the angle of a text in degrees, with a comma or a point.

    Raises
    ------
    DimensionError
        If it is no angle, or not between 0 and ``most_deg``; the text says how to write it.
    """
    typed = text.strip()
    remedy = "Enter it in degrees, for example 14.5."
    match = _ANGLE.fullmatch(typed.lower())
    if match is None or _PLAIN.fullmatch(match["number"]) is None:
        fault = Fault(field, f"“{typed}” is not an angle.", remedy)
        raise DimensionError([fault])
    value = float(match["number"].replace(",", "."))
    if not 0.0 < value < most_deg:
        fault = Fault(
            field, f"{typed}: the angle must be more than 0° and less than {most_deg:g}°.", remedy
        )
        raise DimensionError([fault])
    return Typed(value=value)


def _why_no_length(typed: str) -> str:
    if typed.startswith(("-", "−")):
        return "A length must be more than 0."
    if re.search(r"[0-9]\s*[a-z\"'′″]+\s*[0-9]", typed.lower()):
        return "That is more than one number."
    return "That is not a length."


def _number(digits: str, *, field: str, typed: str) -> float:
    """Return a number with a comma or a point; both at once could mean two things."""
    if _PLAIN.fullmatch(digits):
        return float(digits.replace(",", "."))
    if _GROUPED.fullmatch(digits):
        return float(re.sub(r"[ \u2009\u202f]", "", digits).replace(",", "."))
    raise _refused(field, typed, "It is not clear where the decimals begin.")


def _refused(field: str, typed: str, why: str) -> DimensionError:
    remedy = "Enter it in the form 3500, 350 cm or 3.5 m."
    return DimensionError([Fault(field, f"“{typed}”: {why}", remedy)])


def _asked(typed: str, number: float, unit: str, value: float, plausible: Plausible) -> Typed:
    """Return a length with the question it raises: it is kept as it was typed."""
    if plausible.holds(value):
        return Typed(value=value)
    size = "short" if value < plausible.least_mm else "long"
    meant = {
        number * per_unit: other
        for other, per_unit in _PER_UNIT_MM.items()
        if other != unit and plausible.holds(number * per_unit)
    }
    if not meant:
        question = f"{typed} is very {size} for {plausible.what}. Is it right?"
        return Typed(value=value, question=question)
    choices = " or ".join(
        f"{meant_mm:g} mm ({number:g} {other})" if other != "mm" else f"{meant_mm:g} mm"
        for meant_mm, other in meant.items()
    )
    return Typed(value=value, question=f"{typed}: did you mean {choices}?", meant=tuple(meant))
