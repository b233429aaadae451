"""What the forms of the layers page ask: exceptions of the refit, and what stands there."""

from roofmodel.desktop.job.entry_form import Asked
from roofmodel.refit.entry import Counting
from roofmodel.survey.taped.standing import Glazing

EXCEPTIONS = (
    Asked(
        name="bearers_per_bay",
        label="Bearers per bay",
        where="Bearers added up the middle of every bay, to carry the deck",
        unit="",
        whole=True,
    ),
    Asked(
        name="rafter_spacing_mm",
        label="Rafter spacing",
        where="Widest distance of new rafters, middle to middle; only a new roof has them",
        optional=True,
        empty="the method's own",
    ),
    Asked(
        name="fitting_gap_mm",
        label="Fitting gap",
        where="Left free round a board cut to its bay, on each side",
    ),
    Asked(
        name="room_inset_mm",
        label="Room inset",
        where="How far the lining stays in from eaves and verges, measured level",
    ),
    Asked(
        name="eaves_overhang_mm",
        label="Eaves overhang",
        where="How far deck and tiles reach past the eaves, down the slope",
    ),
    Asked(
        name="counting",
        label="Screws counted",
        where="By a rate for each m², or post by post along every board and batten",
        choices=tuple((one, one.value) for one in Counting),
    ),
)

STANDING = (
    Asked(
        name="glazing",
        label="Glazing",
        where="What the old roof is glazed with",
        choices=((None, "not read"), *((one, one.value) for one in Glazing)),
    ),
    Asked(
        name="glazing_mm",
        label="Its thickness",
        where="Thickness of the old glazing",
        optional=True,
        empty="not read",
    ),
    Asked(
        name="bar_depth_mm",
        label="Bar depth",
        where="Depth of the bars, top to underside",
        optional=True,
        empty="not read: 75 assumed",
    ),
    Asked(
        name="sill_height_mm",
        label="Sill height",
        where="Underside of the sill or tray above the roof, over the floor",
        optional=True,
        empty="not read",
    ),
    Asked(
        name="tie_bars", label="Tie bars", where="Tie bars counted; they stay", unit="", whole=True
    ),
    Asked(
        name="wall_above_mm",
        label="Wall above",
        where="Height of the wall above that drains onto the roof",
    ),
    Asked(
        name="house_roof_m2",
        label="House roof draining in",
        where="Plan area of house roof that drains onto this one",
        unit="m²",
    ),
    Asked(
        name="house_roof_pitch_deg",
        label="Its pitch",
        where="Pitch of that house roof, for the rain blown at it",
        unit="°",
    ),
)
