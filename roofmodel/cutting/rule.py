"""How boards are laid on a facet: the rules, and the sentence that names them."""

from dataclasses import dataclass

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.tenths import cut_tenths, stock_tenths
from roofmodel.foundation.errors import DimensionError, Fault


@dataclass(frozen=True, slots=True, kw_only=True)
class LayingRules:
    """Whole courses from the eaves, long edge across the bars, joints anywhere in the course.

    ``board_length_mm`` and ``board_width_mm`` are what is left of a sheet after trimming.
    ``minimum_piece_mm`` holds for the length of a piece along the course and for the height of a
    course; ``stagger_mm`` is the least offset between joints of neighbouring courses.
    """

    board_length_mm: float
    board_width_mm: float
    trim_mm: float
    gap_mm: float
    minimum_piece_mm: float
    stagger_mm: float

    def __post_init__(self) -> None:
        """Refuse rules no board can keep."""
        faults = []
        if not 0 < self.minimum_piece_mm < min(self.board_length_mm, self.board_width_mm):
            faults.append(
                Fault(
                    "minimum_piece_mm",
                    f"No piece of {self.minimum_piece_mm:g} mm comes out of a board of "
                    f"{self.board_length_mm:g} × {self.board_width_mm:g} mm.",
                    "Enter less than the board's shorter side.",
                )
            )
        if not 0 <= self.gap_mm < 50:
            faults.append(
                Fault(
                    "gap_mm",
                    f"Boards are not laid {self.gap_mm:g} mm apart.",
                    "Enter 0 to 50 mm.",
                )
            )
        if not 0 <= self.stagger_mm < 20_000:
            faults.append(
                Fault(
                    "stagger_mm",
                    f"Joints cannot be staggered {self.stagger_mm:g} mm.",
                    "Enter 0 mm or more.",
                )
            )
        if faults:
            raise DimensionError(faults)

    @property
    def claim(self) -> str:
        """The sentence a sheet count is never shown without."""
        trimmed = f"{self.trim_mm:g} mm trimmed off every sheet edge, " if self.trim_mm else ""
        return (
            f"{trimmed}whole rows from the eaves, long edge across the bars, "
            f"joints free (on noggings or bearers), {self.gap_mm:g} mm between boards, "
            f"no piece under {self.minimum_piece_mm:g} mm, "
            f"joints staggered {self.stagger_mm:g} mm"
        )


def rules_for(good: SheetGood) -> LayingRules:
    """Return the rules a sheet material is laid by, its board rounded as the saw will have it."""
    trim = cut_tenths(good.trim_mm)
    return LayingRules(
        board_length_mm=(stock_tenths(good.length_mm) - 2 * trim) / 10,
        board_width_mm=(stock_tenths(good.width_mm) - 2 * trim) / 10,
        trim_mm=trim / 10,
        gap_mm=good.board_gap_mm,
        minimum_piece_mm=good.minimum_piece_mm,
        stagger_mm=good.stagger_mm,
    )
