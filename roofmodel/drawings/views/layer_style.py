"""What layers look like wherever they are shown: the colour of each kind of material."""

_COLOURS = {
    "deck": "#c9a06a",
    "insulation": "#e8d9a0",
    "foil": "#b9c0c6",
    "lining": "#e4e1dc",
    "finish": "#f4f1ea",
    "timber": "#b98c5a",
    "membrane": "#7c8c99",
    "tile": "#6b5a52",
    "panel": "#9fb4a8",
}
_OTHER = "#cccccc"

CATEGORIES = frozenset(_COLOURS)
"""Kinds of material that are laid as layers."""


def layer_colour(category: str) -> str:
    """Return the colour of a layer by the category of its material, as ``#rrggbb``."""
    return _COLOURS.get(category, _OTHER)
