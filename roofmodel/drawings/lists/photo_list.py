"""What is photographed before it is covered: for building control, and for the handover."""

PHOTOS = (
    ("before", "every facet from outside, eaves and wall plate from inside, gutter and outlet"),
    ("before", "glazing label or thickness, bars and caps, posts, window heads"),
    ("stripped", "each bar, ledger, eaves beam and post head, anything rotten or bent"),
    ("inside", "battens and counter-battens, foil with every lap and edge taped"),
    ("inside", "cables clipped, every light's hole sealed, spacing to insulation"),
    ("outside", "insulation in every bay with its gaps filled, before the deck"),
    ("outside", "deck with screws and edge gaps, straps and brackets"),
    ("outside", "membrane laps, hips and valleys, upstands, box gutter lined and overflow"),
    ("after", "flashing let in, cappings, fascia, soffit and ventilation openings, gutter fall"),
    ("after", "water test of gutters and outlets, ceiling, certificates"),
)
"""Stage and what is photographed before it is covered (common practice, no source)."""
