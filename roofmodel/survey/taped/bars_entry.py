"""The bars of a facet as they were taped: running dimensions, equal bays or one spacing."""

import math
from dataclasses import dataclass
from itertools import accumulate
from typing import Annotated, Literal

from pydantic import Field

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.shapes.bars import bar_layout
from roofmodel.shapes.bars.bar_layout import BarLayout, FacetCorner
from roofmodel.shapes.bars.member_cut import BarWidths
from roofmodel.shapes.roof import Facet

_WAYS = ("running_mm", "bays", "spacing_mm", "bay_widths_mm")
_ONLY_WITH = {"last_bay_mm": "running_mm", "bay_mm": "bays"}
"""What only checks the sum of the bays, and the way of giving them it goes with."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BarsEntry:
    """One facet's bars, given one of four ways, from a corner of its eaves.

    ``last_bay_mm`` and ``bay_mm`` move no bar: with them the bays add up to a length that must be
    that of the eaves.
    """

    facet: Annotated[str, Field(description="Facet the bars stand on, F1…")]
    width_mm: Annotated[float, Field(description="Width of a bar across its top [mm]")]
    corner: Annotated[
        Literal["left", "right"],
        Field(description="Corner the tape is hooked on, looking up the slope from outside"),
    ] = "left"
    running_mm: Annotated[
        tuple[float, ...] | None,
        Field(description="Centre-lines, running from the corner; less than 0 beyond it [mm]"),
    ] = None
    bays: Annotated[int | None, Field(description="Number of equal bays")] = None
    bars: Annotated[int | None, Field(description="Bars counted, as a check on the bays")] = None
    over_mm: Annotated[
        float | None, Field(description="Length of eaves the bays divide, if not all [mm]")
    ] = None
    spacing_mm: Annotated[float | None, Field(description="One spacing, centre to centre [mm]")] = (
        None
    )

    bay_widths_mm: Annotated[
        tuple[float, ...] | None,
        Field(description="Every bay as taped along the eaves, from the corner [mm]"),
    ] = None
    last_bay_mm: Annotated[
        float | None,
        Field(description="Bay after the last running dimension, as a check on the eaves [mm]"),
    ] = None
    bay_mm: Annotated[
        float | None, Field(description="Width of one of the equal bays, as a check [mm]")
    ] = None

    def __post_init__(self) -> None:
        """Refuse bars given twice or not at all, and a width no bar has."""
        given = [name for name in _WAYS if getattr(self, name) is not None]
        faults: list[Fault] = []
        if len(given) != 1:
            text = f"The bars of {self.facet} are given {len(given)} ways."
            faults.append(Fault("bays", text, f"Give just one of {', '.join(_WAYS)}."))
        faults += self._check_faults()
        try:
            _ = self.widths
        except DimensionError as error:
            faults += [Fault("width_mm", f.text, f.remedy) for f in error.faults[:1]]
        if faults:
            raise DimensionError(faults)

    def _check_faults(self) -> list[Fault]:
        """Return what is wrong with bays that are only a check, and with widths no bay has."""
        faults = []
        for field, way in _ONLY_WITH.items():
            value: float | None = getattr(self, field)
            if value is None:
                continue
            if getattr(self, way) is None:
                text = f"{field} of {self.facet} checks {way}, which is not given."
                faults.append(Fault(field, text, f"Give {way} too, or leave {field} out."))
            elif not 0.0 < value < math.inf:
                faults.append(_no_width(field, value))
        for i, width in enumerate(self.bay_widths_mm or ()):
            if not 0.0 < width < math.inf:
                faults.append(_no_width(f"bay_widths_mm.{i}", width))
        if self.bay_widths_mm is not None and not self.bay_widths_mm:
            text = f"No bay of {self.facet} is given."
            faults.append(Fault("bay_widths_mm", text, "Enter at least one width."))
        return faults

    @property
    def widths(self) -> BarWidths:
        """The widths of the facet's members, all alike."""
        return BarWidths.alike(self.width_mm)

    def layout(self, facet: Facet) -> BarLayout:
        """Return where the bars stand on their facet.

        Raises
        ------
        DimensionError
            If bars and bays contradict each other, or a bar lies beyond the facet.
        """
        corner = FacetCorner(self.corner)
        if self.running_mm is not None:
            return bar_layout.from_running(facet, self.running_mm, corner=corner)
        if self.bays is not None:
            return bar_layout.equal_bays(
                facet, self.bays, bars=self.bars, corner=corner, over_mm=self.over_mm
            )
        if self.bay_widths_mm is not None:
            # The last bay ends at the corner, whatever the tape made of the sum.
            return bar_layout.from_running(
                facet, tuple(accumulate(self.bay_widths_mm[:-1])), corner=corner
            )
        return bar_layout.equal_spacing(facet, self.spacing_mm or 0.0, corner=corner)


def _no_width(field: str, value_mm: float) -> Fault:
    return Fault(field, f"A bay cannot be {value_mm:g} mm wide.", "Enter its width in mm.")
