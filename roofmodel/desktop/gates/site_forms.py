"""What the forms of the gates page ask: the place, whose limits apply, and the air in the roof."""

from roofmodel.desktop.job.entry_form import Asked
from roofmodel.desktop.kit.number_text import RAIN
from roofmodel.gates.heat.limits import Case, Nation
from roofmodel.refit.method import Method

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
        name="rain_l_s_m2",
        label="Rain",
        where="Design rain on the eaves gutters; 0.0208 is 75 mm/h, which serves outside gutters",
        unit=RAIN,
    ),
    Asked(
        name="rain_source",
        label="Rain from",
        where="Document or letter the rain on the eaves gutters stands in",
        words=True,
        empty="75 mm/h needs none",
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
    Asked(
        name="box_weir_mm",
        label="Spill weir",
        where="Clear length of all spill weirs of the box gutter together",
        optional=True,
        empty="not read",
    ),
    Asked(
        name="box_freeboard_mm",
        label="Freeboard",
        where="Depth kept free above the water of the box gutter",
        optional=True,
        empty="by its depth",
    ),
    Asked(
        name="box_sump_mm",
        label="Sump",
        where="Depth of the sump at the outlet, below the sole; 0 is none",
    ),
    Asked(
        name="box_rain_l_s_m2",
        label="Box rain",
        where="Storm of category 2 on the box gutter, which runs over into the room",
        unit=RAIN,
        optional=True,
        empty="not known",
    ),
    Asked(
        name="box_rain_source",
        label="Box rain from",
        where="Document or letter the storm on the box gutter stands in",
        words=True,
        empty="where it stands",
    ),
    Asked(
        name="box_declared_l_s",
        label="Box declared",
        where="What the box gutter carries with its outlets, as its supplier declares; goes first",
        unit="l/s",
        optional=True,
        empty="computed",
    ),
    Asked(
        name="box_declared_source",
        label="Declared by",
        where="Supplier and document of the declared flow",
        words=True,
        empty="where it stands",
    ),
)

HEAT = (
    Asked(
        name="nation",
        label="Nation",
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
        name="on",
        label="Rules of",
        where="Day whose rules apply, as 2026-03-31",
        day=True,
        optional=True,
        empty="the newest known",
    ),
    Asked(
        name="u_limit_w_m2k",
        label="Own limit",
        where="Limit of the U-value printed in the document that applies; goes first",
        unit="W/m²K",
        optional=True,
        empty="the nation's",
    ),
    Asked(
        name="u_limit_source",
        label="Limit from",
        where="Document and place the own limit stands in",
        words=True,
        empty="where it stands",
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

MODELLED = (
    Asked(
        name="u_w_m2k",
        label="U calculated",
        where="U of the whole roof, bars among it, from a calculation to EN ISO 10211",
        unit="W/m²K",
        empty="none",
    ),
    Asked(
        name="by",
        label="By",
        where="Who calculated it, and the number of the report",
        words=True,
        empty="modeller, report",
    ),
    Asked(
        name="method",
        label="For",
        where="The method whose layers were calculated; it is good for no other",
        choices=tuple(
            (one, one.printed) for one in (Method.BUILD_ROUND, Method.NEW_ROOF, Method.PANEL_SWAP)
        ),
    ),
)

VENTILATION = (
    Asked(
        name="clear_mm",
        label="Clear space",
        where="Clear depth between insulation and deck",
        optional=True,
        empty="none",
    ),
    Asked(
        name="eaves_mm",
        label="Open at eaves",
        where="Opening all along the eaves",
        optional=True,
        empty="none",
    ),
    Asked(
        name="ridge_mm",
        label="Open at ridge",
        where="Opening all along ridge or house wall",
        optional=True,
        empty="none",
    ),
)
