"""Where a number comes from."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Source:
    """Document and place a value was taken from.

    ``verified`` is true only when one of us read the value at that place; reports print
    "(not yet verified)" otherwise.
    """

    document: str
    place: str
    verified: bool

    def __str__(self) -> str:
        """Return the source as reports print it."""
        place = f", {self.place}" if self.place else ""
        return f"{self.document}{place}" + ("" if self.verified else " (not yet verified)")
