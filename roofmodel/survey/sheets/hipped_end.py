"""The letters of a roof whose end is hipped, by one facet or by several."""

from dataclasses import dataclass

from roofmodel.shapes.footprint import SideKind
from roofmodel.survey.sheets.plan_lines import sides_of

Side = tuple[str, str]

WORDS = {
    1: ("Front",),
    3: ("Right cant", "Front", "Left cant"),
    4: ("Right cant", "Front right", "Front left", "Left cant"),
    5: ("Right cant", "Front right", "Front", "Front left", "Left cant"),
}
"""What the end facets are called, from the right; one is a plain hip."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HippedEnd:
    """The letters of a shape with ``end_facets`` facets at its end, and what stands behind it."""

    end_facets: int
    back: SideKind = SideKind.HOUSE_WALL

    @property
    def rear_facet(self) -> bool:
        """Whether a facet rises from the back too: from a box gutter, or a lantern's rear eaves."""
        return self.back.slopes

    @property
    def corners(self) -> tuple[str, ...]:
        """Eaves corners, from the left-hand end of the house wall, clockwise seen from above."""
        return tuple("ABCDEFGH"[: self.end_facets + 3])

    @property
    def right(self) -> Side:
        """The side that runs from the house on the right-hand side."""
        return ("B", "C")

    @property
    def left(self) -> Side:
        """The side that runs back to the house on the left-hand side."""
        return (self.corners[-1], "A")

    @property
    def ends(self) -> list[Side]:
        """The sides of the end, from the right."""
        return sides_of(self.corners)[2:-1]

    @property
    def fronts(self) -> list[Side]:
        """The one or two sides farthest from the house."""
        middle = (self.end_facets - 1) // 2
        return self.ends[middle : self.end_facets - middle]

    @property
    def front_corners(self) -> tuple[str, ...]:
        """The one or two corners farthest from the house."""
        if len(self.fronts) == 2:
            return (self.fronts[0][1],)
        return self.fronts[0]

    @property
    def width(self) -> str:
        """The line that shows the overall width in front of the house."""
        return self.corners[2] + self.corners[-1]

    @property
    def spots(self) -> list[tuple[Side, str]]:
        """The bars up to both ends of the ridge: those at the house before those at the hips."""
        return [(side, top) for side in (self.right, self.left) for top in ("Q", "P")]

    @property
    def single(self) -> list[tuple[Side, str]]:
        """The one bar of each facet that ends in a point, that of the back last."""
        back = [(self.back_side, "Q")] if self.rear_facet else []
        return [*((side, "P") for side in self.ends), *back]

    @property
    def back_side(self) -> Side:
        """The side against the house."""
        return ("A", "B")

    @property
    def hips(self) -> list[tuple[str, str]]:
        """The hips by foot and top."""
        back = [("A", "Q"), ("B", "Q")] if self.rear_facet else []
        return [*((corner, "P") for corner in self.corners[2:]), *back]

    def what(self, side: Side) -> str:
        """Return what a side is called where something is measured off it."""
        house = "back" if self.rear_facet else "house wall"
        names = {self.back_side: house, self.right: "right side", self.left: "left side"}
        names[self.fronts[0]] = "front"
        return names.get(side, f"side {side[0]}{side[1]}")
