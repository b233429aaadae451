"""Lights in the ceiling of one facet: the fitting, the void it sits in, and what is in its way.

Everything lies in one facet's own frame, u along the eaves and v up the slope. Whoever asks takes
the facet of the surface he means, as a rule the ceiling's.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import shapely

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.shapes.bars.bar_layout import BarLayout
from roofmodel.shapes.bars.member_cut import BarWidths
from roofmodel.shapes.flat_edge import FlatEdge, Spot, flat_edges
from roofmodel.shapes.roof import Facet

LIGHT_CAUTIONS = (
    "Electrical work must be done by a qualified electrician, who decides on circuits and cables.",
    "Follow the manufacturer for the fitting's fire rating and its clearance from "
    "insulation and timber.",
    "Every hole through the foil lets damp into the roof: cut only where a light is marked.",
)
"""Printed with every list of lights."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LightFitting:
    """A downlight: the round body above the ceiling board, and how deep it reaches.

    ``clearance_mm`` is what its maker asks to be kept free round the body and above it.
    """

    body_mm: float
    depth_mm: float
    clearance_mm: float = 0.0

    def __post_init__(self) -> None:
        """Refuse what is no downlight."""
        faults = [
            Fault(
                name,
                f"{self._words(name)} of {value:g} mm is not possible for a downlight.",
                remedy,
            )
            for name, low, high, remedy in (
                ("body_mm", 10.0, 400.0, "Enter the body's diameter in mm: 10 to 400."),
                ("depth_mm", 1.0, 400.0, "Enter the depth behind the board in mm: 1 to 400."),
                ("clearance_mm", 0.0, 300.0, "Enter the manufacturer's figure in mm: 0 to 300."),
            )
            if not low <= (value := getattr(self, name)) <= high
        ]
        if faults:
            raise DimensionError(faults)

    @property
    def reach_mm(self) -> float:
        """How far from its middle nothing else may be: half the body and the clearance [mm]."""
        return self.body_mm / 2.0 + self.clearance_mm

    @staticmethod
    def _words(name: str) -> str:
        return {"body_mm": "A body", "depth_mm": "A depth"}.get(name, "A clearance")


@dataclass(frozen=True, slots=True, kw_only=True)
class LightVoid:
    """The space between ceiling board and foil: as deep as the counter-battens."""

    depth_mm: float

    def __post_init__(self) -> None:
        """Refuse a depth no void has."""
        if not 0.0 <= self.depth_mm <= 500.0:
            text = f"A void {self.depth_mm:g} mm deep is not possible."
            remedy = "Enter the depth of the counter-battens in mm: 0 to 500."
            raise DimensionError([Fault("depth_mm", text, remedy)])


@dataclass(frozen=True, slots=True, kw_only=True)
class BattenRows:
    """Level rows of counter-battens: the middle of each up the slope, and their width."""

    rows_mm: tuple[float, ...]
    width_mm: float

    def __post_init__(self) -> None:
        """Refuse rows no batten makes."""
        faults: list[Fault] = []
        if not 1.0 <= self.width_mm <= 300.0:
            text = f"A counter-batten {self.width_mm:g} mm wide is not possible."
            faults.append(Fault("width_mm", text, "Enter its width in mm: 1 to 300."))
        if not all(math.isfinite(row) for row in self.rows_mm):
            text = "A row of counter-battens has no position."
            faults.append(Fault("rows_mm", text, "Enter how far up the slope it is, in mm."))
        if faults:
            raise DimensionError(faults)


@dataclass(frozen=True, slots=True, kw_only=True)
class Light:
    """A light wanted or offered: its mark, and its middle on the facet."""

    mark: str
    u_mm: float
    v_mm: float

    @property
    def spot(self) -> Spot:
        """Its middle, (u, v) [mm]."""
        return (self.u_mm, self.v_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ceiling:
    """One facet as a light meets it: its sides with half the member on each, bars and rows.

    ``half_members_mm`` holds, for each side, how far the member that stands on it reaches in.
    """

    facet: str
    edges: tuple[FlatEdge, ...]
    half_members_mm: tuple[float, ...]
    bars_mm: tuple[float, ...]
    bar_width_mm: float
    battens: BattenRows

    @classmethod
    def of(
        cls, facet: Facet, layout: BarLayout, widths: BarWidths, battens: BattenRows
    ) -> "Ceiling":
        """Return the ceiling of a facet with its bars and counter-battens."""
        edges = flat_edges(facet)
        return cls(
            facet=facet.name,
            edges=edges,
            half_members_mm=tuple(widths.half_mm(edge) for edge in edges),
            bars_mm=tuple(sorted(layout.centres_mm)),
            bar_width_mm=widths.rafter_mm,
            battens=battens,
        )

    @property
    def shape(self) -> shapely.Polygon:
        """The facet in its frame [mm]."""
        return shapely.Polygon([edge.start for edge in self.edges])

    @property
    def bays_mm(self) -> tuple[tuple[float, float], ...]:
        """From middle to middle of bars, with the facet's ends outermost, from the left [mm]."""
        left, _, right, _ = self.shape.bounds
        places = [left, *(bar for bar in self.bars_mm if left < bar < right), right]
        return tuple(
            (a, b)
            for a, b in pairwise(places)
            if b - a > self.bar_width_mm  # narrower, it is a bar taped beside its line
        )

    def runs_mm(self, u_mm: float) -> tuple[tuple[float, float], ...]:
        """Return where the facet lies above a place along its eaves, as (foot, head) [mm]."""
        return lines_up(self.shape, u_mm)


def lines_up(shape: shapely.Geometry, u_mm: float) -> tuple[tuple[float, float], ...]:
    """Return where a line straight up the slope lies in a shape, as (foot, head) [mm]."""
    _, low, _, high = (float(bound) for bound in shapely.bounds(shape))
    if not low < high:
        return ()
    line = shapely.LineString([(u_mm, low - 1.0), (u_mm, high + 1.0)])
    pieces = shapely.get_parts(shapely.intersection(line, shape))
    return tuple(
        sorted((float(one.bounds[1]), float(one.bounds[3])) for one in pieces if one.length > 0.0)
    )


def numbered(facet: str, spots: Sequence[Spot]) -> tuple[Light, ...]:
    """Return lights marked like F1-L1, row by row from the eaves, each row from the left."""
    in_order = sorted(spots, key=lambda spot: (round(spot[1], 1), spot[0]))
    return tuple(
        Light(mark=f"{facet}-L{number}", u_mm=u, v_mm=v)
        for number, (u, v) in enumerate(in_order, start=1)
    )
