"""What the checks ask about the site besides the survey; what is not known is said, not guessed."""

from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from roofmodel.foundation import in_range
from roofmodel.foundation.errors import DimensionError
from roofmodel.standards import approved_document_h_2015 as document_h

HEIGHT_ERROR_MM = 5.0
"""How sharp a taped height is taken to be where no reading says so (common practice, no source)."""

PANEL_LEAST_PITCH_DEG = 5.0
"""Least pitch of glazing panels (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SiteFacts:
    """Facts of the place and of what hangs on the roof; None where nobody has entered one.

    Heights nobody has read with their error are taken to be good to ``height_error_mm``.
    """

    snow_zone: Annotated[int | None, Field(description="UK snow zone, 1 to 5")] = None
    altitude_m: Annotated[float | None, Field(description="Altitude above sea level [m]")] = None
    house_depth_m: Annotated[
        float | None, Field(description="Depth of the house square to the wall [m]")
    ] = None
    snow_held: Annotated[
        bool, Field(description="Snow guards or a parapet keep snow on this roof")
    ] = False
    posts_apart_mm: Annotated[
        float | None, Field(description="Widest distance of posts under the eaves [mm]")
    ] = None
    height_error_mm: Annotated[
        float, Field(description="How sharp each height was taped, ± [mm]")
    ] = HEIGHT_ERROR_MM
    run_error_mm: Annotated[float, Field(description="How sharp the run was taped, ± [mm]")] = 0.0
    tile_least_pitch_deg: Annotated[
        float | None, Field(description="Least pitch the maker of the tiles allows [°]")
    ] = None
    panel_least_pitch_deg: Annotated[
        float, Field(description="Least pitch of glazing panels [°]")
    ] = PANEL_LEAST_PITCH_DEG
    gutter_mm: Annotated[
        float, Field(description="Diameter of the half-round eaves gutter [mm]")
    ] = 100.0
    gutter_outlets: Annotated[int, Field(description="Outlets of each eaves gutter")] = 1
    outlet_central: Annotated[
        bool, Field(description="Every outlet takes water from both sides, not at an end")
    ] = False
    rain_l_s_m2: Annotated[
        float, Field(description="Design rain on the eaves gutters [l/s for every m²]")
    ] = document_h.RAIN_L_S_M2
    rain_source: Annotated[
        str, Field(description="Where the rain on the eaves gutters stands", max_length=200)
    ] = ""
    box_outlet_mm: Annotated[
        float, Field(description="Diameter of the box gutter's outlet [mm]")
    ] = 63.0
    box_outlets: Annotated[int, Field(description="Outlets of the box gutter")] = 1
    box_rain_l_s_m2: Annotated[
        float | None, Field(description="Design rain on the box gutter [l/s for every m²]")
    ] = None
    box_rain_source: Annotated[
        str, Field(description="Where the rain on the box gutter stands", max_length=200)
    ] = ""
    box_overflow: Annotated[
        bool | None, Field(description="The box gutter has an overflow to the outside")
    ] = None
    box_width_mm: Annotated[
        float | None, Field(description="Clear width of the box gutter [mm]")
    ] = None
    box_depth_mm: Annotated[float | None, Field(description="Depth of the box gutter [mm]")] = None
    box_fall_mm: Annotated[
        float | None, Field(description="Fall of the box gutter over its length [mm]")
    ] = None
    box_freeboard_mm: Annotated[
        float | None,
        Field(description="Depth kept free above the water of the box gutter [mm]"),
    ] = None
    box_sump_mm: Annotated[
        float, Field(description="Depth of the sump at the outlet, below the gutter's sole [mm]")
    ] = 0.0
    box_weir_mm: Annotated[
        float | None, Field(description="Clear length of all spill weirs together [mm]")
    ] = None
    box_declared_l_s: Annotated[
        float | None,
        Field(description="What the box gutter carries with its outlets, as declared [l/s]"),
    ] = None
    box_declared_source: Annotated[
        str, Field(description="Who declares what the box gutter carries", max_length=200)
    ] = ""
    door_head_mm: Annotated[
        float | None, Field(description="Highest door or fanlight head that opens below [mm]")
    ] = None
    least_ceiling_mm: Annotated[
        float | None, Field(description="Lowest ceiling the customer accepts at the eaves [mm]")
    ] = None

    def __post_init__(self) -> None:
        """Refuse facts no site has, all at once."""
        faults = in_range.faults(self, _RANGES)
        if faults:
            raise DimensionError(faults)


_RANGES = {
    "snow_zone": (1, 5),
    "altitude_m": (0.0, 1_500.0),
    "house_depth_m": (2.0, 50.0),
    "posts_apart_mm": (300.0, 6_000.0),
    "height_error_mm": (0.5, 100.0),
    "run_error_mm": (0.0, 100.0),
    "tile_least_pitch_deg": (0.0, 60.0),
    "panel_least_pitch_deg": (0.0, 45.0),
    "gutter_mm": (50.0, 300.0),
    "gutter_outlets": (1, 10),
    "rain_l_s_m2": (0.001, 0.2),
    "box_outlet_mm": (30.0, 300.0),
    "box_outlets": (1, 10),
    "box_rain_l_s_m2": (0.001, 0.2),
    "box_width_mm": (50.0, 1_000.0),
    "box_depth_mm": (20.0, 500.0),
    "box_fall_mm": (0.0, 500.0),
    "box_freeboard_mm": (0.0, 300.0),
    "box_sump_mm": (0.0, 300.0),
    "box_weir_mm": (10.0, 5_000.0),
    "box_declared_l_s": (0.01, 200.0),
    "door_head_mm": (1_000.0, 4_000.0),
    "least_ceiling_mm": (1_500.0, 4_000.0),
}
