"""Where every part lies on the sheets."""

import math
from dataclasses import dataclass

from roofmodel.cutting.parts.part import Part, TenthCorners

SheetCorners = tuple[tuple[float, float], ...]
"""Corners on the sheet [mm], counter-clockwise, from the sheet's lower left corner."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """One part on one sheet: first turned over (left for right), then turned, then laid down.

    ``sheet_no`` counts from 1; ``turned_deg`` is counter-clockwise; ``x_mm`` and ``y_mm`` are the
    lower left of its bounding box, measured from the lower left of the untrimmed sheet.
    """

    part: Part
    sheet_no: int
    x_mm: float
    y_mm: float
    turned_deg: int
    turned_over: bool

    @property
    def outline_mm(self) -> SheetCorners:
        """Outline on the sheet, beginning at the part's own first corner unless turned over."""
        return self._laid(self.part.corners)

    @property
    def cut_outline_mm(self) -> SheetCorners:
        """Outline of its larger face on the sheet, side for side with `outline_mm`.

        No saw cut, and no other piece, comes nearer; what is sawn square is sawn along it.
        """
        return self._laid(self.part.cut_corners)

    @property
    def cut_loop_mm(self) -> SheetCorners:
        """The same outline as it is drawn: sides that have shrunk to nothing are left out."""
        corners = self.cut_outline_mm
        return tuple(
            corner for i, corner in enumerate(corners) if math.dist(corner, corners[i - 1]) > 0.01
        )

    @property
    def cut_low_mm(self) -> tuple[float, float]:
        """Lower left of the rectangle round its larger face on the sheet [mm]."""
        across, up = zip(*self.cut_outline_mm, strict=True)
        return min(across), min(up)

    @property
    def bevels_deg(self) -> tuple[float, ...]:
        """Bevel of each side of `outline_mm` [°]."""
        return self._side_by_side(self.part.bevels_deg)

    @property
    def steps_mm(self) -> tuple[float, ...]:
        """How far the inside face ends short of the outside one at each side [mm]."""
        return self._side_by_side(self.part.steps_mm)

    @property
    def origin_tenths(self) -> tuple[int, int]:
        """Lower left of the part, turned about its own origin but not yet moved [tenths of mm]."""
        corners = self._turned(self.part.corners)
        return min(x for x, _ in corners), min(y for _, y in corners)

    def _side_by_side(self, of_part: tuple[float, ...]) -> tuple[float, ...]:
        """Return what belongs to the sides of the part in the order of `outline_mm`."""
        if not self.turned_over:
            return of_part
        backwards = of_part[::-1]
        return (*backwards[1:], backwards[0])

    def _laid(self, corners: TenthCorners) -> SheetCorners:
        """Return corners of the part on the sheet [mm]."""
        left, low = self.origin_tenths
        laid = tuple(
            (self.x_mm + (x - left) / 10, self.y_mm + (y - low) / 10)
            for x, y in self._turned(corners)
        )
        return laid[::-1] if self.turned_over else laid

    def _turned(self, corners: TenthCorners) -> list[tuple[int, int]]:
        turned = [(-x if self.turned_over else x, y) for x, y in corners]
        for _ in range(self.turned_deg // 90 % 4):
            turned = [(-y, x) for x, y in turned]
        return turned


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """All parts of a problem on numbered sheets."""

    placed: tuple[Placed, ...]

    @property
    def sheets(self) -> int:
        """Number of sheets used."""
        return len({placed.sheet_no for placed in self.placed})

    def on_sheet(self, sheet_no: int) -> tuple[Placed, ...]:
        """Return the parts of one sheet, from left to right."""
        return tuple(placed for placed in self.placed if placed.sheet_no == sheet_no)
