"""The sheet of a shape everybody knows: the lines of its plan in their usual order and words."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from roofmodel.survey.readings import line_name
from roofmodel.survey.readings.network import SheetLine
from roofmodel.survey.readings.plan_topology import Pair
from roofmodel.survey.readings.reading import Tool
from roofmodel.survey.sheets.plan_lines import sides_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A line by its name: how often it is read, and its words and tool where they are its own."""

    name: str
    times: int = 2
    label: str = ""
    tool: Tool | None = None


def in_usual_order(lines: Sequence[SheetLine], asked: Iterable[Asked]) -> tuple[SheetLine, ...]:
    """Return all lines of a plan: those asked for in their order, the others to settle doubts.

    Raises
    ------
    KeyError
        If a line is asked for that the plan has not.
    """
    rest = {line.name: line for line in lines}
    ordered = []
    for one in asked:
        line = rest.pop(one.name)
        label, tool = one.label or line.label, one.tool or line.tool
        ordered.append(replace(line, times=one.times, label=label, tool=tool))
    return (*ordered, *(replace(line, times=0) for line in rest.values()))


def sides(corners: Sequence[str], words: Sequence[str]) -> list[Asked]:
    """Ask for each side of the plan, called as the trade calls it."""
    return [
        Asked(name=line_name.length(p, q), label=f"{what}, {p} to {q}")
        for (p, q), what in zip(sides_of(corners), words, strict=True)
    ]


def squares(corners: Sequence[str], front: Sequence[str]) -> list[Asked]:
    """Ask for the projection of each corner off the first side, twice for those at the front."""
    return [
        Asked(
            name=line_name.off(corner, (corners[0], corners[1])), times=2 if corner in front else 0
        )
        for corner in corners[2:]
    ]


def diagonals(corners: Sequence[str]) -> list[Asked]:
    """Ask for the diagonals.

    On a rectangle both, twice; else the overall width first, every corner from both ends of the
    house wall, and across every corner of the end, twice.
    """
    count = len(corners)
    if count == 4:
        return [
            Asked(name=line_name.length(*pair))
            for pair in ((corners[0], corners[2]), (corners[1], corners[3]))
        ]
    width = (corners[2], corners[-1])
    words = f"Overall width where the end starts, {width[0]} to {width[1]}"
    asked = [Asked(name=line_name.length(*width), label=words, tool=Tool.TAPE)]
    for i, p in enumerate(corners):
        for j in range(i + 2, count):
            pair = (p, corners[j])
            if pair == width or (i, j) == (0, count - 1):
                continue
            across = j - i == 2 and i > 1
            asked.append(
                Asked(name=line_name.length(*pair), times=2 if across else 1 if i < 2 else 0)
            )
    return asked


def angles(corners: Sequence[str]) -> list[Asked]:
    """Ask for the angle at each corner, once."""
    return [Asked(name=line_name.angle(corner), times=1) for corner in corners]


def levels(corners: Sequence[str]) -> list[Asked]:
    """Ask for the level of each corner over the first."""
    return [Asked(name=line_name.level(corner, corners[0])) for corner in corners[1:]]


def heights(points: Sequence[str]) -> list[Asked]:
    """Ask for heights above the floor."""
    return [Asked(name=line_name.height(point)) for point in points]


def offs(point: str, off: Sequence[tuple[Pair, str]]) -> list[Asked]:
    """Ask for a ridge end square off sides, each by what it is called."""
    return [
        Asked(
            name=line_name.off(point, side),
            label=f"Ridge end {point} square off the {what}, plumbed down",
        )
        for side, what in off
    ]


def pitches(spots: Sequence[tuple[Pair, str]], *, times: int = 1) -> list[Asked]:
    """Ask for the pitch of bars, each by its eaves and its upper end."""
    return [Asked(name=line_name.pitch(*spot), times=times) for spot in spots]


def bars(spots: Sequence[tuple[Pair, str]]) -> list[Asked]:
    """Ask for the length of bars, each by its eaves and its upper end."""
    return [Asked(name=line_name.bar(*spot)) for spot in spots]


def ridge() -> list[Asked]:
    """Ask for length and level of the ridge from P to Q."""
    return [Asked(name=RIDGE), Asked(name=line_name.level("P", "Q"))]


RIDGE = line_name.along("ridge", "P", "Q")
