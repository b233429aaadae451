"""What facets look like wherever they are shown: their colours and what is written on them."""

from roofmodel.shapes.roof import Facet

_COLOURS = (
    "#e8a37c",
    "#93bce0",
    "#b2cd86",
    "#e0a0bc",
    "#ece08c",
    "#84cdb6",
    "#b9a0dc",
    "#cdb49c",
)
"""Soft tints of hues far apart, all light enough for dark words."""


def facet_colour(place: int) -> str:
    """Return the colour of the facet at a place in `roof.facets`, as ``#rrggbb``.

    Eight facets differ; after that the colours begin again.
    """
    return _COLOURS[place % len(_COLOURS)]


def facet_label(facet: Facet) -> str:
    """Return what is written on a facet: its name, pitch and true area, each on a line."""
    return f"{facet.name}\n{facet.pitch_deg:.1f}°\n{facet.area_m2:.2f} m²"
