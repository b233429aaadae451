"""A section through a roof as a flat picture, and the line it is cut along at first."""

from itertools import pairwise

from roofmodel.desktop.flat import plan_picture
from roofmodel.desktop.kit.flat_canvas import Flat
from roofmodel.desktop.kit.flat_picture import Overall, Patch, Picture, Stroke, Weight
from roofmodel.desktop.kit.number_text import spaced
from roofmodel.drawings.views import cross_section
from roofmodel.drawings.views.cross_section import Crossing, Section, Stretch, Wall
from roofmodel.shapes.roof import LineKind, Roof

_GROUND_MM = 300.0
_ABOVE_MM, _THICK_MM = 450.0, 150.0
"""How far a house wall is drawn above the roof, and how thick."""

SectionLine = tuple[Flat, Flat]
"""The two ends of a section line on plan, (x, y) [mm]."""


def default_line(roof: Roof) -> SectionLine:
    """Return the line square to the house wall through the middle, from the garden inwards."""
    (left, near), (right, far) = plan_picture.reach(roof)
    middle = (left + right) / 2.0
    return (middle, far), (middle, near)


def picture(roof: Roof, line: SectionLine) -> Picture:
    """Return the roof cut along a line of the plan.

    Raises
    ------
    DimensionError
        If the line is none, or goes over no part of the roof.
    """
    section = cross_section.cut(roof, *line)
    starts = [stretch.start[0] for stretch in section.stretches]
    ends = [stretch.end[0] for stretch in section.stretches]
    heights = [z for s in section.stretches for z in (s.start[1], s.end[1])]
    first, last, eaves, top = min(starts), max(ends), roof.eaves_height_mm, max(heights)
    upright = [("eaves height", 0.0, eaves), ("rise", eaves, top)]
    return Picture(
        title=f"Section A–A, {spaced(section.length_mm)} long",
        patches=tuple(_house(wall, section) for wall in section.walls if _is_house(wall)),
        strokes=(
            Stroke(
                start=(first - _GROUND_MM, 0.0), end=(last + _GROUND_MM, 0.0), weight=Weight.GROUND
            ),
            *(_wall(wall) for wall in section.walls),
            *_steps(section),
            *(_stretch(stretch, section) for stretch in section.stretches),
        ),
        overalls=(
            Overall(name="run", start=first, end=last, upright=False),
            *(
                Overall(name=name, start=low, end=high, upright=True)
                for name, low, high in upright
                if high - low >= 0.5
            ),
            Overall(name="height", start=0.0, end=top, upright=True, rank=1),
        ),
    )


def _stretch(stretch: Stretch, section: Section) -> Stroke:
    (x1, z1), (x2, z2) = stretch.start, stretch.end
    names, pitch = " ".join(stretch.facets), f"{abs(stretch.pitch_deg):.1f}°"
    length = ((x2 - x1) ** 2 + (z2 - z1) ** 2) ** 0.5
    between = [_named(c) for c in section.crossings if c.at in (stretch.start, stretch.end)]
    return Stroke(
        # From right to left, so that the words stand above the roof.
        start=stretch.end,
        end=stretch.start,
        weight=Weight.CUT,
        words=(f"{names} · {pitch} · {spaced(length)}", f"{names} {pitch}", pitch),
        note=" · ".join((f"{names}, pitch along the section {pitch}", f"{length:.1f}", *between)),
    )


def _named(crossing: Crossing) -> str:
    return f"{crossing.kind.value} at {crossing.at[0]:.1f}, {crossing.at[1]:.1f} high"


def _wall(wall: Wall) -> Stroke:
    words = " and ".join(kind.value for kind in wall.kinds)
    note = f"below the {words}: {wall.top[1]:.1f} above the floor"
    return Stroke(start=wall.foot, end=wall.top, weight=Weight.OUTER, note=note)


def _is_house(wall: Wall) -> bool:
    return LineKind.HOUSE_WALL in wall.kinds


def _house(wall: Wall, section: Section) -> Patch:
    """Return the house wall, on the side of its face that the roof is not."""
    middle = sum(s.start[0] + s.end[0] for s in section.stretches) / 2 / len(section.stretches)
    face = wall.top[0]
    back = face + (_THICK_MM if face > middle else -_THICK_MM)
    high = wall.top[1] + _ABOVE_MM
    corners = ((face, 0.0), (back, 0.0), (back, high), (face, high))
    return Patch(corners=corners, colour=plan_picture.WALL_COLOUR)


def _steps(section: Section) -> list[Stroke]:
    """Return the upright faces where the profile steps."""
    return [
        Stroke(start=a, end=b, weight=Weight.OUTER, note=f"upright step {abs(b[1] - a[1]):.1f}")
        for run in section.profiles
        for a, b in pairwise(run)
        if abs(a[0] - b[0]) < 0.02
    ]
