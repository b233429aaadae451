"""What was decided about the refit of one job: the method, its layers, and the exceptions."""

from dataclasses import dataclass
from enum import StrEnum
from typing import Annotated

from pydantic import Field

from roofmodel.foundation import in_range
from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.refit.layer import Layer
from roofmodel.refit.method import Method


class Counting(StrEnum):
    """How screws are counted."""

    BY_RATE = "by rate"
    FENCE_POSTS = "fence posts"


@dataclass(frozen=True, slots=True, kw_only=True)
class StackEntry:
    """The layers of one method as this job has them, from the room outwards."""

    method: Annotated[Method, Field(description="new-roof, build-round or panel-swap")]
    layers: Annotated[
        tuple[Layer, ...], Field(description="Layers from the room outwards", min_length=1)
    ]


@dataclass(frozen=True, slots=True, kw_only=True)
class RoofWindow:
    """A window in one facet, given by the lower left corner of its opening, seen from outside.

    Boards are laid through and the opening is cut on site, so it changes no sheet count; tiles,
    membrane and insulation are counted through as well (common practice, no source).
    """

    facet: Annotated[str, Field(description="Facet the window is in, F1…")]
    u_mm: Annotated[float, Field(description="Left side, along the eaves [mm]")]
    v_mm: Annotated[float, Field(description="Lower side, up the slope [mm]")]
    width_mm: Annotated[float, Field(description="Width of the opening [mm]")]
    height_mm: Annotated[float, Field(description="Height of the opening, up the slope [mm]")]
    material: Annotated[str, Field(description="Code of the window in the catalogue")] = "WIN-ROOF"

    def __post_init__(self) -> None:
        """Refuse an opening of no size."""
        faults = [
            Fault(name, f"An opening of {value:g} mm cannot be built.", "Enter 200 to 3000 mm.")
            for name in ("width_mm", "height_mm")
            if not 200.0 <= (value := getattr(self, name)) <= 3_000.0
        ]
        if faults:
            raise DimensionError(faults)


@dataclass(frozen=True, slots=True, kw_only=True)
class RefitEntry:
    """The choices of one job; what is left alone follows the method."""

    method: Annotated[
        Method, Field(description="The method chosen: new-roof, build-round or panel-swap")
    ] = Method.BUILD_ROUND
    stacks: Annotated[
        tuple[StackEntry, ...], Field(description="Methods whose layers this job changes")
    ] = ()
    kept_glazed: Annotated[
        tuple[str, ...], Field(description="Facets that stay glazed as they are")
    ] = ()
    roof_windows: Annotated[tuple[RoofWindow, ...], Field(description="Windows in the slopes")] = ()
    bearers_per_bay: Annotated[
        int, Field(description="Bearers added up the middle of every bay, to carry the deck")
    ] = 0
    rafter_spacing_mm: Annotated[
        float | None, Field(description="Widest distance of new rafters, middle to middle [mm]")
    ] = None
    fitting_gap_mm: Annotated[
        float, Field(description="Gap round a board cut to its bay, on each side [mm]")
    ] = 5.0
    room_inset_mm: Annotated[
        float, Field(description="How far the lining stays in from eaves and verges, level [mm]")
    ] = 0.0
    eaves_overhang_mm: Annotated[
        float, Field(description="How far deck and tiles reach past the eaves, down the slope [mm]")
    ] = 0.0
    counting: Annotated[
        Counting, Field(description="How screws are counted: by rate or fence posts")
    ] = Counting.BY_RATE

    def __post_init__(self) -> None:
        """Refuse choices that cannot be built, all at once."""
        faults = in_range.faults(self, _RANGES)
        methods = [entry.method for entry in self.stacks]
        faults += [
            Fault(f"stacks.{i}.method", f"{method.printed} is given twice.", "Keep one build-up.")
            for i, method in enumerate(methods)
            if method in methods[:i]
        ]
        if faults:
            raise DimensionError(faults)

    def layers_of(self, method: Method) -> tuple[Layer, ...] | None:
        """Return the layers this job has for a method; None where it keeps the method's own."""
        return next((entry.layers for entry in self.stacks if entry.method is method), None)


_RANGES = {
    "bearers_per_bay": (0, 5),
    "rafter_spacing_mm": (200.0, 1_200.0),
    "fitting_gap_mm": (0.0, 30.0),
    "room_inset_mm": (0.0, 500.0),
    "eaves_overhang_mm": (0.0, 300.0),
}
