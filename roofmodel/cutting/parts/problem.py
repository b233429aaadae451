"""What is to be cut: the sheet, the parts, the saw; refuses what cannot be cut."""

from collections import Counter
from dataclasses import dataclass

from roofmodel.cutting.parts.part import Part
from roofmodel.cutting.parts.tenths import Tenths
from roofmodel.foundation.errors import CuttingError


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """All parts of one material on one kind of sheet, in whole tenths of a millimetre.

    ``trim`` is cut off all four edges of every sheet; ``kerf`` is lost between two parts.
    """

    sheet_length: Tenths
    sheet_width: Tenths
    kerf: Tenths
    trim: Tenths
    parts: tuple[Part, ...]

    def __post_init__(self) -> None:
        """Refuse, before any solver sees it, what no sheet can hold; name all such parts."""
        if min(self.usable_length, self.usable_width) <= 0 or self.kerf < 0 or self.trim < 0:
            raise CuttingError("Nothing is left of the sheet after trimming. Check size and trim.")
        if not self.parts:
            raise CuttingError("There is no part to cut. Board at least one facet.")
        twice = [mark for mark, count in Counter(p.mark for p in self.parts).items() if count > 1]
        if twice:
            raise CuttingError(f"Two parts carry the mark {twice[0]}. Give each its own.")
        refusals = [self._refusal(part) for part in self.parts if not self._fits(part)]
        if refusals:
            raise CuttingError(" ".join(refusals))

    @property
    def usable_length(self) -> Tenths:
        """Length of a sheet less trim."""
        return self.sheet_length - 2 * self.trim

    @property
    def usable_width(self) -> Tenths:
        """Width of a sheet less trim."""
        return self.sheet_width - 2 * self.trim

    def _fits(self, part: Part) -> bool:
        length, width = part.cut_size_tenths
        upright = length <= self.usable_length and width <= self.usable_width
        turned = width <= self.usable_length and length <= self.usable_width
        return (upright and part.may_lie_as_drawn) or (turned and part.may_lie_across)

    def _refusal(self, part: Part) -> str:
        length, width = part.cut_size_tenths
        trimmed = f" less {self.trim / 10:g} mm trim all round" if self.trim else ""
        return (
            f"{part.facet}: part {part.mark} ({length / 10:g} × "
            f"{width / 10:g} mm) does not fit a {self.sheet_length / 10:g} × "
            f"{self.sheet_width / 10:g} mm sheet{trimmed}. Choose a larger sheet or split the part."
        )
