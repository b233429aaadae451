"""Finds numbers that a catalogue file has as text: the reader would take some of them for good."""

from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass
from decimal import Decimal

from roofmodel.buildups import catalogue_words
from roofmodel.buildups.catalogue_words import Place, Words
from roofmodel.buildups.material import Material, Pack, Price, SheetForm, StockSize


def as_texts(
    row: object, owner: type = Material, place: Place = ()
) -> Iterator[tuple[Place, Words]]:
    """Yield place and words of every number of a row that stands there as text."""
    if not isinstance(row, dict) or not is_dataclass(owner):
        return
    for field in fields(owner):
        value = row.get(field.name)
        inner = _INNER.get(field.name)
        here = (*place, field.name)
        if inner is not None and isinstance(value, list):
            for number, entry in enumerate(value):
                yield from as_texts(entry, inner, (*here, number))
        elif inner is not None:
            yield from as_texts(value, inner, here)
        elif isinstance(value, str | bool) and field.type in _NUMBERS:
            column = catalogue_words.column(here)
            yield here, (column, *catalogue_words.not_a_number(value))


_INNER: Mapping[str, type] = {
    "pack": Pack,
    "price": Price,
    "sheet": SheetForm,
    "sizes": StockSize,
}
_NUMBERS = (float, Decimal, float | None)
