"""Sheet materials: stock size, which way they may turn, and how they are laid."""

from collections import Counter
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any, Literal

from pydantic import ConfigDict, TypeAdapter, ValidationError

from roofmodel.foundation import resources
from roofmodel.foundation.errors import DimensionError, Fault, ResourceError
from roofmodel.foundation.source import Source

StrengthAxis = Literal["long", "none"]
Faces = Literal["alike", "one", "coloured"]
HipEdges = Literal["bevelled", "square"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetGood:
    """One sheet material as it is bought, cut and laid.

    ``strength_axis`` "long" lets a piece turn by 180° only; ``faces`` other than "alike" forbids
    turning a piece over; ``hip_edges`` says whether edges at hip, ridge and valley are bevelled
    (then the piece is handed and never turned over either). ``drawing_code`` is the element part
    of the drawing layer name.
    """

    code: str
    short: str
    name: str
    layer: Literal["deck", "insulation", "lining"]
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


_ROWS = TypeAdapter(list[SheetGood], config=ConfigDict(extra="forbid"))


def read(path: Path) -> dict[str, SheetGood]:
    """Return the sheet goods of a TOML file by code, in the file's order.

    Raises
    ------
    ResourceError
        If the file cannot be read, a field is wrong, or two materials share a code.
    """
    table: dict[str, Any] = resources.read_toml(path)
    try:
        rows = _ROWS.validate_python(table.get("sheet_good", []))
    except ValidationError as error:
        fault = error.errors()[0]
        row, *field = fault["loc"]
        number = int(row) + 1
        where = ".".join(str(part) for part in field)
        raise ResourceError(
            f"{path.name}, material {number}, {where or 'row'}: {fault['msg']}. Correct that row."
        ) from error
    twice = [code for code, count in Counter(row.code for row in rows).items() if count > 1]
    if twice:
        raise ResourceError(
            f"{path.name}: two materials have the code {twice[0]}. Give each its own code."
        )
    return {row.code: row for row in rows}


@cache
def shipped() -> dict[str, SheetGood]:
    """Return the sheet goods that come with the program."""
    return read(resources.folder() / "sheet_goods.toml")
