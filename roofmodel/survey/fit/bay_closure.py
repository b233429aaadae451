"""The bays of a facet against the length of its eaves: what they are out by, and what may be wrong.

Bays taped one by one, running dimensions with the last bay, or counted bays of one width each make
the eaves once more.
"""

from dataclasses import dataclass

from roofmodel.shapes import flat_edge
from roofmodel.shapes.roof import Facet
from roofmodel.survey.fit.closure import WouldBe
from roofmodel.survey.readings.reading import Unit
from roofmodel.survey.taped.bars_entry import BarsEntry

LIMIT_MM = 5.0
"""Bays that miss the eaves by more than this are asked about (common practice, no source)."""

TAPE_MM = 2.0
"""Standard error of one bar's centre-line (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BayClosure:
    """The sum of a facet's bays against its eaves, and what one reading alone would have to be.

    ``other_count`` is how many bays of the width given the eaves would hold, where another does.
    """

    facet: str
    field: str
    sum_mm: float
    eaves_mm: float
    explanations: tuple[WouldBe, ...]
    other_count: int | None = None

    @property
    def misclosure_mm(self) -> float:
        """How much longer the bays are than the eaves [mm]."""
        return self.sum_mm - self.eaves_mm

    @property
    def holds(self) -> bool:
        """Whether they agree as well as bars are taped."""
        return abs(self.misclosure_mm) <= LIMIT_MM

    @property
    def text(self) -> str:
        """The misclosure as one line."""
        return (
            f"The bays of {self.facet} add up to {self.sum_mm:.1f} mm but its eaves are "
            f"{self.eaves_mm:.1f} mm long: a difference of {abs(self.misclosure_mm):.1f} "
            f"mm (limit {LIMIT_MM:g})."
        )

    @property
    def remedy(self) -> str:
        """What each reading would have to be, and to tape it again."""
        words = [way.text for way in self.explanations]
        if self.other_count is not None:
            words.insert(0, f"{self.other_count} bays")
        ways = ", or ".join(words)
        return f"If only one is wrong, it should be: {ways}. Tape these again."


def closure(entry: BarsEntry, facet: Facet) -> BayClosure | None:
    """Return the closure of a facet's bays; None where the entry says nothing of their sum.

    Raises
    ------
    DimensionError
        If the facet has no eaves to tape along.
    """
    left, right = flat_edge.eaves_span_mm(facet)
    eaves = right - left
    sum_of_bays = _parts(entry)
    if sum_of_bays is None:
        return None
    field, parts = sum_of_bays
    total = sum(value * times for _, value, times in parts)
    ways = [
        _way(name, value, value + (eaves - total) / times)
        for name, value, times in parts
        if value + (eaves - total) / times > 0.0
    ]
    ways.append(_way(f"eaves of {facet.name}", eaves, total))
    return BayClosure(
        facet=facet.name,
        field=field,
        sum_mm=total,
        eaves_mm=eaves,
        explanations=tuple(ways),
        other_count=_other_count(entry, eaves),
    )


def _parts(entry: BarsEntry) -> tuple[str, list[tuple[str, float, int]]] | None:
    """Return the field that makes the sum, and its parts: name, value [mm] and how often."""
    if entry.bay_widths_mm is not None:
        widths = [(f"bay {i}", width, 1) for i, width in enumerate(entry.bay_widths_mm, 1)]
        return "bay_widths_mm", widths
    if entry.running_mm and entry.last_bay_mm is not None:
        count = len(entry.running_mm)
        running = (f"running dimension of bar {count}", entry.running_mm[-1], 1)
        return "last_bay_mm", [running, ("last bay", entry.last_bay_mm, 1)]
    if entry.bays is not None and entry.bay_mm is not None:
        return "bay_mm", [("bay width", entry.bay_mm, entry.bays)]
    return None


def _way(name: str, read: float, would_be: float) -> WouldBe:
    return WouldBe(line=name, unit=Unit.MM, read=read, would_be=would_be, error=TAPE_MM)


def _other_count(entry: BarsEntry, eaves_mm: float) -> int | None:
    """Return the count of bays that would do, where another one does to within the limit."""
    if entry.bays is None or entry.bay_mm is None:
        return None
    count = round(eaves_mm / entry.bay_mm)
    fits = count >= 1 and abs(count * entry.bay_mm - eaves_mm) <= LIMIT_MM
    return count if fits and count != entry.bays else None
