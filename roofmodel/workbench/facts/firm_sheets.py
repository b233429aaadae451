"""What one standard error of each corner and pitch does to the sheets of a method.

Each value is moved both ways, the job reckoned again and its boards planned quickly; that takes
seconds, so it is done when somebody asks. A quick plan may take a sheet more than a long search;
both sides of the comparison are planned alike, so what differs is the roof.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from roofmodel.cutting.nesting.nest import Effort
from roofmodel.foundation.errors import CuttingError, DimensionError
from roofmodel.refit.method import Method
from roofmodel.storage.job import Job
from roofmodel.workbench.job import measured, reckoning
from roofmodel.workbench.job.measured import Measured
from roofmodel.workbench.job.planner import Cut
from roofmodel.workbench.job.reckoning import Drawn

_SHAPE = ("survey", "readings")
"""Where the values stand that make the roof."""

Sheets = Mapping[str, int]
"""Sheets by the code of their material."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetEffect:
    """Sheets with one value moved down and up by its standard error; None where no roof stands."""

    moved: Measured
    less: Sheets | None
    more: Sheets | None


@dataclass(frozen=True, slots=True, kw_only=True)
class FirmSheets:
    """Sheets of a method as entered, by a quick plan, and with each value moved."""

    here: Sheets
    effects: tuple[SheetEffect, ...]

    def between(self, code: str) -> tuple[int, int]:
        """Return the fewest and most sheets of a material over all moved roofs."""
        counts = [self.here[code]]
        for one in self.effects:
            counts += [side[code] for side in (one.less, one.more) if side and code in side]
        return min(counts), max(counts)

    def deciding(self, code: str) -> tuple[SheetEffect, ...]:
        """Return the values within whose error the sheets of a material change."""
        return tuple(
            one
            for one in self.effects
            if any(
                side is not None and side.get(code) != self.here[code]
                for side in (one.less, one.more)
            )
        )


def of_method(
    drawn: Drawn,
    method: Method,
    *,
    progress: Callable[[str], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
    cut: Cut = reckoning.cut,
) -> FirmSheets:
    """Return how firm the sheets of a method are; ``progress`` hears each value as it is moved.

    ``cut`` plans the boards, here or in a process of its own; ``cancelled`` may stop it.

    Raises
    ------
    CuttingError
        If the boards of the roof as entered cannot be planned.
    Cancelled
        If stopped.
    """

    def sheets(there: Drawn) -> Sheets:
        plans = cut(there, method=method, effort=Effort.QUICK, cancelled=cancelled)
        layers = there.option_of(method).sheets
        return {layer.good.short: plans[layer.number].sheets for layer in layers}

    here = sheets(drawn)
    effects = []
    for one in measured.of_job(drawn.job):
        if one.path[0] in _SHAPE and one.standard_error > 0.0:
            if progress is not None:
                progress(one.label)
            less, more = (
                _moved(drawn, sheets, one, way * one.standard_error) for way in (-1.0, 1.0)
            )
            effects.append(SheetEffect(moved=one, less=less, more=more))
    return FirmSheets(here=here, effects=tuple(effects))


def facts(found: FirmSheets) -> list[dict[str, object]]:
    """Return each material with its sheets, their range and what decides, as reports print it."""
    return [
        {
            "material": code,
            "sheets": count,
            "least": found.between(code)[0],
            "most": found.between(code)[1],
            "text": text(found, code),
        }
        for code, count in found.here.items()
    ]


def text(found: FirmSheets, code: str) -> str:
    """Return in one line how firm the sheets of a material are."""
    count, (least, most) = found.here[code], found.between(code)
    if least == most:
        return f"{code}: {count} sheets, whichever value is off by its standard error."
    words = "; ".join(_words(one, code) for one in found.deciding(code))
    return f"{code}: {count} sheets, {least} to {most} within one standard error: {words}."


def _words(one: SheetEffect, code: str) -> str:
    value = one.moved
    sides = [
        f"{sign}{value.standard_error:g} {value.unit} makes {side[code]}".replace(" °", "°")
        for sign, side in (("−", one.less), ("+", one.more))
        if side is not None and code in side
    ]
    return f"{value.label} {', '.join(sides)}"


def _moved(
    drawn: Drawn, sheets: Callable[[Drawn], Sheets], one: Measured, by: float
) -> Sheets | None:
    """Return the sheets with a value moved; None where that is no roof, or cannot be planned."""
    try:
        job: Job = one.moved(drawn.job, by)
        there = reckoning.reckon(job, catalogue=drawn.catalogue, tables=drawn.tables)
        return sheets(there) if isinstance(there, Drawn) else None
    except (DimensionError, CuttingError):
        return None
