"""What was decided about the refit of one job: the method, its layers, and the exceptions."""

from dataclasses import dataclass
from enum import StrEnum
from typing import Annotated

from pydantic import Field

from roofmodel.foundation import entered
from roofmodel.foundation.entered import Entered
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
    u_mm: Annotated[
        float, Entered(label="From left", where="Left side, along the eaves", unit="mm")
    ]
    v_mm: Annotated[float, Entered(label="Up", where="Lower side, up the slope", unit="mm")]
    width_mm: Annotated[
        float,
        Entered(label="Width", where="Width of the opening", unit="mm", low=200.0, high=3_000.0),
    ]
    height_mm: Annotated[
        float,
        Entered(
            label="Height",
            where="Height of the opening, up the slope",
            unit="mm",
            low=200.0,
            high=3_000.0,
        ),
    ]
    material: Annotated[str, Field(description="Code of the window in the catalogue")] = "WIN-ROOF"

    def __post_init__(self) -> None:
        """Refuse an opening of no size."""
        faults = entered.faults(self)
        if faults:
            raise DimensionError(faults)


@dataclass(frozen=True, slots=True, kw_only=True)
class RefitEntry:
    """The choices of one job; what is left alone follows the method."""

    method: Annotated[
        Method, Field(description="Chosen method: new-roof, build-round or panel-swap")
    ] = Method.BUILD_ROUND
    stacks: Annotated[
        tuple[StackEntry, ...], Field(description="Methods whose layers this job changes")
    ] = ()
    kept_glazed: Annotated[
        tuple[str, ...], Field(description="Facets that stay glazed as they are")
    ] = ()
    roof_windows: Annotated[tuple[RoofWindow, ...], Field(description="Roof windows")] = ()
    bearers_per_bay: Annotated[
        int,
        Entered(
            label="Bearers per bay",
            where="Extra bearers up the middle of every bay, to carry the deck",
            low=0,
            high=5,
        ),
    ] = 0
    rafter_spacing_mm: Annotated[
        float | None,
        Entered(
            label="Rafter spacing",
            where="Maximum spacing of new rafters, centre to centre; new roof only",
            unit="mm",
            low=200.0,
            high=1_200.0,
            empty="set by the method",
        ),
    ] = None
    fitting_gap_mm: Annotated[
        float,
        Entered(
            label="Fitting gap",
            where="Gap left on each side of a board cut to fit its bay",
            unit="mm",
            low=0.0,
            high=30.0,
        ),
    ] = 5.0
    room_inset_mm: Annotated[
        float,
        Entered(
            label="Room inset",
            where="How far the lining is set in from eaves and verges, measured horizontally",
            unit="mm",
            low=0.0,
            high=500.0,
        ),
    ] = 0.0
    eaves_overhang_mm: Annotated[
        float,
        Entered(
            label="Eaves overhang",
            where="How far deck and tiles extend past the eaves, measured down the slope",
            unit="mm",
            low=0.0,
            high=300.0,
        ),
    ] = 0.0
    counting: Annotated[
        Counting,
        Entered(
            label="Screw count",
            where="By a rate per m², or fixing by fixing along every board and batten",
        ),
    ] = Counting.BY_RATE

    def __post_init__(self) -> None:
        """Refuse choices that cannot be built, all at once."""
        faults = entered.faults(self)
        methods = [entry.method for entry in self.stacks]
        faults += [
            Fault(f"stacks.{i}.method", f"{method.printed} is entered twice.", "Keep one of them.")
            for i, method in enumerate(methods)
            if method in methods[:i]
        ]
        if faults:
            raise DimensionError(faults)

    def layers_of(self, method: Method) -> tuple[Layer, ...] | None:
        """Return the layers this job has for a method; None where it keeps the method's own."""
        return next((entry.layers for entry in self.stacks if entry.method is method), None)
