"""What the checks ask about the site besides the survey; what is not known is said, not guessed."""

from dataclasses import dataclass
from typing import Annotated

from roofmodel.foundation import entered
from roofmodel.foundation.entered import RAIN, Entered
from roofmodel.foundation.errors import DimensionError, Fault
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
            where="Zone on the national snow map, 1 to 5",
            low=1,
            high=5,
            empty="not entered",
        ),
    ] = None
    altitude_m: Annotated[
        float | None,
        Entered(
            label="Altitude",
            where="Height of the site above sea level",
            unit="m",
            low=0.0,
            high=1_500.0,
            empty="not entered",
        ),
    ] = None
    house_depth_m: Annotated[
        float | None,
        Entered(
            label="House depth",
            where="Depth of the house behind the wall, for snow sliding or drifting off its roof",
            unit="m",
            low=2.0,
            high=50.0,
            empty="not entered",
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
            label="Post spacing",
            where="Widest gap between posts under the eaves, centre to centre",
            unit="mm",
            low=300.0,
            high=6_000.0,
            empty="not entered",
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
            where="Accuracy of each height measurement",
            unit="mm",
            low=0.5,
            high=100.0,
        ),
    ] = STANDARD_ERROR[Tool.HEIGHT]
    run_error_mm: Annotated[
        float,
        Entered(
            label="Lengths ±",
            where="Accuracy of each level length measurement",
            unit="mm",
            low=0.0,
            high=100.0,
        ),
    ] = STANDARD_ERROR[Tool.TAPE]
    tile_least_pitch_deg: Annotated[
        float | None,
        Entered(
            label="Tile minimum pitch",
            where="Minimum pitch the tile manufacturer allows",
            unit="°",
            low=0.0,
            high=60.0,
            empty="from the catalogue",
        ),
    ] = None
    panel_least_pitch_deg: Annotated[
        float | None,
        Entered(
            label="Panels from",
            where="Minimum pitch the panel manufacturer allows",
            unit="°",
            low=0.0,
            high=45.0,
            empty="from the catalogue",
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
            where="Number of outlets in each eaves gutter",
            low=1,
            high=10,
            empty="1 assumed",
        ),
    ] = None
    outlet_central: Annotated[
        bool,
        Entered(
            label="Outlet central",
            where="Whether every outlet takes water from both sides, with none at an end",
        ),
    ] = False
    downpipe_mm: Annotated[
        float | None,
        Entered(
            label="Downpipe",
            where="Inside diameter of the downpipe under an eaves gutter, or the side of a "
            "square one",
            unit="mm",
            low=30.0,
            high=300.0,
            empty="not entered",
        ),
    ] = None
    rain_l_s_m2: Annotated[
        float,
        Entered(
            label="Design rain",
            where="Design rainfall for the eaves gutters; 0.0208 is 75 mm/h, usual for "
            "external gutters",
            unit=RAIN,
            low=0.001,
            high=0.2,
        ),
    ] = document_h.RAIN_L_S_M2
    rain_source: Annotated[
        str,
        Entered(
            label="Rain source",
            where="Document or letter that gives the design rainfall for the eaves gutters",
            longest=200,
            empty="not needed for 75 mm/h",
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
            where="Number of outlets in the box gutter",
            low=1,
            high=10,
            empty="1 assumed",
        ),
    ] = None
    box_rain_l_s_m2: Annotated[
        float | None,
        Entered(
            label="Box rain",
            where="Category 2 storm rainfall for the box gutter, which could overflow into "
            "the room",
            unit=RAIN,
            low=0.001,
            high=0.2,
            empty="not known",
        ),
    ] = None
    box_rain_source: Annotated[
        str,
        Entered(
            label="Box rain source",
            where="Document or letter that gives the storm rainfall for the box gutter",
            longest=200,
            empty="document and page",
        ),
    ] = ""
    box_overflow: Annotated[
        bool | None,
        Entered(
            label="Box overflow",
            where="Whether the box gutter has an overflow to the outside",
            empty="not entered",
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
            empty="not entered",
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
            empty="not entered",
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
            empty="not entered",
        ),
    ] = None
    box_freeboard_mm: Annotated[
        float | None,
        Entered(
            label="Freeboard",
            where="Depth kept clear above the water in the box gutter",
            unit="mm",
            low=0.0,
            high=300.0,
            empty="set by its depth",
        ),
    ] = None
    box_sump_mm: Annotated[
        float,
        Entered(
            label="Sump",
            where="Depth of the sump at the outlet, below the gutter sole; 0 if there is none",
            unit="mm",
            low=0.0,
            high=300.0,
        ),
    ] = 0.0
    box_weir_mm: Annotated[
        float | None,
        Entered(
            label="Overflow weir",
            where="Total clear length of the box gutter's overflow weirs",
            unit="mm",
            low=10.0,
            high=5_000.0,
            empty="not entered",
        ),
    ] = None
    box_declared_l_s: Annotated[
        float | None,
        Entered(
            label="Declared flow",
            where="Capacity of the box gutter with its outlets as declared by its supplier; "
            "used instead of the calculation",
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
            empty="document and page",
        ),
    ] = ""
    door_head_mm: Annotated[
        float | None,
        Entered(
            label="Door head",
            where="Top of the highest opening door or fanlight below the roof, above the floor",
            unit="mm",
            low=1_000.0,
            high=4_000.0,
            empty="not entered",
        ),
    ] = None
    least_ceiling_mm: Annotated[
        float | None,
        Entered(
            label="Least ceiling",
            where="Lowest ceiling height above the floor that the customer accepts at the eaves",
            unit="mm",
            low=1_500.0,
            high=4_000.0,
            empty="no minimum",
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
        faults = entered.faults(self) or self._contradictions()
        if faults:
            raise DimensionError(faults)

    def _contradictions(self) -> list[Fault]:
        """Return what two entries cannot both be."""
        found = []
        depth_mm, freeboard_mm = self.box_depth_mm, self.box_freeboard_mm
        if depth_mm is not None and freeboard_mm is not None and freeboard_mm >= depth_mm:
            text = (
                f"Freeboard: {freeboard_mm:g} mm are kept clear in a gutter {depth_mm:g} mm deep."
            )
            found.append(Fault("box_freeboard_mm", text, f"Enter less than {depth_mm:g} mm."))
        if self.box_overflow is False and self.box_weir_mm is not None:
            text = "Overflow weir: the box gutter is entered as having no overflow."
            remedy = "Leave the weir out, or enter that there is an overflow."
            found.append(Fault("box_weir_mm", text, remedy))
        return found
