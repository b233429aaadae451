"""Sheet materials: stock size, which way they may turn, and how they are laid."""

from dataclasses import dataclass
from typing import Literal

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.foundation.source import Source

StrengthAxis = Literal["long", "none"]
Faces = Literal["alike", "one", "coloured"]
HipEdges = Literal["bevelled", "square"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetGood:
    """One sheet material as it is bought, cut and laid.

    ``strength_axis`` "long" lets a piece turn by 180° only; ``faces`` other than "alike" forbids
    turning a piece over; ``hip_edges`` says whether edges at hip, ridge and valley are bevelled
    (then the piece is handed and never turned over either). ``wall_gap_mm`` is left at house walls,
    where the board comes nearest to them; ``reach_mm`` is how far the board reaches
    inwards and outwards from the face it is measured on, where it is laid. ``drawing_code`` is the
    element part of the drawing layer name.
    """

    code: str
    short: str
    name: str
    layer: Literal["deck", "insulation", "lining", "panel"]
    length_mm: float
    width_mm: float
    thickness_mm: float
    mass_kg_m2: float
    strength_axis: StrengthAxis
    faces: Faces
    hip_edges: HipEdges
    kerf_mm: float
    trim_mm: float
    board_gap_mm: float
    minimum_piece_mm: float
    stagger_mm: float
    drawing_code: str
    source: Source
    gap_source: Source | None = None
    wall_gap_mm: float = 0.0
    reach_mm: tuple[float, float] = (0.0, 0.0)

    def __post_init__(self) -> None:
        """Refuse a sheet that cannot exist."""
        usable_mm = min(self.length_mm, self.width_mm) - 2 * self.trim_mm
        faults: list[Fault] = []
        if not 0 < usable_mm < 20_000:
            text = f"{self.code}: no usable sheet is left after trimming."
            faults.append(Fault("trim_mm", text, "Check the sheet size and the trim."))
        if not (0 <= self.kerf_mm < 20 and 0 <= self.board_gap_mm < 50):
            text = f"{self.code}: saw cut or board gap is out of range."
            faults.append(Fault("kerf_mm", text, "Saw cut below 20 mm, board gap below 50 mm."))
        if not 0 <= self.wall_gap_mm < 50:
            text = f"{self.code}: the gap at walls is out of range."
            faults.append(Fault("wall_gap_mm", text, "Enter 0 to 50 mm."))
        if not 0 < self.minimum_piece_mm < usable_mm:
            text = f"{self.code}: the smallest piece is no smaller than the sheet."
            faults.append(Fault("minimum_piece_mm", text, "Enter a smaller piece."))
        if not 0 <= self.stagger_mm < self.length_mm:
            text = f"{self.code}: the stagger is longer than the sheet."
            faults.append(Fault("stagger_mm", text, "Enter less than the sheet's length."))
        if faults:
            raise DimensionError(faults)

    @property
    def sheet_area_m2(self) -> float:
        """Area of a whole stock sheet [m²]."""
        return self.length_mm * self.width_mm / 1e6
