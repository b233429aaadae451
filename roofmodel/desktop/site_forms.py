"""What the forms of the gates page ask: facts of the place, and whose limits apply."""

from roofmodel.checks.thermal_limits import Case, Nation
from roofmodel.desktop.entry_form import Asked

SITE = (
    Asked(
        name="snow_zone",
        label="Snow zone",
        where="Zone off the national snow map, 1 to 5",
        unit="",
        optional=True,
        whole=True,
        empty="not read",
    ),
    Asked(
        name="altitude_m",
        label="Altitude",
        where="Site above sea level",
        unit="m",
        optional=True,
        empty="not read",
    ),
    Asked(
        name="house_depth_m",
        label="House depth",
        where="House square to the wall, for snow that slides or drifts off its roof",
        unit="m",
        optional=True,
        empty="not read",
    ),
    Asked(
        name="posts_apart_mm",
        label="Posts apart",
        where="Widest distance of posts under the eaves",
        optional=True,
        empty="not read",
    ),
    Asked(
        name="tile_least_pitch_deg",
        label="Tiles from",
        where="Least pitch the maker of the tiles allows",
        unit="°",
        optional=True,
        empty="14, common practice",
    ),
    Asked(
        name="height_error_mm",
        label="Heights ±",
        where="How sharp each height was taped",
    ),
    Asked(
        name="door_head_mm",
        label="Door head",
        where="Highest door or fanlight head that opens below the roof, over the floor",
        optional=True,
        empty="not read",
    ),
    Asked(
        name="gutter_mm",
        label="Eaves gutter",
        where="Diameter of the half-round gutter",
    ),
    Asked(
        name="gutter_outlets",
        label="Outlets",
        where="Outlets of each eaves gutter",
        unit="",
        whole=True,
    ),
    Asked(
        name="box_outlet_mm",
        label="Box outlet",
        where="Diameter of the box gutter's outlet",
    ),
    Asked(
        name="box_outlets",
        label="Box outlets",
        where="Outlets of the box gutter",
        unit="",
        whole=True,
    ),
    Asked(
        name="box_width_mm",
        label="Box width",
        where="Clear width of the box gutter",
        optional=True,
        empty="not read",
    ),
    Asked(
        name="box_depth_mm",
        label="Box depth",
        where="Depth of the box gutter",
        optional=True,
        empty="not read",
    ),
    Asked(
        name="box_fall_mm",
        label="Box fall",
        where="Fall of the box gutter over its length",
        optional=True,
        empty="not read",
    ),
    Asked(
        name="box_overflow",
        label="Box overflow",
        where="Whether the box gutter overflows to the outside",
        choices=((None, "not read"), (True, "yes"), (False, "no")),
    ),
)

HEAT = (
    Asked(
        name="nation",
        label="Rules of",
        where="Whose limits of the U-value apply",
        choices=((None, "not chosen"), *((one, one.value) for one in Nation)),
    ),
    Asked(
        name="case",
        label="Counts as",
        where="What building control says it counts as; the stricter limit until it is known",
        choices=((None, "not said"), *((one, one.value) for one in (Case.NEW, Case.RENOVATED))),
    ),
    Asked(
        name="wall_glazing_m2",
        label="Wall glazing",
        where="Glass that stays in the walls, for the daylight left",
        unit="m²",
        optional=True,
        empty="not read",
    ),
)
