"""Every value of a job that was measured: its tool, its standard error, and what it moves.

A value typed for the whole roof is as sharp as the tool it is usually read with: a pitch is an
inclinometer's, a height is taped above the floor, a length is taped. A reading of the survey sheet
carries its own error. What is chosen, declared or counted has none.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields, is_dataclass, replace
from typing import Any, NamedTuple, cast

from roofmodel.foundation import entered
from roofmodel.foundation.figure import Figure
from roofmodel.foundation.source import Source
from roofmodel.gates.every_gate import Group
from roofmodel.storage.job import Job
from roofmodel.survey.readings.network import Network
from roofmodel.survey.readings.reading import STANDARD_ERROR, Basis, Reading, Tool, Unit
from roofmodel.survey.sheets import networks, nominal

BAR_MM = 1.0
"""Standard error of a bar's width or depth by rule or caliper (common practice, no source)."""

WALL_MM = 0.1
"""Thickness of a bar's metal by calliper (common practice, no source)."""

HOUSE_M = 0.1
"""Standard error of the house's depth, paced or off a map (common practice, no source)."""

ALTITUDE_M = 20.0
"""Standard error of an altitude off a map (common practice, no source)."""


Path = tuple[str | int, ...]

_CORNERS = ("x_mm", "y_mm")

_ROOF = frozenset(Group) - {Group.WIDTHS}
"""What a length or a pitch of the roof moves: all but the widths of its bars."""

_GROUPS: Mapping[str, frozenset[Group]] = {
    "bars": frozenset({Group.BARS, Group.WEIGHT, Group.HEAT}),
    "bars.width_mm": frozenset({Group.WIDTHS, Group.BARS, Group.WEIGHT, Group.HEAT}),
    "standing": frozenset({Group.SLOPES, Group.WEIGHT}),
    "standing.bar_wall_mm": frozenset({Group.WEIGHT}),
    "standing.bar_depth_mm": frozenset({Group.SLOPES, Group.WEIGHT, Group.HEAT}),
    "site": frozenset({Group.WEIGHT, Group.RAIN}),
    "site.door_head_mm": frozenset({Group.SLOPES}),
    "material.conductivity_w_mk": frozenset({Group.HEAT}),
    "material.resistance_m2k_w": frozenset({Group.HEAT}),
    "material.mass_kg": frozenset({Group.WEIGHT}),
    "material.thickness_mm": frozenset({Group.SLOPES, Group.HEAT}),
    "glazing": frozenset({Group.WEIGHT}),
}
"""Gates a value moves, by the part of the job it stands in and its field; else `_ROOF`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """One measured value: its place in the job, its tool and its standard error.

    ``typed`` is what a value typed for the whole roof counts as, beside readings of the sheet.
    ``source`` says how it was come by; of a reading it is verified where somebody read it on site.
    """

    path: Path
    label: str
    value: float
    unit: str
    tool: str
    standard_error: float
    source: Source
    typed: Reading | None = None

    @property
    def groups(self) -> frozenset[Group]:
        """The gates whose figures this value can move; the others need not be computed anew."""
        part, name = str(self.path[0]), _name(self.path)
        if name in _CORNERS:
            return _ROOF - {Group.SLOPES}  # a corner moves no pitch, and heights hardly
        return _GROUPS.get(f"{part}.{name}") or _GROUPS.get(part) or _ROOF

    def figure(self, *, checked: bool) -> Figure:
        """Return the value with its error and source.

        ``checked`` says that the survey is closed: before, no reading of it is verified.
        """
        source = self.source
        return Figure(
            name=self.label,
            value=self.value,
            unit=self.unit,
            error=self.standard_error,
            source=replace(source, verified=source.verified and checked),
        )

    def moved(self, job: Job, by: float) -> Job:
        """Return a job with this value moved.

        Raises
        ------
        DimensionError
            If nothing can be like that.
        """
        if self.typed is not None:
            return replace(
                job, readings=(*job.readings, replace(self.typed, value=self.value + by))
            )
        return _put(job, self.path, self.value + by)


class _Number(NamedTuple):
    """A number that was entered: where it is in the job, and what its field is called."""

    path: Path
    value: float
    label: str


def of_job(job: Job) -> tuple[Measured, ...]:
    """Return every measured value of a job.

    Where lines of the survey sheet were read, the readings stand for the roof, together with what
    they leave of the values typed for the whole of it.
    """
    roof = _readings(job) if job.readings else _survey(job)
    return (*roof, *_bars(job), *_standing(job), *_site(job))


def typed(job: Job, network: Network) -> tuple[Reading, ...]:
    """Return what is left of the values typed for the whole roof beside the readings of a job."""
    read = [reading.name for reading in job.readings]
    return nominal.readings(job.survey, read, network=network)


def _survey(job: Job) -> Iterator[Measured]:
    for number in _numbers(job.survey, ("survey",)):
        tool, error = _tool(_name(number.path), job)
        yield _entered(number, tool, error)


def _tool(name: str, job: Job) -> tuple[Tool, float]:
    """Return the tool a value typed for the whole roof is usually read with, and its error."""
    if name.endswith("_deg"):
        return Tool.INCLINOMETER, STANDARD_ERROR[Tool.INCLINOMETER]
    if "height" in name or "level" in name:
        return Tool.HEIGHT, job.site.height_error_mm
    return Tool.TAPE, job.site.run_error_mm


def _readings(job: Job) -> Iterator[Measured]:
    """Yield the readings; what was typed for the whole roof counts as a reading of its own."""
    network = networks.of_survey(job.survey)
    if network is None:
        return
    for i, reading in enumerate(job.readings):
        yield _of_reading(("readings", i, "value"), reading, "as read", _READ[reading.basis])
    for reading in typed(job, network):
        found = _of_reading(("survey",), reading, "typed for the whole roof", TYPED)
        yield replace(found, typed=reading)


TYPED = Source("typed for the whole roof", "no reading checks it", verified=False)
"""The source of a dimension of the survey that no reading stands for."""

_READ = {
    Basis.MEASURED: Source("read on site", "survey sheet", verified=True),
    Basis.ASSUMED: Source("entered on the survey sheet", "as assumed", verified=False),
    Basis.FROM_DRAWING: Source("entered on the survey sheet", "from a drawing", verified=False),
}
"""The source of a reading, by how it was come by."""


def _of_reading(path: Path, reading: Reading, tool: str, source: Source) -> Measured:
    return Measured(
        path=path,
        source=source,
        label=reading.name,
        value=reading.value,
        unit="°" if reading.unit is Unit.DEG else "mm",
        tool=tool,
        standard_error=reading.standard_error,
    )


def _bars(job: Job) -> Iterator[Measured]:
    for number in _numbers(job.bars, ("bars",)):
        name = _name(number.path)
        # Bays that only check a sum move no bar.
        if name not in ("last_bay_mm", "bay_mm"):
            error = BAR_MM if name == "width_mm" else STANDARD_ERROR[Tool.TAPE]
            yield _entered(number, Tool.TAPE, error)


_STANDING = {
    "bar_depth_mm": BAR_MM,
    "bar_wall_mm": WALL_MM,
    "sill_height_mm": None,
    "wall_above_mm": None,
    "house_roof_pitch_deg": STANDARD_ERROR[Tool.BEVEL],
}
"""What is measured of the standing roof; None for a height above the floor."""

_SITE = {
    "altitude_m": ALTITUDE_M,
    "house_depth_m": HOUSE_M,
    "door_head_mm": None,
    "box_width_mm": BAR_MM,
    "box_depth_mm": BAR_MM,
    "box_weir_mm": STANDARD_ERROR[Tool.TAPE],
    "posts_apart_mm": STANDARD_ERROR[Tool.TAPE],
}
"""What is measured of the site; None for a height above the floor."""


def _standing(job: Job) -> Iterator[Measured]:
    yield from _listed(job.standing, "standing", _STANDING, job.site.height_error_mm)


def _site(job: Job) -> Iterator[Measured]:
    yield from _listed(job.site, "site", _SITE, job.site.height_error_mm)


def _listed(
    thing: object, under: str, errors: Mapping[str, float | None], height_mm: float
) -> Iterator[Measured]:
    for number in _numbers(thing, (under,)):
        name = _name(number.path)
        if name in errors and number.value:
            error = errors[name]
            tool = Tool.HEIGHT if error is None else Tool.TAPE
            yield _entered(number, tool, height_mm if error is None else error)


def _entered(number: _Number, tool: Tool, error: float) -> Measured:
    name = _name(number.path)
    return Measured(
        path=number.path,
        label=number.label,
        value=number.value,
        unit=next(unit for ending, unit in _UNITS if name.endswith(ending)),
        tool=tool.value,
        standard_error=error,
        source=TYPED
        if number.path[0] == "survey"
        else Source("entered", tool.value, verified=False),
    )


_UNITS = (("_mm", "mm"), ("_deg", "°"), ("_m", "m"))


def _name(path: Path) -> str:
    """Return the field a path leads to, whatever its place in a row."""
    return next(str(part) for part in reversed(path) if isinstance(part, str))


def _numbers(thing: object, path: Path, label: str = "") -> Iterator[_Number]:
    """Yield every length and angle within a value, with its path and what its field is called."""
    if isinstance(thing, float | int) and not isinstance(thing, bool):
        if _name(path).endswith(tuple(ending for ending, _ in _UNITS)):
            yield _Number(path, float(thing), label)
    elif isinstance(thing, tuple):
        for i, item in enumerate(thing):
            yield from _numbers(item, (*path, i), label)
    elif is_dataclass(thing):
        entry = cast("type", type(thing))
        declared = entered.fields_of(entry)
        for field in fields(thing):
            called = entered.label(entry, field.name) if field.name in declared else ""
            yield from _numbers(getattr(thing, field.name), (*path, field.name), called)


def _put[T](thing: T, path: Path, value: float) -> T:
    """Return a value of nested records and rows with another number at a path."""
    if not path:
        return cast(T, value)
    first, rest = path[0], path[1:]
    if isinstance(first, int):
        row = cast(tuple[object, ...], thing)
        return cast(T, (*row[:first], _put(row[first], rest, value), *row[first + 1 :]))
    inner = _put(getattr(thing, first), rest, value)
    return cast(T, replace(cast(Any, thing), **{first: inner}))
