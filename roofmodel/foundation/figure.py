"""A number with everything that is known of it: unit, error, source, and what it was made from.

The one home of provenance. Facts, gates, take-off, papers and the window all show figures; none of
them keeps a source of its own beside.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.foundation.source import Kind, Source

ASKED = "Where does this come from?"
"""The question a figure's provenance answers, as the window asks it."""

_NAMED = 3
"""So many inputs are named in one line; the others are counted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A number, or a thing that is no number but has a source as one has.

    ``value`` and ``error`` (a standard error) are in ``unit``; None where there is no such number.
    ``inputs`` are figures it was made from, the one that moves it most first, and rules it follows.
    """

    name: str
    source: Source
    value: float | None = None
    unit: str = ""
    error: float | None = None
    inputs: tuple["Figure | Source", ...] = ()

    def __post_init__(self) -> None:
        """Refuse numbers that are none, and a figure that does not say where it comes from."""
        faults = [
            Fault(
                name, f"{self.name}: {value} is not a number.", "Leave it out if it is not known."
            )
            for name, value in (("value", self.value), ("error", self.error))
            if value is not None and not math.isfinite(value)
        ]
        if self.error is not None and self.error < 0.0:
            text = f"{self.name} has an error of {self.error:g}, which is below 0."
            faults.append(Fault("error", text, "Enter 0 or more."))
        if not self.source.document:
            text = f"{self.name} does not say where it comes from."
            faults.append(Fault("source", text, "Name the document, or say that there is none."))
        if faults:
            raise DimensionError(faults)

    @property
    def verified(self) -> bool:
        """Whether somebody of us read it where it stands, and everything it was made from."""
        return self.source.verified and all(one.verified for one in self.inputs)

    @property
    def kind(self) -> Kind:
        """What sort of knowledge its source is."""
        return self.source.kind

    @property
    def printed(self) -> str:
        """Name, value, error and unit."""
        if self.value is None:
            return self.name
        error = "" if self.error is None else f" ± {self.error:.2g}"
        gap = "" if self.unit in ("", "°") else " "
        return f"{self.name} {self.value:.6g}{error}{gap}{self.unit}"

    @property
    def words(self) -> str:
        """Source and inputs in one line, with whether all of it was read where it stands."""
        named = [one.printed if isinstance(one, Figure) else one.words for one in self.inputs]
        more = len(named) - _NAMED
        said = ", ".join(named[:_NAMED]) + (f" and {more} more" if more > 0 else "")
        rests = f"; from {said}" if said else ""
        return f"{self.source.words}{rests}" + ("" if self.verified else " (not yet verified)")

    @property
    def origin(self) -> str:
        """Source and the names of the inputs, whatever their order: alike for alike figures."""
        names = sorted({one.name if isinstance(one, Figure) else one.words for one in self.inputs})
        shown = 8
        more = len(names) - shown
        said = ", ".join(names[:shown]) + (f" and {more} more" if more > 0 else "")
        kinds = {one.kind.value for one in self.inputs} or {self.kind.value}
        told = f"; from {said}: {', '.join(sorted(kinds))}" if said else ""
        return f"{self.source.words}{told}" + ("" if self.verified else " (not yet verified)")

    def __str__(self) -> str:
        """Return name and value with their source, as reports print an input."""
        return f"{self.printed}, {self.source}"

    @property
    def tip(self) -> str:
        """Everything that is known of where it comes from, a line for each thing."""
        return "\n".join((ASKED, self.printed, str(self.source), *self._lines(self.inputs)))

    @staticmethod
    def _lines(inputs: Sequence["Figure | Source"]) -> Iterator[str]:
        shown = 12
        yield from (f"  from {one}" for one in inputs[:shown])
        if len(inputs) > shown:
            yield f"  and {len(inputs) - shown} more"
