"""How boards are laid on a facet: the rules, and the sentence that names them."""

from dataclasses import dataclass
from typing import Literal

from roofmodel.buildups.sheet_good import Faces, SheetGood, StrengthAxis
from roofmodel.cutting.parts.tenths import cut_tenths, stock_tenths
from roofmodel.foundation.errors import DimensionError, Fault

Joints = Literal["free", "supports"]
"""Free: on noggings, bearers between bars, or tongued and grooved; else on bar or bearer lines."""

Rows = Literal["whole", "ripped"]
"""Whole: every row a full board but what is left for the last; ripped: of any height."""

RowsFrom = Literal["eaves", "ridge"]


@dataclass(frozen=True, slots=True, kw_only=True)
class LayingRules:
    """Rows with their long edge across the bars, and where boards may meet in them.

    ``board_length_mm`` and ``board_width_mm`` are what is left of a sheet after trimming.
    ``minimum_piece_mm`` holds for the length of a piece along the row and for the height of a
    row; ``stagger_mm`` is the least offset between joints of neighbouring rows.
    ``bays_spanned_least`` holds where the bars or bearers of a facet are known;
    ``abutment_gap_mm`` is left along house walls where a board comes nearest to them:
    ``reach_mm`` is how far it reaches inwards and outwards from the face it is measured on.
    ``mitred`` says that boards are bevelled where facets meet; square ones stop where they would
    run into one another. Whole rows are ripped only to avoid a row or piece under the least.
    ``more_rows`` and ``more_joints`` say how many more rows on a facet, and free joints in a row,
    there may be than the fewest: more would only trade board for gaps. Saw, strength axis and
    faces are those of the material.
    """

    board_length_mm: float
    board_width_mm: float
    trim_mm: float
    gap_mm: float
    minimum_piece_mm: float
    stagger_mm: float
    joints: Joints = "free"
    bays_spanned_least: int = 1
    rows: Rows = "whole"
    rows_from: RowsFrom = "eaves"
    more_rows: int = 1
    more_joints: int = 2
    abutment_gap_mm: float = 0.0
    reach_mm: tuple[float, float] = (0.0, 0.0)
    mitred: bool = True
    kerf_mm: float = 0.0
    strength_axis: StrengthAxis = "long"
    faces: Faces = "alike"

    def __post_init__(self) -> None:
        """Refuse rules no board can keep."""
        size = f"{self.board_length_mm:g} × {self.board_width_mm:g} mm"
        least = self.minimum_piece_mm
        checks = (
            (
                "minimum_piece_mm",
                0 < least < min(self.board_length_mm, self.board_width_mm),
                f"A piece of {least:g} mm cannot be cut from a board of {size}.",
                "Enter less than the board's shorter side.",
            ),
            (
                "gap_mm",
                0 <= self.gap_mm < 50,
                f"A gap of {self.gap_mm:g} mm between boards is not possible.",
                "Enter 0 to 50 mm.",
            ),
            (
                "abutment_gap_mm",
                0 <= self.abutment_gap_mm < 50,
                f"A gap of {self.abutment_gap_mm:g} mm along walls is not possible.",
                "Enter 0 to 50 mm.",
            ),
            (
                "stagger_mm",
                0 <= self.stagger_mm < 20_000,
                f"Joints cannot be staggered {self.stagger_mm:g} mm.",
                "Enter 0 mm or more.",
            ),
            (
                "bays_spanned_least",
                1 <= self.bays_spanned_least <= 9,
                f"A piece cannot span {self.bays_spanned_least} bays.",
                "Enter 1 to 9.",
            ),
            (
                "more_rows",
                0 <= self.more_rows <= 99,
                f"A facet cannot be laid in {self.more_rows} rows more than the fewest.",
                "Enter 0 to 99.",
            ),
            (
                "more_joints",
                0 <= self.more_joints <= 99,
                f"A row cannot have {self.more_joints} joints more than the fewest.",
                "Enter 0 to 99.",
            ),
        )
        faults = [Fault(field, text, remedy) for field, good, text, remedy in checks if not good]
        if faults:
            raise DimensionError(faults)

    @property
    def claim(self) -> str:
        """The sentence a sheet count is never shown without; it names every rule."""
        return ", ".join(text for text in self._clauses() if text)

    def _clauses(self) -> tuple[str, ...]:
        on_bars = self.joints == "supports"
        bays = f"every piece over at least {self.bays_spanned_least} bays"
        rows, joints = _number(self.more_rows, "row"), _number(self.more_joints, "joint")
        return (
            f"{self.trim_mm:g} mm trimmed off every sheet edge" if self.trim_mm else "",
            f"{_ROWS[self.rows]} from the {self.rows_from}",
            f"at most {rows} more than the fewest" if self.rows == "ripped" else "",
            "long edge across the bars" if self.strength_axis == "long" else "boards either way",
            _JOINTS[self.joints],
            "" if on_bars else f"at most {joints} in a row more than the fewest",
            bays if on_bars and self.bays_spanned_least > 1 else "",
            f"{self.gap_mm:g} mm between boards",
            f"{self.abutment_gap_mm:g} mm along walls" if self.abutment_gap_mm else "",
            f"no piece under {self.minimum_piece_mm:g} mm",
            f"joints staggered {self.stagger_mm:g} mm",
            f"saw cut {self.kerf_mm:g} mm",
            _FACES[self.faces],
        )


def _number(count: int, what: str) -> str:
    """Return a small number of things in words, such as ``two joints``."""
    return f"{_WORDS[count] if count < len(_WORDS) else count} {what}{'' if count == 1 else 's'}"


_WORDS = ("no", "one", "two", "three", "four", "five")
_ROWS = {"whole": "whole rows", "ripped": "rows ripped where that saves,"}
_JOINTS = {
    "free": "joints free (on noggings or bearers)",
    "supports": "joints on bars or bearers",
}
_FACES = {
    "alike": "either face out unless bevelled",
    "one": "never turned over",
    "coloured": "never turned over",
}


def rules_for(  # noqa: PLR0913 - one argument for each choice a way of laying makes
    good: SheetGood,
    *,
    joints: Joints = "free",
    bays_spanned_least: int = 1,
    rows: Rows = "ripped",
    rows_from: RowsFrom = "eaves",
    more_rows: int = 1,
    more_joints: int = 2,
    abutment_gap_mm: float | None = None,
) -> LayingRules:
    """Return the rules a sheet material is laid by, its board rounded as the saw will have it.

    What the material itself does not say is given beside it.
    """
    trim = cut_tenths(good.trim_mm)
    return LayingRules(
        board_length_mm=(stock_tenths(good.length_mm) - 2 * trim) / 10,
        board_width_mm=(stock_tenths(good.width_mm) - 2 * trim) / 10,
        trim_mm=trim / 10,
        gap_mm=good.board_gap_mm,
        minimum_piece_mm=good.minimum_piece_mm,
        stagger_mm=good.stagger_mm,
        joints=joints,
        bays_spanned_least=bays_spanned_least,
        rows=rows,
        rows_from=rows_from,
        more_rows=more_rows,
        more_joints=more_joints,
        abutment_gap_mm=good.wall_gap_mm if abutment_gap_mm is None else abutment_gap_mm,
        reach_mm=good.reach_mm,
        mitred=good.hip_edges == "bevelled",
        kerf_mm=cut_tenths(good.kerf_mm) / 10,
        strength_axis=good.strength_axis,
        faces=good.faces,
    )
