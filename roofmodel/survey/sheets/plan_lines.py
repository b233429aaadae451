"""Lines of the survey sheet every shape has: the plan at the eaves and its heights."""

from collections.abc import Sequence

from roofmodel.survey.readings import line_name
from roofmodel.survey.readings.measure import Measure
from roofmodel.survey.readings.network import Assumption, SheetLine
from roofmodel.survey.readings.reading import Tool

SQUARE_DEG = 1.0
"""How far a corner nobody measured may be out of square (common practice, no source)."""
TURNED_DEG = 4.0
"""The same for a corner of a polygonal end, whose facets need not be equal."""
LEVEL_MM = 20.0
"""How far eaves nobody levelled may be out of level (common practice, no source)."""


def sides_of(corners: Sequence[str]) -> list[tuple[str, str]]:
    """Return the sides, clockwise seen from above, the house wall first."""
    return [(corner, corners[(i + 1) % len(corners)]) for i, corner in enumerate(corners)]


def lengths(corners: Sequence[str], words: Sequence[str], *, times: int = 2) -> list[SheetLine]:
    """Return a line for each side, named by its two letters."""
    return [
        SheetLine(
            name=line_name.length(p, q),
            label=f"{what}, {p} to {q}",
            tool=Tool.TAPE,
            measure=Measure.PLAN_LENGTH,
            points=(p, q),
            times=times,
        )
        for (p, q), what in zip(sides_of(corners), words, strict=True)
    ]


def middles(corners: Sequence[str]) -> list[SheetLine]:
    """Return a line from the middle of the house wall to each corner, to settle doubts with."""
    return [
        SheetLine(
            name=line_name.middle_to(corner),
            label=f"From the middle of the house wall to {corner}",
            tool=Tool.DIAGONAL,
            measure=Measure.MIDDLE_LENGTH,
            points=(corners[0], corners[1], corner),
            times=0,
        )
        for corner in corners[2:]
    ]


def angles(corners: Sequence[str]) -> list[SheetLine]:
    """Return a line for the angle on plan at each corner."""
    count = len(corners)
    return [
        SheetLine(
            name=line_name.angle(corner),
            label=f"Angle on plan at {corner}",
            tool=Tool.BEVEL,
            measure=Measure.CORNER_ANGLE,
            points=(corners[i - 1], corner, corners[(i + 1) % count]),
        )
        for i, corner in enumerate(corners)
    ]


def levels(corners: Sequence[str], *, times: int = 2) -> list[SheetLine]:
    """Return a line for each corner's level against the first, by laser."""
    first = corners[0]
    return [
        SheetLine(
            name=line_name.level(corner, first),
            label=f"Eaves at {corner} above the eaves at {first}, by laser",
            tool=Tool.LEVEL,
            measure=Measure.ABOVE,
            points=(corner, first),
            times=times,
        )
        for corner in corners[1:]
    ]


def height(point: str, what: str, *, times: int = 2) -> SheetLine:
    """Return the line for the height of a point above the finished floor."""
    return SheetLine(
        name=line_name.height(point),
        label=f"{what} above the finished floor at {point}",
        tool=Tool.HEIGHT,
        measure=Measure.HEIGHT,
        points=(point,),
        times=times,
    )


def square_corners(corners: Sequence[str], angles_deg: Sequence[float]) -> list[Assumption]:
    """Return the angle each corner is taken to have until somebody measures it."""
    count = len(corners)
    return [
        Assumption(
            name=line_name.angle(corner),
            label=f"angle at {corner} assumed to be {angle:g}°",
            measure=Measure.CORNER_ANGLE,
            points=(corners[i - 1], corner, corners[(i + 1) % count]),
            value=angle,
            standard_error=SQUARE_DEG if angle == 90.0 else TURNED_DEG,
        )
        for i, (corner, angle) in enumerate(zip(corners, angles_deg, strict=True))
    ]


def level_with(points: Sequence[str], first: str) -> list[Assumption]:
    """Return that points are taken to be level with another until somebody levels them."""
    return [
        Assumption(
            name=line_name.level(point, first),
            label=f"{point} assumed to be level with {first}",
            measure=Measure.ABOVE,
            points=(point, first),
            value=0.0,
            standard_error=LEVEL_MM,
        )
        for point in points
    ]


def inside(widths: Sequence[str]) -> list[SheetLine]:
    """Return the lines for the inside of widths and the frame that lies between."""
    return [
        *(
            SheetLine(
                name=line_name.inside(width),
                label=f"Inside width, along {width}",
                tool=Tool.TAPE,
                measure=None,
                times=0,
            )
            for width in widths
        ),
        SheetLine(
            name=line_name.FRAME,
            label="Frame thickness, outside to inside",
            tool=Tool.TAPE,
            measure=None,
            times=0,
        ),
    ]
