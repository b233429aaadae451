"""The lights of one facet as they are wished for: so many in every bay, or each at its place."""

from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.refit.light import Ceiling, Light, LightFitting, numbered
from roofmodel.refit.light_layout import even_shares, in_bays

MOST_LIGHTS = 200
"""No facet is lit by more."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LightsEntry:
    """One facet's lights, given one of three ways, and the fitting they are."""

    facet: Annotated[str, Field(description="Facet the lights are in, F1…")]
    body_mm: Annotated[float, Field(description="Diameter of the body of the fitting [mm]")]
    depth_mm: Annotated[float, Field(description="Depth of the fitting behind the board [mm]")]
    clearance_mm: Annotated[
        float,
        Field(description="Clearance the manufacturer requires around and above the fitting [mm]"),
    ] = 0.0
    per_bay: Annotated[
        int | None, Field(description="Number of lights in every bay, evenly spaced up the slope")
    ] = None
    slope_shares: Annotated[
        tuple[float, ...] | None,
        Field(
            description="Positions up the slope in every bay, from 0 at the eaves to 1 at the top"
        ),
    ] = None
    positions_mm: Annotated[
        tuple[tuple[float, float], ...] | None,
        Field(description="Each light: from the left, and up the slope [mm]"),
    ] = None

    def __post_init__(self) -> None:
        """Refuse lights given twice or not at all, and what no fitting is, all at once."""
        ways = ("per_bay", "slope_shares", "positions_mm")
        given = [name for name in ways if getattr(self, name) is not None]
        faults: list[Fault] = []
        if len(given) != 1:
            text = f"The lights of {self.facet} are entered in {len(given)} ways."
            faults.append(Fault("per_bay", text, f"Enter just one of {', '.join(ways)}."))
        faults += self._count_faults() + self._share_faults()
        try:
            _ = self.fitting
        except DimensionError as error:
            faults += error.faults
        if faults:
            raise DimensionError(faults)

    @property
    def fitting(self) -> LightFitting:
        """The fitting."""
        return LightFitting(
            body_mm=self.body_mm, depth_mm=self.depth_mm, clearance_mm=self.clearance_mm
        )

    def lights(self, ceiling: Ceiling) -> tuple[Light, ...]:
        """Return the lights wanted, on the facet they were entered for.

        Raises
        ------
        DimensionError
            If the ceiling is another facet's.
        """
        if ceiling.facet != self.facet:
            text = f"The lights of {self.facet} cannot be set out on {ceiling.facet}."
            raise DimensionError([Fault("facet", text, f"Choose {self.facet}.")])
        if self.positions_mm is not None:
            return numbered(self.facet, self.positions_mm)
        return in_bays(ceiling, self.slope_shares or even_shares(self.per_bay or 1))

    def _count_faults(self) -> list[Fault]:
        counts = (
            ("per_bay", self.per_bay),
            ("slope_shares", None if self.slope_shares is None else len(self.slope_shares)),
            ("positions_mm", None if self.positions_mm is None else len(self.positions_mm)),
        )
        return [
            Fault(name, f"{count} lights cannot be set out.", f"Enter 1 to {MOST_LIGHTS}.")
            for name, count in counts
            if count is not None and not 1 <= count <= MOST_LIGHTS
        ]

    def _share_faults(self) -> list[Fault]:
        faults = [
            Fault(
                f"slope_shares.{i}",
                f"A light at {share:g} of the slope is off the roof.",
                "Enter a position above 0 and below 1, such as 0.25.",
            )
            for i, share in enumerate(self.slope_shares or ())
            if not 0.0 < share < 1.0
        ]
        faults += [
            Fault(
                f"positions_mm.{i}",
                f"A light at {u_mm:g}, {v_mm:g} mm is not on the roof.",
                "Enter mm from the left and mm up the slope, neither more than 30000.",
            )
            for i, (u_mm, v_mm) in enumerate(self.positions_mm or ())
            if not (abs(u_mm) < 30_000.0 and abs(v_mm) < 30_000.0)
        ]
        return faults
