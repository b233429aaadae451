"""What a job file up to version 2 called a reading, and what the same tape is called since.

Until then a lean-to, a gable and a hipped roof had names of their own (“pitch left”, “hip C”), and
every other plan numbered its facets and lettered its upper points from the first facet on.
"""

import re
from collections.abc import Mapping
from functools import cache
from typing import Any

from pydantic import TypeAdapter, ValidationError

from roofmodel.foundation.errors import RoofModelError
from roofmodel.survey.readings import line_name
from roofmodel.survey.readings.measure import Measure
from roofmodel.survey.readings.network import Network, SheetLine
from roofmodel.survey.readings.plan_topology import Pair, PlanShape
from roofmodel.survey.sheets import networks
from roofmodel.survey.sheets.plan_lines import sides_of
from roofmodel.survey.taped.survey import RoofSurvey

_LETTER = re.compile(r"[A-Z][0-9]*")
_ON_FACET = re.compile(r"(pitch|bar) (?:(left|right)|(F[0-9]+)(?: at (.+))?)")
_OFF = re.compile(r"([A-Z][0-9]*) off (?:side )?(.+)")
_ALONG = re.compile(r"(hip|valley|ridge|change)(?: ([A-Z][0-9]*)([A-Z][0-9]*)?)?")
_LEVEL = re.compile(r"level ([A-Z][0-9]*)([A-Z][0-9]*)?")
_OF_LETTERS = re.compile(r"(height |angle |middle to |)((?:[A-Z][0-9]*)+)")


@cache
def _survey() -> TypeAdapter[RoofSurvey]:
    """Return what reads a survey; made for old files only, as it takes a while."""
    return TypeAdapter(RoofSurvey)


def renamed(data: dict[str, Any]) -> dict[str, Any]:
    """Return the fields of a job file with readings and answers under the names used since.

    A file whose survey makes no roof is left as it is: its readings had no sheet either.
    """
    try:
        network = networks.of_survey(_survey().validate_python(data.get("survey")))
    except (ValidationError, RoofModelError):
        return data
    if network is None:
        return data
    names = _Names(network)
    job = dict(data)
    for group, key in (("readings", "name"), ("answers", "query")):
        if isinstance(data.get(group), list):
            job[group] = [names.of_entry(one, key) for one in data[group]]
    return job


class _Names:
    """The old names of one shape's lines, as those of its sheet today."""

    def __init__(self, network: Network) -> None:
        self._network = network
        self._letters = {} if network.plan is None else _letters(network.plan)
        self._called = _called(network)

    def of_entry(self, entry: object, key: str) -> object:
        """Return a reading or an answer under its new name, a level turned where it has to be."""
        if not isinstance(entry, dict) or not isinstance(entry.get(key), str):
            return entry
        name, sign = self.today(entry[key])
        value = entry.get("value")
        if sign < 0.0 and isinstance(value, int | float) and value:
            return {**entry, key: name, "value": -value}
        return {**entry, key: name}

    def today(self, name: str) -> tuple[str, float]:
        """Return the name of today, and the sign its value takes on; one nobody knows stays."""
        if name.startswith("walk round the eaves"):
            return name.removeprefix("walk "), 1.0
        if match := _LEVEL.fullmatch(name):
            return self._level(name, match)
        for pattern, named in (
            (_ON_FACET, self._on_facet),
            (_OFF, self._off),
            (_ALONG, self._along),
            (_OF_LETTERS, self._of_letters),
        ):
            if match := pattern.fullmatch(name):
                return named(match) or name, 1.0
        return (line_name.middle_height("A", "B") if name == "height middle" else name), 1.0

    def _letter(self, old: str) -> str:
        return self._letters.get(old, old)

    def _lines(self, *measures: Measure) -> list[SheetLine]:
        return [line for line in self._network.lines if line.measure in measures]

    def _on_facet(self, match: re.Match[str]) -> str | None:
        what, end, facet, at = match.groups()
        if end:
            facet, at = "F1", {"left": "A", "right": "B"}[end]
        ends = {"wall": "Q", "rear": "Q", "hip": "P", "gable": "P"}
        top = ends.get(at or "") or self._letter(at or "")
        eaves = {
            frozenset(pair)
            for one in self._network.facets
            if one.name == facet
            for pair in (one.eaves, *one.more_eaves)
        }
        lines = [
            line
            for line in self._lines(Measure.PITCH if what == "pitch" else Measure.BAR_LENGTH)
            if frozenset(line.points[1:]) in eaves and top in ("", line.points[0])
        ]
        return lines[0].name if lines else None

    def _off(self, match: re.Match[str]) -> str | None:
        point, what = match.groups()
        side = self._called.get(what) or tuple(map(self._letter, _LETTER.findall(what)))
        return line_name.off(self._letter(point), (side[0], side[1])) if len(side) == 2 else None

    def _along(self, match: re.Match[str]) -> str | None:
        what, *ends = match.groups()
        letters = {self._letter(end) for end in ends if end}
        return next(
            (
                line.name
                for line in self._lines(Measure.SLOPE_LENGTH)
                if line.name.startswith(f"{what} ") and letters <= set(line.points)
            ),
            None,
        )

    def _of_letters(self, match: re.Match[str]) -> str:
        what, letters = match.groups()
        return what + "".join(map(self._letter, _LETTER.findall(letters)))

    def _level(self, name: str, match: re.Match[str]) -> tuple[str, float]:
        """Return the level of one point over the first eaves, or of one of two over the other."""
        letters = [self._letter(letter) for letter in match.groups() if letter]
        eaves = {
            point
            for facet in self._network.facets
            for pair in (facet.eaves, *facet.more_eaves)
            for point in pair
        }
        # Of two eaves the first was levelled over the second, of a ridge's ends the other way.
        upper = letters[0] if len(letters) == 1 or set(letters) <= eaves else letters[1]
        for line in self._lines(Measure.ABOVE):
            if len(letters) == 1 and line.points[0] == upper:
                return line.name, 1.0
            if set(line.points) == set(letters):
                return line.name, 1.0 if line.points[0] == upper else -1.0
        return name, 1.0


def _letters(plan: PlanShape) -> dict[str, str]:
    """Return the upper points of a plan by the letters they had, from the first facet on."""
    met = dict.fromkeys(point for facet in plan.facets for point in facet.corners)
    return dict(zip(sorted(plan.tops, key=_order), [p for p in met if p in plan.tops], strict=True))


def _order(letter: str) -> tuple[int, str]:
    return int(letter[1:] or 1), letter[0]


def _called(network: Network) -> Mapping[str, Pair]:
    """Return the sides by what they were called where something was measured off them."""
    sides = sides_of(network.corners)
    by_side: dict[str, Pair] = {"wall": sides[0]}
    if network.plan is None:
        by_side |= {"right side": sides[1], "right eaves": sides[1]}
        by_side |= {"left side": sides[-1], "left eaves": sides[-1]}
        by_side["front"] = sides[2 + (len(sides) - 4) // 2]
    return by_side
