"""What a survey sheet says besides the lines of its shape, in our own words.

What the job's forms ask of the site stands there in the words of the forms.
"""

from dataclasses import dataclass
from functools import lru_cache

from roofmodel.foundation import entered
from roofmodel.foundation.entered import EnteredField
from roofmodel.gates.answer.house_facts import HouseFacts
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.shapes.footprint import SideKind
from roofmodel.survey.readings.network import Network
from roofmodel.survey.taped.standing import Standing
from roofmodel.survey.verdict import protection

CAUTION = (
    "CAUTION. A glazed roof is fragile: never stand, kneel or lean on the glazing or its bars. "
    "Work at height only from a ladder or tower on firm ground, held or tied, and not alone. "
    "Where a soffit, flue or lining may hold asbestos, do not touch it; have it tested. "
    "Electrics are for a registered electrician. "
    "This sheet records what was read; it does not approve anything."
)

READING = (
    "Recommended: 2× read twice, lengths from opposite ends, and a third time when the two differ "
    "by more than 5 mm (common practice, no source); 1× read once. A dash: only to settle a doubt. "
    "A grey box may stay empty. Enter what the tool shows, in the unit given. Basis: tick M "
    "measured, A assumed or D from a drawing. Left and right are as seen from outside, looking at "
    "the house."
)

BARS = (
    "Bars: centre lines, running dimension in mm along the eaves from the first corner named (the "
    "left-hand one looking up the slope), and kind of bar: R rafter, J jack, H hip, S starter, "
    "V valley. Count the bays before leaving."
)


@dataclass(frozen=True, slots=True)
class Group:
    """Items to tick under one heading; room for a note beside each."""

    heading: str
    items: tuple[str, ...]


_ALL = (
    Group(
        "Setting",
        (
            "Front faces, ° from north",
            "Coast, hill or sheltered; altitude",
            "Windows, flues, vents, cables above",
            "Access, parking, skip, ladder footing",
            "Asbestos suspected: soffit, flue",
            "Photos: corners, abutment, outlets, bars",
        ),
    ),
    Group(
        "House wall and abutment",
        (
            "Cavity, solid, rendered, clad",
            "Cavity tray, flashing, chase depth",
            "Damp course and ground against floor",
            "Sill or eaves above: left, middle, right",
            "Wall bow by string; out of plumb",
        ),
    ),
    Group(
        "Eaves",
        (
            "Beam section; how bars sit on it",
            "Overhang, fascia, soffit",
        ),
    ),
    Group(
        "Bars",
        (
            "Width top and under",
            "Thermal break, cap, rebate",
            "Ties, rods, boss: place, height; they stay",
            "Sag of three bars by string; corrosion",
            "Fixing at eaves and at the top",
            "Vents, fans, blinds, lights",
        ),
    ),
    Group(
        "Frame and base",
        (
            "Material; reinforced; corner posts",
            "Widest door: span, sag of its head",
            "Dwarf wall or full height; brick",
            "Movement: gap at house, cracks, doors",
            "Footing seen; trees within 10 m; drains",
            "Condition, as frames carry the roof",
        ),
    ),
    Group(
        "Glazing",
        (
            "Marks on the panes",
            "Panel swap: every bay on its own sheet",
        ),
    ),
    Group(
        "Services",
        (
            "Lighting circuit, RCD, spare way",
            "Heating; door to the house kept",
        ),
    ),
    Group(
        "Customer",
        (
            "Use; heat, cold, noise, leaks, glare",
            "Lights, vents, roof window wanted",
            "Ceiling flat or vaulted; colours",
            "Time, budget, photos allowed",
        ),
    ),
)

_BOX_GUTTER = Group(
    "Box gutter",
    (
        "Clear width top and sole; depth at ends",
        "Fall, outlets and bore, overflow",
        "Upstand, lining, what carries it",
        "What else drains into it",
    ),
)

_VERGE = Group("Verges", ("Glazed or wall below; overhang; ties",))


@lru_cache(maxsize=32)
def first_lines(network: Network) -> str:
    """Return which lines to read first where time is short, by their numbers in the table."""
    order = protection.order(network)
    numbers = ", ".join(str(network.lines.index(line) + 1) for line in order)
    return (
        f"If time is short, take lines {numbers} first, once each, in this order. After the last "
        f"of them {protection.STATED} would show in each."
    )


def groups(network: Network) -> tuple[Group, ...]:
    """Return what to tick on a roof of this shape."""
    asked = list(_ALL)
    if SideKind.BOX_GUTTER in network.sides:
        asked.insert(3, _BOX_GUTTER)
    if SideKind.VERGE in network.sides:
        asked.insert(3, _VERGE)
    return tuple(asked)


ENTRIES = (
    "What the job asks for besides: enter it under these names; where there are choices, ring one. "
    "What stays empty is assumed or not known, and no gate passes on it."
)

_SITE = (
    "gutter_mm",
    "gutter_outlets",
    "outlet_central",
    "downpipe_mm",
    "door_head_mm",
    "posts_apart_mm",
    "plate_fixings_mm",
    "house_depth_m",
    "snow_held",
)
_BOX = (
    "box_width_mm",
    "box_depth_mm",
    "box_fall_mm",
    "box_outlet_mm",
    "box_outlets",
    "box_sump_mm",
    "box_overflow",
    "box_weir_mm",
)
"""Of what is asked about the site, what is looked at there; the rest stands in documents."""

_OFF_SITE = (
    "covering_class",
    "eaves_psi_w_mk",
    "abutment_psi_w_mk",
    "psi_source",
    "protected",
    "principal_designer",
)


def entries(network: Network) -> list[tuple[str, list[EnteredField]]]:
    """Return what the job asks of the site besides the lines, under headings."""
    site = entered.fields_of(SiteFacts)
    named = (*_SITE, *(_BOX if SideKind.BOX_GUTTER in network.sides else ()))
    house = entered.fields_of(HouseFacts)
    return [
        ("Existing roof", list(entered.fields_of(Standing).values())),
        ("Gutters, heads, posts", [site[name] for name in named]),
        ("House and neighbours", [one for name, one in house.items() if name not in _OFF_SITE]),
    ]


BACK = {
    SideKind.HOUSE_WALL: "HOUSE WALL",
    SideKind.BOX_GUTTER: "HOUSE WALL, box gutter along it",
    SideKind.EAVES: "towards the house",
}
"""What stands at the top of the plan."""
