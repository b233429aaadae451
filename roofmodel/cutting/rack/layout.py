"""Where every part is cut when offcuts are cut up beside new sheets."""

from dataclasses import dataclass

from roofmodel.cutting.parts.layout import Layout, Placed
from roofmodel.cutting.parts.part import Part
from roofmodel.cutting.rack.offcut import RackPiece


@dataclass(frozen=True, slots=True, kw_only=True)
class RackCut:
    """One offcut that is cut up; places are measured from the lower left of its outline.

    The ``sheet_no`` of ``placed`` is of no meaning here.
    """

    piece: RackPiece
    placed: tuple[Placed, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RackLayout:
    """All parts of a problem: on new sheets, of which there may be none, and on offcuts."""

    new: Layout
    cuts: tuple[RackCut, ...] = ()

    @property
    def sheets(self) -> int:
        """Number of new sheets."""
        return self.new.sheets

    @property
    def on_rack(self) -> tuple[Part, ...]:
        """Parts cut from offcuts."""
        return tuple(placed.part for cut in self.cuts for placed in cut.placed)

    @property
    def labels(self) -> tuple[str, ...]:
        """Labels of the offcuts that are cut up."""
        return tuple(cut.piece.label for cut in self.cuts)

    @property
    def rank(self) -> tuple[int, int, float]:
        """What is made least: new sheets, then offcuts, then the area taken off the rack."""
        area = sum(cut.piece.area_mm2 for cut in self.cuts)
        return (self.sheets, len(self.cuts), area)
