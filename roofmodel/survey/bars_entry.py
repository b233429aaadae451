"""The bars of a facet as they were taped: running dimensions, equal bays or one spacing."""

from dataclasses import dataclass
from typing import Annotated, Literal

from pydantic import Field

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.shapes import bar_layout
from roofmodel.shapes.bar_layout import BarLayout, FacetCorner
from roofmodel.shapes.member_cut import BarWidths
from roofmodel.shapes.roof import Facet

_WAYS = ("running_mm", "bays", "spacing_mm")


@dataclass(frozen=True, slots=True, kw_only=True)
class BarsEntry:
    """One facet's bars, given one of three ways, from a corner of its eaves."""

    facet: Annotated[str, Field(description="Facet the bars stand on, F1…")]
    width_mm: Annotated[float, Field(description="Width of a bar across its top [mm]")]
    corner: Annotated[
        Literal["left", "right"],
        Field(description="Corner the tape is hooked on, looking up the slope from outside"),
    ] = "left"
    running_mm: Annotated[
        tuple[float, ...] | None,
        Field(description="Centre-lines, running from the corner [mm]"),
    ] = None
    bays: Annotated[int | None, Field(description="Number of equal bays")] = None
    bars: Annotated[int | None, Field(description="Bars counted, as a check on the bays")] = None
    over_mm: Annotated[
        float | None, Field(description="Length of eaves the bays divide, if not all [mm]")
    ] = None
    spacing_mm: Annotated[float | None, Field(description="One spacing, centre to centre [mm]")] = (
        None
    )

    def __post_init__(self) -> None:
        """Refuse bars given twice or not at all, and a width no bar has."""
        given = [name for name in _WAYS if getattr(self, name) is not None]
        faults: list[Fault] = []
        if len(given) != 1:
            text = f"The bars of {self.facet} are given {len(given)} ways."
            faults.append(Fault("bays", text, f"Give just one of {', '.join(_WAYS)}."))
        try:
            _ = self.widths
        except DimensionError as error:
            faults += [Fault("width_mm", f.text, f.remedy) for f in error.faults[:1]]
        if faults:
            raise DimensionError(faults)

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
        return bar_layout.equal_spacing(facet, self.spacing_mm or 0.0, corner=corner)
