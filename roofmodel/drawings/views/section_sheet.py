"""Sections for the paper set: the whole roof out from the wall and along it, and the layers."""

import math
from collections.abc import Iterator, Sequence

from roofmodel.drawings.paper import layer, lettering
from roofmodel.drawings.paper.lettering import Words
from roofmodel.drawings.paper.pen import Pen, Spot
from roofmodel.drawings.views import cross_section, stack_section
from roofmodel.drawings.views.cross_section import Section
from roofmodel.drawings.views.stack_section import StackSection
from roofmodel.shapes.roof import Roof

_LETTERS_MM, _MARGIN_MM = 60.0, 350.0
_BEYOND_MM = 10.0
"""How far a section line runs past the roof."""
_LABEL_MM = 9.0


def cuts(roof: Roof) -> Iterator[tuple[str, Section]]:
    """Yield the roof cut through the middle, out from the wall and along it, each with its name."""
    corners = [corner for facet in roof.facets for corner in facet.corners]
    low = [min(c[axis] for c in corners) - _BEYOND_MM for axis in (0, 1)]
    high = [max(c[axis] for c in corners) + _BEYOND_MM for axis in (0, 1)]
    across, out = (low[0] + high[0]) / 2.0, (low[1] + high[1]) / 2.0
    yield (
        "Section out from the wall",
        cross_section.cut(roof, (across, low[1]), (across, high[1])),
    )
    yield (
        "Section along the wall",
        cross_section.cut(roof, (high[0], out), (low[0], out)),
    )


def extents_mm(section: Section) -> tuple[Spot, Spot]:
    """Return the lower left and upper right corner of a roof section [mm]."""
    top = max(spot[1] for profile in section.profiles for spot in profile)
    return (-_MARGIN_MM, -_MARGIN_MM), (section.length_mm + _MARGIN_MM, top + _MARGIN_MM)


def draw(section: Section, pen: Pen) -> None:
    """Draw profile, walls and floor, with pitches along the slopes and heights at the lines."""
    for profile in section.profiles:
        pen.line(profile, layer=layer.ROOF_LINE)
    ends = [profile[i] for profile in section.profiles for i in (0, -1)]
    left, right = min(x for x, _ in ends), max(x for x, _ in ends)
    for x, top in {min(ends), max(ends)}:
        pen.line([(x, 0.0), (x, top)], layer=layer.HOUSE_WALL)
    pen.line([(left - 200.0, 0.0), (right + 200.0, 0.0)], layer=layer.ROOF_LINE)
    _write("FINISHED FLOOR", (left, -1.7 * _LETTERS_MM), pen)
    _pitches(section, pen)
    _heights(section, pen)


def _pitches(section: Section, pen: Pen) -> None:
    for stretch in section.stretches:
        (x0, z0), (x1, z1) = stretch.start, stretch.end
        length = math.hypot(x1 - x0, z1 - z0)
        words = Words(f"{abs(stretch.pitch_deg):.2f} DEG, {length:.1f}", _LETTERS_MM)
        if words.length_mm > length:
            continue
        turn = math.atan2(z1 - z0, x1 - x0)
        lift = 0.5 * _LETTERS_MM
        middle = ((x0 + x1) / 2.0, (z0 + z1) / 2.0)
        at = (
            middle[0] - math.cos(turn) * words.length_mm / 2.0 - math.sin(turn) * lift,
            middle[1] - math.sin(turn) * words.length_mm / 2.0 + math.cos(turn) * lift,
        )
        pen.text(
            words.text,
            at,
            height_mm=_LETTERS_MM,
            turn_deg=math.degrees(turn),
            layer=layer.ROOF_LENGTH,
        )


def _heights(section: Section, pen: Pen) -> None:
    """Write the height above the floor at every end of a slope, below it, one beside the other."""
    spots = sorted({(round(x, 1), round(z, 1)) for run in section.profiles for x, z in run})
    taken = -math.inf
    for x, z in spots:
        words = Words(f"{z:.0f}", _LETTERS_MM)
        start = max(x - words.length_mm / 2.0, taken + _LETTERS_MM)
        at = (start, z - 3.0 * _LETTERS_MM)
        _write(words.text, at, pen)
        pen.line(
            [(start + words.length_mm / 2.0, z - 1.8 * _LETTERS_MM), (x, z)],
            layer=layer.ROOF_LENGTH,
        )
        taken = start + words.length_mm


def _write(words: str, at: Spot, pen: Pen) -> None:
    pen.text(words, at, height_mm=_LETTERS_MM, turn_deg=0.0, layer=layer.ROOF_LENGTH)


def stack_extents_mm(section: StackSection) -> tuple[Spot, Spot]:
    """Return the lower left and upper right corner of a section through the layers [mm]."""
    longest = max(Words(band.words, _LABEL_MM).length_mm for band in section.bands)
    heights: Sequence[float] = (*section.label_heights_mm, -section.inside_mm, section.outside_mm)
    return (
        (section.left_mm - 60.0, min(heights) - 3.0 * lettering.LINE_STEP * _LABEL_MM),
        (section.right_mm + longest + 50.0, max(heights) + 3.0 * _LABEL_MM),
    )


def draw_stack(section: StackSection, pen: Pen) -> None:
    """Draw the section through the layers."""
    stack_section.draw(section, pen)
