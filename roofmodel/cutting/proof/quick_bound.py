"""The bound of a boarding that changes by a row at a time: worked out shape by shape, and kept."""

from collections.abc import Sequence

from roofmodel.cutting.parts.part import Part
from roofmodel.cutting.parts.problem import Problem
from roofmodel.cutting.proof.bound import grown_area, least_bins, lines, sheet_area, taken, up


class QuickBound:
    """Bounds for boardings on one kind of sheet, by area and by lines."""

    def __init__(self, problem: Problem) -> None:
        """Take sheet and saw from a problem; its parts do not matter."""
        self._problem = problem
        self._sheet = sheet_area(problem)
        self._lines = lines(problem)
        self._known: dict[object, tuple[float, tuple[float | None, ...]]] = {}

    def sheets(self, parts: Sequence[Part]) -> tuple[int, float]:
        """Return how many sheets parts need at least, and how full those are pressed.

        The second is the same bound before it is rounded up: of two boardings that need as many
        sheets, the one that presses less is nearer to needing one fewer.
        """
        measured = [self._measured(part) for part in parts]
        pressed = sum(area for area, _ in measured) / self._sheet
        least = up(pressed)
        for number, line in enumerate(self._lines):
            here = [m[number] for _, m in measured]
            sizes = [size for size in here if size is not None]
            least = max(least, least_bins(sizes, line.room))
            pressed = max(pressed, sum(sizes) / line.room)
        return least, pressed

    def _measured(self, part: Part) -> tuple[float, tuple[float | None, ...]]:
        key = (part.corners, part.may_turn_deg)
        if key not in self._known:
            self._known[key] = (
                grown_area(part, self._problem),
                tuple(taken(part, self._problem, line) for line in self._lines),
            )
        return self._known[key]
