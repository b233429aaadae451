"""The layers of a refit cut square across two bars, to scale: what lies where, and how deep."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from roofmodel.drawings.paper.layer import DrawingLayer
from roofmodel.drawings.paper.pen import Pen, Spot
from roofmodel.refit import depth
from roofmodel.refit.layer import Lie
from roofmodel.refit.layer_bodies import BATTEN_MM
from roofmodel.refit.refit import Refit
from roofmodel.refit.stack import Placed

SPACING_MM = 600.0
"""Bars stand so far apart where no bars are known (common practice, no source)."""
BAR_MM = 60.0
"""Width of a bar where none is known (common practice, no source)."""
SIDE_MM = 70.0
"""How far the layers are drawn beyond the two bars."""
DRAWN_MM = 320.0
"""Bars farther apart are drawn so far apart, which the section says; thicknesses stay to scale."""

_LEAST_GAP_MM, _LETTER_MM, _OFF_MM = 14.0, 9.0, 24.0

BAR_LINE = DrawingLayer("W-27BAR-E-SEC", 7, width_hundredths_mm=50)
LAYER_LINE = DrawingLayer("W-27LAY-E-SEC", 4)
LAYER_TEXT = DrawingLayer("W-27LAY-T-NAM", 7)
DATUM_LINE = DrawingLayer("W-27LAY-E-DAT", 1)
DEPTH_LINE = DrawingLayer("W-27LAY-D-DEP", 2)


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """A layer as it is cut: rectangles, (left, low, right, high) from the left bar and datum [mm].

    What lies between bars or along them is cut into several.
    """

    number: int
    category: str
    words: str
    boxes: tuple[tuple[float, float, float, float], ...]

    @property
    def middle_mm(self) -> float:
        """Middle of its thickness, from the datum [mm]."""
        return (self.boxes[0][1] + self.boxes[0][3]) / 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class StackSection:
    """Two bars with every layer in, over and under them; up is outside, 0 the datum.

    ``inside_mm`` and ``outside_mm`` are depths from the datum, ``lost_mm`` what the ceiling comes
    down below the bars. ``remark`` says how far the bars are apart, or that none are known.
    """

    bands: tuple[Band, ...]
    bars: tuple[tuple[float, float, float, float], ...]
    left_mm: float
    right_mm: float
    inside_mm: float
    outside_mm: float
    lost_mm: float
    remark: str = ""

    @property
    def label_heights_mm(self) -> tuple[float, ...]:
        """Where the labels stand, from the datum, so that none covers another [mm]."""
        return spread([band.middle_mm for band in self.bands], _LEAST_GAP_MM)


def of_refit(refit: Refit) -> StackSection:
    """Return the section through the layers of a refit, square across its bars."""
    apart_mm, width_mm, remark = _bars(refit)
    spacing_mm = min(apart_mm, DRAWN_MM)
    if spacing_mm < apart_mm:
        remark = f"{remark}, drawn closer together"
    low_mm = -refit.bar_depth_mm
    bars = tuple(
        (at - width_mm / 2.0, low_mm, at + width_mm / 2.0, 0.0) for at in (0.0, spacing_mm)
    )
    left, right = -SIDE_MM - width_mm / 2.0, spacing_mm + width_mm / 2.0 + SIDE_MM
    ends = (left, *(x for bar in bars for x in (bar[0], bar[2])), right)
    gap_mm = refit.entry.fitting_gap_mm
    bands = []
    for layer in refit.layers:
        low, high = layer.inside_mm, layer.outside_mm
        match layer.layer.lie:
            case Lie.BETWEEN:
                across = [
                    (a + gap_mm if i else a, b - gap_mm if i < 2 else b)
                    for i, (a, b) in enumerate(list(pairwise(ends))[::2])
                ]
            case Lie.ALONG:
                across = [(at - BATTEN_MM / 2, at + BATTEN_MM / 2) for at in (0.0, spacing_mm)]
            case _:
                across = [(left, right)]
        boxes = tuple((a, low, b, high) for a, b in across)
        bands.append(
            Band(
                number=layer.number,
                category=layer.material.category,
                words=layer_words(layer),
                boxes=boxes,
            )
        )
    return StackSection(
        bands=tuple(bands),
        bars=bars,
        left_mm=left,
        right_mm=right,
        inside_mm=refit.depth_inside_mm,
        outside_mm=refit.depth_outside_mm,
        lost_mm=depth.headroom_lost_mm(refit),
        remark=remark,
    )


def draw(section: StackSection, pen: Pen) -> None:
    """Draw the section with labels, datum and depths; (0, 0) is the datum over the left bar."""
    for bar in section.bars:
        pen.outline(_corners(bar), layer=BAR_LINE)
    for band in section.bands:
        for box in band.boxes:
            pen.outline(_corners(box), layer=LAYER_LINE)
    for band, height in zip(section.bands, section.label_heights_mm, strict=True):
        right = band.boxes[-1][2]
        start = (section.right_mm + _OFF_MM, height)
        pen.line([(right, band.middle_mm), start], layer=LAYER_LINE)
        at = (start[0] + _LETTER_MM / 2.0, height - _LETTER_MM / 2.0)
        pen.text(band.words, at, height_mm=_LETTER_MM, turn_deg=0.0, layer=LAYER_TEXT)
    pen.line([(section.left_mm, 0.0), (section.right_mm, 0.0)], layer=DATUM_LINE)
    for words, low, high in depths(section):
        x = section.left_mm - _OFF_MM
        pen.line([(x, low), (x, high)], layer=DEPTH_LINE)
        at = (x - _LETTER_MM / 2.0, low)
        pen.text(words, at, height_mm=_LETTER_MM, turn_deg=90.0, layer=DEPTH_LINE)


def depths(section: StackSection) -> tuple[tuple[str, float, float], ...]:
    """Return the depths that are dimensioned: words, from and to [mm from the datum]."""
    zones = [(f"inside {section.inside_mm:g}", -section.inside_mm, 0.0)]
    if section.outside_mm > 0.0:
        zones.append((f"outside {section.outside_mm:g}", 0.0, section.outside_mm))
    return tuple(zones)


def spread(heights: Sequence[float], least_gap: float) -> tuple[float, ...]:
    """Return heights moved apart as little as keeps neighbours a gap from each other."""
    order = sorted(range(len(heights)), key=lambda i: heights[i])
    placed: list[list[float]] = []
    for i in order:
        placed.append([heights[i], 1.0])
        # A crowd stands round the middle of what it crowds at.
        while len(placed) > 1 and _top(placed[-2], least_gap) > _foot(placed[-1], least_gap):
            (b, m), (a, n) = placed.pop(), placed.pop()
            placed.append([(a * n + b * m) / (n + m), n + m])
    spread_out = [0.0] * len(heights)
    places = iter(order)
    for middle, count in placed:
        for number in range(round(count)):
            spread_out[next(places)] = middle + (number - (count - 1.0) / 2.0) * least_gap
    return tuple(spread_out)


def layer_words(layer: Placed) -> str:
    """Return the name of a layer with its thickness, and how it is spaced."""
    spaced = f", {layer.layer.spacing_mm:g} c/c" if layer.layer.spacing_mm else ""
    return f"{layer.number} {layer.material.name}, {layer.thickness_mm:g} mm{spaced}"


def _top(crowd: list[float], gap: float) -> float:
    return crowd[0] + crowd[1] * gap / 2.0


def _foot(crowd: list[float], gap: float) -> float:
    return crowd[0] - crowd[1] * gap / 2.0


def _bars(refit: Refit) -> tuple[float, float, str]:
    """Return spacing and width of the bars, and what is said of them."""
    for facet in refit.covered_facets:
        known = refit.members.of_facet(facet.name)
        if known is not None:
            places = known.layout.centres_mm
            steps = sorted(b - a for a, b in pairwise(places))
            spacing = steps[len(steps) // 2] if steps else refit.members.spacing_mm(facet)
            apart = spacing or SPACING_MM
            return apart, known.widths.rafter_mm, f"bars of {facet.name} at {apart:.0f} mm"
    words = f"no bars are entered: assumed {BAR_MM:g} mm wide at {SPACING_MM:g} mm"
    return SPACING_MM, BAR_MM, words


def _corners(box: tuple[float, float, float, float]) -> list[Spot]:
    left, low, right, high = box
    return [(left, low), (right, low), (right, high), (left, high)]
