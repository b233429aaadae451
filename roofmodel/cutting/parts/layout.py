"""Where every part lies on the sheets."""

from dataclasses import dataclass

from roofmodel.cutting.parts.part import Part

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
        left, low = self.origin_tenths
        corners = tuple(
            (self.x_mm + (x - left) / 10, self.y_mm + (y - low) / 10)
            for x, y in self._turned_corners()
        )
        return corners[::-1] if self.turned_over else corners

    @property
    def bevels_deg(self) -> tuple[float, ...]:
        """Bevel of each side of `outline_mm` [°]."""
        if not self.turned_over:
            return self.part.bevels_deg
        backwards = self.part.bevels_deg[::-1]
        return (*backwards[1:], backwards[0])

    @property
    def origin_tenths(self) -> tuple[int, int]:
        """Lower left of the part, turned about its own origin but not yet moved [tenths of mm]."""
        corners = self._turned_corners()
        return min(x for x, _ in corners), min(y for _, y in corners)

    def _turned_corners(self) -> list[tuple[int, int]]:
        corners = [(-x if self.turned_over else x, y) for x, y in self.part.corners]
        for _ in range(self.turned_deg // 90 % 4):
            corners = [(-y, x) for x, y in corners]
        return corners


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
