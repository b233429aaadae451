"""Refuses numbers of an entry that lie outside what can be, all of them at once."""

from collections.abc import Mapping
from decimal import Decimal

from roofmodel.foundation.errors import Fault

Number = float | Decimal
Ranges = Mapping[str, tuple[Number, Number]]
"""Least and most of a field, both allowed, by the field's name."""


def faults(entry: object, ranges: Ranges) -> list[Fault]:
    """Return a fault for every field outside its range; a field that is None is not entered.

    Parameters
    ----------
    entry
        What holds the fields.
    ranges
        Least and most of each.
    """
    return [
        Fault(name, f"{value:g} is out of range here.", f"Enter {low:g} to {high:g}.")
        for name, (low, high) in ranges.items()
        if (value := getattr(entry, name)) is not None and not low <= value <= high
    ]
