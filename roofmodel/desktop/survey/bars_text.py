"""The fields of the bars form, and what is typed into them."""

from roofmodel.desktop.kit import number_text
from roofmodel.desktop.kit.number_text import Unreadable
from roofmodel.foundation import entered
from roofmodel.survey.taped.bars_entry import BarsEntry

_DECLARED = entered.fields_of(BarsEntry)

WIDTHS_PX = {
    "bays": 52,
    "bars": 52,
    "over_mm": 62,
    "spacing_mm": 62,
    "running_mm": 140,
    "bay_widths_mm": 110,
    "last_bay_mm": 58,
    "bay_mm": 58,
    "width_mm": 62,
}
"""The fields in their order, and how wide each is on the screen."""

FIELDS = {name: _DECLARED[name].says for name in WIDTHS_PX}
CORNER = _DECLARED["corner"]

_COUNTS = ("bays", "bars")

Value = int | float | tuple[float, ...] | None


def understood(text: str, name: str) -> Value | Unreadable:
    """Return what a field of this form says; None for an empty one."""
    if not text.strip():
        return None
    if name in ("running_mm", "bay_widths_mm"):
        return _dimensions(text)
    if name in _COUNTS and not text.strip().isdecimal():
        return Unreadable(f"“{text.strip()}” is not a whole number.", "Enter a whole number.")
    return int(text) if name in _COUNTS else number_text.read(text, unit="mm")


def _dimensions(text: str) -> tuple[float, ...] | Unreadable:
    dimensions: list[float] = []
    for part in text.split():
        one = number_text.read(part, unit="mm")
        if isinstance(one, Unreadable):
            return Unreadable(one.text, "Enter mm separated by spaces: 0 667 1333.")
        dimensions.append(one)
    return tuple(dimensions)


def written(value: Value) -> str:
    """Return a value as it is written into its field."""
    if isinstance(value, tuple):
        return " ".join(number_text.shown(one) for one in value)
    return number_text.shown(value)


def means(text: str, name: str, value: Value) -> bool:
    """Return whether a text already says the value, so that it is left as it was typed."""
    return understood(text, name) == value
