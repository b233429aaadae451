"""How far apart the supports of a deck may stand, and what is said when they stand farther."""

from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from typing import Any

from roofmodel.foundation import resources
from roofmodel.foundation.errors import ResourceError
from roofmodel.foundation.source import Source
from roofmodel.refit.refit import Refit
from roofmodel.shapes.roof import Facet

SET_OUT_MM = 10.0
"""A table's spacing is nominal: bars set out to it stand so much farther apart here and there
(common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DeckSpan:
    """The widest nominal distance of supports for one deck board, middle to middle [mm]."""

    material: str
    most_mm: float
    source: Source

    @property
    def reach_mm(self) -> float:
        """The widest distance as it may be measured, setting out allowed for [mm]."""
        return self.most_mm + SET_OUT_MM


@dataclass(frozen=True, slots=True, kw_only=True)
class Support:
    """How far apart the supports of one facet's deck stand [mm], and how far they may."""

    facet: str
    apart_mm: float
    span: DeckSpan
    bearers: int

    @property
    def holds(self) -> bool:
        """Whether the board reaches from support to support."""
        return self.apart_mm <= self.span.reach_mm

    @property
    def bearers_needed(self) -> int:
        """Bearers up every bay that would bring the supports close enough."""
        count = self.bearers
        while self.apart_mm * (self.bearers + 1) / (count + 1) > self.span.reach_mm:
            count += 1
        return count


@cache
def spans() -> dict[str, DeckSpan]:
    """Return the shipped spans by the code of the board.

    Raises
    ------
    ResourceError
        If the file is wrong.
    """
    table = resources.read_toml(resources.folder() / "deck_spans.toml")
    return {one.material: one for one in map(_span, table.get("deck", []))}


def _span(row: dict[str, Any]) -> DeckSpan:
    try:
        return DeckSpan(
            material=row["material"], most_mm=float(row["most_mm"]), source=Source(**row["source"])
        )
    except (KeyError, TypeError, ValueError) as error:
        raise ResourceError(f"deck_spans.toml, {row.get('material', 'a row')}: {error}.") from error


def of_refit(refit: Refit) -> tuple[Support, ...]:
    """Return the supports of the deck, facet by facet; none without a deck, bars or a span."""
    deck = refit.layer("deck")
    span = spans().get(deck.material.code) if deck else None
    if deck is None or span is None:
        return ()
    supports = []
    for facet in refit.cut_facets(deck):
        at_mm = refit.supports_mm(deck).get(facet.name)
        if at_mm is not None:
            supports.append(
                Support(
                    facet=facet.name,
                    apart_mm=_widest_mm(facet, at_mm),
                    span=span,
                    bearers=refit.entry.bearers_per_bay,
                )
            )
    return tuple(supports)


def _widest_mm(facet: Facet, at_mm: tuple[float, ...]) -> float:
    ends = facet.outline_mm[:, 0]
    places = [float(ends.min()), *at_mm, float(ends.max())]
    return max(b - a for a, b in pairwise(places))
