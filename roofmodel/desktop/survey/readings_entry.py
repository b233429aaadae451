"""Readings as they are typed: what a text means on its line, and the job with it taken over."""

import re
from collections.abc import Sequence
from dataclasses import replace

from roofmodel.storage.job import Answer, Job
from roofmodel.survey.readings.measure import Measure
from roofmodel.survey.readings.network import Network, SheetLine
from roofmodel.survey.readings.reading import Reading, Unit
from roofmodel.survey.taped import typed_reading
from roofmodel.survey.taped.typed_reading import Plausible, Typed
from roofmodel.survey.verdict.state import FIT

_LEVELS = Plausible(what="a difference of level", least_mm=0.0, most_mm=300.0)
_BARS = Plausible(what="a length on the slope", least_mm=400.0, most_mm=12_000.0)
"""Usual sizes at conservatories (common practice, no source)."""

_NOTHING = re.compile(r"[+−-]?\s*0+([.,]0*)?\s*(mm|cm|m)?")
_HEIGHTS = (Measure.HEIGHT, Measure.MIDDLE_HEIGHT)
_ON_SLOPE = (Measure.SLOPE_LENGTH, Measure.BAR_LENGTH)


def understood(text: str, line: SheetLine, network: Network) -> Typed:
    """Return what a text means on a line of the survey sheet.

    Raises
    ------
    DimensionError
        If it is no length or angle; the text says how to write it.
    """
    if line.unit is Unit.DEG:
        return typed_reading.parse_angle(text, field=line.name, most_deg=line.range[1])
    plausible = _plausible(line, network)
    if line.measure is not Measure.ABOVE:
        return typed_reading.parse_length(text, field=line.name, plausible=plausible)
    # Only a level may be nothing, or below it.
    typed = text.strip()
    if _NOTHING.fullmatch(typed.lower()):
        return Typed(value=0.0)
    sign = -1.0 if typed.startswith(("-", "−")) else 1.0
    length = typed_reading.parse_length(typed.lstrip("+-−"), field=line.name, plausible=plausible)
    meant = tuple(sign * value for value in length.meant)
    return replace(length, value=sign * length.value, meant=meant)


def _plausible(line: SheetLine, network: Network) -> Plausible:
    if line.measure is Measure.ABOVE:
        return _LEVELS
    if line.measure in _HEIGHTS:
        return typed_reading.HEIGHT
    if line.measure in _ON_SLOPE:
        return _BARS
    if line.name == "frame":
        return typed_reading.PART
    of_corners = set(line.points) <= set(network.corners)
    plain = len(network.corners) == 4 and of_corners
    return typed_reading.PLAN if plain else typed_reading.FACET_SIDE


def of_line(readings: Sequence[Reading], name: str) -> tuple[Reading, ...]:
    """Return the readings of one line, in the order they were taken."""
    return tuple(reading for reading in readings if reading.name == name)


def with_line(job: Job, network: Network, name: str, taken: Sequence[Reading]) -> Job:
    """Return the job with other readings of one line.

    A choice made about a doubt holds for the readings it was made for: where one of them changes,
    the doubt is asked again.
    """
    before = of_line(job.readings, name)
    if tuple(taken) == before:
        return job
    on_sheet = [line.name for line in network.lines]
    readings: list[Reading] = []
    for line in on_sheet:
        readings += taken if line == name else of_line(job.readings, line)
    readings += [reading for reading in job.readings if reading.name not in on_sheet]
    answers = job.answers
    if [r.value for r in taken] != [r.value for r in before]:
        answers = _still_holding(job, network, name)
    return replace(job, readings=tuple(readings), answers=answers)


def off_sheet(job: Job, network: Network | None) -> tuple[Reading, ...]:
    """Return the readings the shape's survey sheet has no line for."""
    names = {line.name for line in network.lines} if network else set()
    return tuple(reading for reading in job.readings if reading.name not in names)


def _still_holding(job: Job, network: Network, changed: str) -> tuple[Answer, ...]:
    """Return the answers that do not hang on a line."""
    hanging = {rule.title for rule in network.closures if changed in rule.lines} | {FIT}
    return tuple(answer for answer in job.answers if answer.query not in hanging)
