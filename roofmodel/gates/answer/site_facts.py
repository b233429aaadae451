"""What the checks ask about the site besides the survey; what is not known is said, not guessed."""

from dataclasses import dataclass
from typing import Annotated

from roofmodel.foundation import entered
from roofmodel.foundation.entered import RAIN, Entered
from roofmodel.foundation.errors import DimensionError
from roofmodel.standards import approved_document_h_2015 as document_h
from roofmodel.survey.readings.reading import STANDARD_ERROR, Tool

ASSUMED = {
    "gutter_mm": 100.0,
    "gutter_outlets": 1,
    "box_outlet_mm": 63.0,
    "box_outlets": 1,
    "plate_fixings_mm": 600.0,
}
"""What is taken where nobody entered a fact (common practice, no source); no gate passes on it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SiteFacts:
    """Facts of the place and of what hangs on the roof; None where nobody has entered one.

    Heights nobody has read with their error are taken to be good to ``height_error_mm``.
    """

    snow_zone: Annotated[
        int | None,
        Entered(
            label="Snow zone",
            where="Zone off the national snow map, 1 to 5",
            low=1,
            high=5,
            empty="not read",
        ),
    ] = None
    altitude_m: Annotated[
        float | None,
        Entered(
            label="Altitude",
            where="Site above sea level",
            unit="m",
            low=0.0,
            high=1_500.0,
            empty="not read",
        ),
    ] = None
    house_depth_m: Annotated[
        float | None,
        Entered(
            label="House depth",
            where="House square to the wall, for snow that slides or drifts off its roof",
            unit="m",
            low=2.0,
            high=50.0,
            empty="not read",
        ),
    ] = None
    snow_held: Annotated[
        bool,
        Entered(
            label="Snow held",
            where="Whether snow guards or a parapet keep snow from sliding off this roof",
        ),
    ] = False
    posts_apart_mm: Annotated[
        float | None,
        Entered(
            label="Posts apart",
            where="Widest distance of posts under the eaves",
            unit="mm",
            low=300.0,
            high=6_000.0,
            empty="not read",
        ),
    ] = None
    plate_fixings_mm: Annotated[
        float | None,
        Entered(
            label="Plate fixings",
            where="Widest distance of the wall plate's fixings to the house",
            unit="mm",
            low=100.0,
            high=1_500.0,
            empty="600 assumed",
        ),
    ] = None
    height_error_mm: Annotated[
        float,
        Entered(
            label="Heights ±",
            where="How sharp each height was taped",
            unit="mm",
            low=0.5,
            high=100.0,
        ),
    ] = STANDARD_ERROR[Tool.HEIGHT]
    run_error_mm: Annotated[
        float,
        Entered(
            label="Lengths ±",
            where="How sharp each level length was taped",
            unit="mm",
            low=0.0,
            high=100.0,
        ),
    ] = STANDARD_ERROR[Tool.TAPE]
    tile_least_pitch_deg: Annotated[
        float | None,
        Entered(
            label="Tiles from",
            where="Minimum pitch the maker of the tiles allows",
            unit="°",
            low=0.0,
            high=60.0,
            empty="by the catalogue",
        ),
    ] = None
    panel_least_pitch_deg: Annotated[
        float | None,
        Entered(
            label="Panels from",
            where="Minimum pitch the maker of the glazing panels allows",
            unit="°",
            low=0.0,
            high=45.0,
            empty="by the catalogue",
        ),
    ] = None
    gutter_mm: Annotated[
        float | None,
        Entered(
            label="Eaves gutter",
            where="Diameter of the half-round gutter",
            unit="mm",
            low=50.0,
            high=300.0,
            empty="100 assumed",
        ),
    ] = None
    gutter_outlets: Annotated[
        int | None,
        Entered(
            label="Outlets",
            where="Outlets of each eaves gutter",
            low=1,
            high=10,
            empty="1 assumed",
        ),
    ] = None
    outlet_central: Annotated[
        bool,
        Entered(
            label="Outlet central",
            where="Whether every outlet takes water from both sides, none standing at an end",
        ),
    ] = False
    rain_l_s_m2: Annotated[
        float,
        Entered(
            label="Rain",
            where="Design rain on the eaves gutters; 0.0208 is 75 mm/h, which serves outside "
            "gutters",
            unit=RAIN,
            low=0.001,
            high=0.2,
        ),
    ] = document_h.RAIN_L_S_M2
    rain_source: Annotated[
        str,
        Entered(
            label="Rain from",
            where="Document or letter the rain on the eaves gutters stands in",
            longest=200,
            empty="75 mm/h needs none",
        ),
    ] = ""
    box_outlet_mm: Annotated[
        float | None,
        Entered(
            label="Box outlet",
            where="Diameter of the box gutter's outlet",
            unit="mm",
            low=30.0,
            high=300.0,
            empty="63 assumed",
        ),
    ] = None
    box_outlets: Annotated[
        int | None,
        Entered(
            label="Box outlets",
            where="Outlets of the box gutter",
            low=1,
            high=10,
            empty="1 assumed",
        ),
    ] = None
    box_rain_l_s_m2: Annotated[
        float | None,
        Entered(
            label="Box rain",
            where="Storm of category 2 on the box gutter, which runs over into the room",
            unit=RAIN,
            low=0.001,
            high=0.2,
            empty="not known",
        ),
    ] = None
    box_rain_source: Annotated[
        str,
        Entered(
            label="Box rain from",
            where="Document or letter the storm on the box gutter stands in",
            longest=200,
            empty="where it stands",
        ),
    ] = ""
    box_overflow: Annotated[
        bool | None,
        Entered(
            label="Box overflow",
            where="Whether the box gutter overflows to the outside",
            empty="not read",
        ),
    ] = None
    box_width_mm: Annotated[
        float | None,
        Entered(
            label="Box width",
            where="Clear width of the box gutter",
            unit="mm",
            low=50.0,
            high=1_000.0,
            empty="not read",
        ),
    ] = None
    box_depth_mm: Annotated[
        float | None,
        Entered(
            label="Box depth",
            where="Depth of the box gutter",
            unit="mm",
            low=20.0,
            high=500.0,
            empty="not read",
        ),
    ] = None
    box_fall_mm: Annotated[
        float | None,
        Entered(
            label="Box fall",
            where="Fall of the box gutter over its length",
            unit="mm",
            low=0.0,
            high=500.0,
            empty="not read",
        ),
    ] = None
    box_freeboard_mm: Annotated[
        float | None,
        Entered(
            label="Freeboard",
            where="Depth kept free above the water of the box gutter",
            unit="mm",
            low=0.0,
            high=300.0,
            empty="by its depth",
        ),
    ] = None
    box_sump_mm: Annotated[
        float,
        Entered(
            label="Sump",
            where="Depth of the sump at the outlet, below the sole; 0 is none",
            unit="mm",
            low=0.0,
            high=300.0,
        ),
    ] = 0.0
    box_weir_mm: Annotated[
        float | None,
        Entered(
            label="Spill weir",
            where="Clear length of all spill weirs of the box gutter together",
            unit="mm",
            low=10.0,
            high=5_000.0,
            empty="not read",
        ),
    ] = None
    box_declared_l_s: Annotated[
        float | None,
        Entered(
            label="Box declared",
            where="What the box gutter carries with its outlets, as its supplier declares; goes "
            "first",
            unit="l/s",
            low=0.01,
            high=200.0,
            empty="computed",
        ),
    ] = None
    box_declared_source: Annotated[
        str,
        Entered(
            label="Declared by",
            where="Supplier and document of the declared flow",
            longest=200,
            empty="where it stands",
        ),
    ] = ""
    door_head_mm: Annotated[
        float | None,
        Entered(
            label="Door head",
            where="Highest door or fanlight head that opens below the roof, over the floor",
            unit="mm",
            low=1_000.0,
            high=4_000.0,
            empty="not read",
        ),
    ] = None
    least_ceiling_mm: Annotated[
        float | None,
        Entered(
            label="Least ceiling",
            where="Lowest ceiling the customer accepts at the eaves, over the floor",
            unit="mm",
            low=1_500.0,
            high=4_000.0,
            empty="not asked",
        ),
    ] = None

    def or_assumed(self, name: str) -> float:
        """Return a fact, or what is assumed where nobody entered it; a gate must then say so.

        Raises
        ------
        KeyError
            If nothing is ever assumed for it.
        """
        entered_value: float | None = getattr(self, name)
        return ASSUMED[name] if entered_value is None else entered_value

    def missing(self, *names: str) -> tuple[str, ...]:
        """Return which of some facts nobody entered."""
        return tuple(name for name in names if getattr(self, name) is None)

    def minimum_pitch_deg(self, category: str) -> float | None:
        """Return the minimum pitch entered for a category of covering [°]; None where none is."""
        entered = {"tile": self.tile_least_pitch_deg, "panel": self.panel_least_pitch_deg}
        return entered.get(category)

    def __post_init__(self) -> None:
        """Refuse facts no site has, all at once."""
        faults = entered.faults(self)
        if faults:
            raise DimensionError(faults)
