"""The fields of the bars form, and what is typed into them."""

from roofmodel.desktop.kit import number_text
from roofmodel.desktop.kit.number_text import Unreadable

FIELDS = {
    "bays": ("Bays", 52, "Number of equal bays along the eaves"),
    "bars": ("Bars", 52, "Bars counted, with those up a verge or wall; checks the bays"),
    "spacing_mm": ("Spacing", 66, "One spacing, centre to centre, mm"),
    "running_mm": (
        "Running dimensions",
        150,
        "Centre-lines running from the corner, mm, with a space between two: 0 667 1333",
    ),
    "bay_widths_mm": (
        "Each bay",
        120,
        "Every bay as taped along the eaves from the corner, mm: 667 667 666; the sum is checked",
    ),
    "last_bay_mm": ("Last bay", 58, "Bay after the last running dimension, mm; checks the eaves"),
    "bay_mm": ("One bay", 58, "Width of one of the equal bays, mm; checks the eaves"),
    "width_mm": ("Bar width", 66, "Width of a bar across its top, mm"),
}
"""Head, width on the screen and tip of each field, by its name in the job file."""

_COUNTS = ("bays", "bars")

Value = int | float | tuple[float, ...] | None


def understood(text: str, name: str) -> Value | Unreadable:
    """Return what a field of this form says; None for an empty one."""
    if not text.strip():
        return None
    if name in ("running_mm", "bay_widths_mm"):
        return _dimensions(text)
    if name in _COUNTS and not text.strip().isdecimal():
        return Unreadable(f"“{text.strip()}” is not a count.", "Enter a whole number.")
    return int(text) if name in _COUNTS else number_text.read(text, unit="mm")


def _dimensions(text: str) -> tuple[float, ...] | Unreadable:
    found: list[float] = []
    for part in text.split():
        one = number_text.read(part, unit="mm")
        if isinstance(one, Unreadable):
            return Unreadable(one.text, "Enter mm with a space between two: 0 667 1333.")
        found.append(one)
    return tuple(found)


def written(value: Value) -> str:
    """Return a value as it is written into its field."""
    if isinstance(value, tuple):
        return " ".join(number_text.shown(one) for one in value)
    return number_text.shown(value)


def means(text: str, name: str, value: Value) -> bool:
    """Return whether a text already says the value, so that it is left as it was typed."""
    return understood(text, name) == value


def in_plain_words(remedy: str) -> str:
    """Return a remedy with the heads of this form in place of the names of the job file."""
    for name, (head, _, _) in FIELDS.items():
        if name.endswith("_mm"):
            remedy = remedy.replace(name, head.lower())
    return remedy
