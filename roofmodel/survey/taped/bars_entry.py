"""The bars of a facet as they were taped: running dimensions, equal bays or one spacing."""

import math
from dataclasses import dataclass
from itertools import accumulate
from typing import Annotated, Literal

from pydantic import Field

from roofmodel.foundation import entered
from roofmodel.foundation.entered import Entered
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

    facet: Annotated[str, Field(description="Facet the bars are on, F1…")]
    width_mm: Annotated[
        float, Entered(label="Bar width", where="Width of a bar across its top", unit="mm")
    ]
    corner: Annotated[
        Literal["left", "right"],
        Entered(
            label="From", where="Corner the tape is hooked on, looking up the slope from outside"
        ),
    ] = "left"
    running_mm: Annotated[
        tuple[float, ...] | None,
        Entered(
            label="Running dimensions",
            where="Centre-lines running from the corner, less than 0 beyond it, with a space "
            "between two: 0 667 1333",
            unit="mm",
        ),
    ] = None
    bays: Annotated[
        int | None, Entered(label="Bays", where="Number of equal bays along the eaves")
    ] = None
    bars: Annotated[
        int | None,
        Entered(
            label="Bars",
            where="Number of bars, including those at a verge or wall; checks the bays",
        ),
    ] = None
    over_mm: Annotated[
        float | None,
        Entered(
            label="Bays over",
            where="Length of eaves the equal bays divide, if not all of it",
            unit="mm",
        ),
    ] = None
    spacing_mm: Annotated[
        float | None,
        Entered(label="Spacing", where="One spacing, centre to centre", unit="mm"),
    ] = None
    bay_widths_mm: Annotated[
        tuple[float, ...] | None,
        Entered(
            label="Each bay",
            where="Every bay as taped along the eaves from the corner, with a space between two: "
            "667 667 666; the sum is checked",
            unit="mm",
        ),
    ] = None
    last_bay_mm: Annotated[
        float | None,
        Entered(
            label="Last bay",
            where="Bay after the last running dimension; checks the eaves",
            unit="mm",
        ),
    ] = None
    bay_mm: Annotated[
        float | None,
        Entered(
            label="One bay", where="Width of one of the equal bays; checks the eaves", unit="mm"
        ),
    ] = None

    def __post_init__(self) -> None:
        """Refuse bars given twice or not at all, and a width no bar has."""
        given = [name for name in _WAYS if getattr(self, name) is not None]
        faults: list[Fault] = []
        if len(given) != 1:
            text = f"The bars of {self.facet} are entered in {len(given)} ways."
            ways = ", ".join(_called(way) for way in _WAYS)
            faults.append(Fault("bays", text, f"Give just one of: {ways}."))
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
                checks, given = _called(field), _called(way)
                text = f"{self.facet}: {checks} only checks {given}, and {given} is empty."
                faults.append(Fault(field, text, f"Give {given} too, or leave {checks} out."))
            elif not 0.0 < value < math.inf:
                faults.append(_no_width(field, value))
        for i, width in enumerate(self.bay_widths_mm or ()):
            if not 0.0 < width < math.inf:
                faults.append(_no_width(f"bay_widths_mm.{i}", width))
        if self.bay_widths_mm is not None and not self.bay_widths_mm:
            text = f"No bay of {self.facet} has been entered."
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


def _called(name: str) -> str:
    return f"“{entered.fields_of(BarsEntry)[name].says.label}”"


def _no_width(field: str, value_mm: float) -> Fault:
    return Fault(field, f"A bay {value_mm:g} mm wide is not possible.", "Enter its width in mm.")
