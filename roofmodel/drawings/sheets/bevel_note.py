"""How the blade stands at a bevelled side of a part, in words for the bench.

Two boards meet at a hip, ridge or valley on the plane that halves the angle between their facets.
The outline of a part is its outside face, what is cut square its larger one. Going in from the
outside face, the halving plane runs under the board at a hip or ridge, so the inside face ends
short of the outside one; at a valley it runs away from the board, and the inside face sticks out.
"""

from collections.abc import Collection
from dataclasses import dataclass

from roofmodel.cutting.parts.part import Part

BENCH_RULES = (
    "Offer up the first piece of each hand before cutting the rest. "
    "Never turn a bevelled or one-faced piece over. Lines on layer BVL are notes, not cuts."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bevel:
    """One bevelled side of a part that lies with its outside face up.

    ``number`` is the place of the side in the part's outline; ``degrees`` is how far the blade
    leans off square; ``step_mm`` how far the edge of the inside face is from the outside one's.
    """

    number: int
    degrees: float
    step_mm: float
    inward: bool

    @property
    def words(self) -> str:
        """What is written beside the side."""
        return f"BEVEL {self.cut.upper()}"

    @property
    def cut(self) -> str:
        """How the blade is set, and how far the edge leaves the outside one [mm]."""
        return f"{self.degrees:.2f} {self._lean} {self.step_mm:.1f}"

    @property
    def for_list(self) -> str:
        """What stands in the cut list."""
        return f"{self.number + 1}: {self.degrees:.2f} {self._lean}"

    @property
    def _lean(self) -> str:
        return "undercut" if self.inward else "overcut"


def key(leans_inward: Collection[bool]) -> tuple[str, ...]:
    """Return the lines that explain the words used, for the ways the blade leans on a sheet."""
    lines = ["Bevel: degrees off square, outside face up."]
    if True in leans_inward:
        lines.append(
            "Undercut: blade leans in below the part; inside face shorter by the mm given."
        )
    if False in leans_inward:
        lines.append("Overcut: blade leans out from the part; inside face longer by the mm given.")
    return tuple(lines)


def bevels(part: Part) -> tuple[Bevel, ...]:
    """Return the bevelled sides of a part; none when all are square."""
    return tuple(
        Bevel(number=number, degrees=abs(lean), step_mm=abs(step), inward=lean > 0.0)
        for number, (lean, step) in enumerate(zip(part.bevels_deg, part.steps_mm, strict=True))
        if lean
    )
