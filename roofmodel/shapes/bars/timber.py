"""A new timber as the bench cuts it: its length from long point to long point, and both ends.

Every end is upright on the roof. Lying on the bench such a cut leans by the timber's own pitch off
square across its depth, at both ends the same way: the sides are parallelograms, and the timber is
longer over all than along its top by depth · tan(pitch). Where it meets a hip, valley or ridge
askew, the cut also runs at an angle over its top, and one side reaches half the width times the
cotangent further than the centre line.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from roofmodel.geometry.plane import Point
from roofmodel.shapes.bars.bar import Bar, BarKind
from roofmodel.shapes.bars.member_cut import Side, SideCut, member_side_cut_deg
from roofmodel.shapes.bars.roof_bar import RoofBar
from roofmodel.shapes.hand import Hand
from roofmodel.shapes.roof import Facet, Line, LineKind, Roof

_SQUARE_DEG = 89.995
"""Cuts nearer to square than they are printed are square."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cheek:
    """One cut over the top of an end: what it lies against, its angle there, and its short side.

    ``on_top_deg`` is the angle on the top face between the timber's length and the cut, 90 square
    across; ``blade_deg`` how far a saw that follows the upright line leans off square. ``short`` is
    the side, looking up the slope, on which the cut makes the timber shorter.
    """

    against: str
    on_top_deg: float
    blade_deg: float
    short: Side

    def beyond_mm(self, width_mm: float) -> float:
        """Return how far the longer side reaches beyond the centre line [mm]."""
        return width_mm / 2.0 / math.tan(math.radians(self.on_top_deg))

    @property
    def words(self) -> str:
        """What the bench is told."""
        if self.short == "none":
            return f"square across, to the {self.against}"
        return (
            f"{self.on_top_deg:.2f}° on the top, blade {self.blade_deg:.2f}° off square, shorter "
            f"on the {self.short}, to the {self.against}"
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Timber:
    """One new timber, its marks and sizes, and how its ends are cut.

    ``net_mm`` runs along the centre line of its top, cut to cut; ``over_all_mm`` from long point to
    long point. ``backings`` are the bevels of the top of a hip or valley towards each facet.
    ``start`` and ``end`` are the ends of its line on the roof.
    """

    mark: str
    kind: BarKind
    width_mm: float
    depth_mm: float
    pitch_deg: float
    net_mm: float
    over_all_mm: float
    foot: tuple[Cheek, ...]
    head: tuple[Cheek, ...]
    hand: Hand
    backings: tuple[tuple[str, float], ...]
    start: Point
    end: Point

    @property
    def slant_mm(self) -> float:
        """How far the lower edge of an end lies behind the upper one along the timber [mm]."""
        return self.depth_mm * math.tan(math.radians(self.pitch_deg))

    @property
    def cut_like(self) -> object:
        """What two timbers share that are cut alike."""
        sizes = (self.width_mm, self.depth_mm, round(self.net_mm, 1), round(self.pitch_deg, 2))
        ends = tuple(
            tuple((one.against, round(one.on_top_deg, 2), one.short) for one in end)
            for end in (self.foot, self.head)
        )
        return (self.kind, *sizes, ends, tuple(round(angle, 2) for _, angle in self.backings))

    @property
    def facts(self) -> tuple[str, ...]:
        """What the bench reads, line by line."""
        plumb = f"upright cut {self.pitch_deg:.2f}° off square" if self.pitch_deg > 0.005 else ""
        hand = {"L": ", left hand", "R": ", right hand", "N": ""}[self.hand]
        found = [
            f"{self.kind.value} {self.width_mm:g} × {self.depth_mm:g}: net {self.net_mm:.1f}, over "
            f"all {self.over_all_mm:.1f} mm{hand}"
        ]
        for name, cheeks in (("Foot", self.foot), ("Head", self.head)):
            first, *others = [one.words for one in cheeks] or ["square"]
            found.append(f"{name}: {', '.join(filter(None, (plumb, first)))}")
            found += [f"{name}: and {words}" for words in others]
        if self.backings:
            told = ", ".join(f"{angle:.2f}° to {facet}" for facet, angle in self.backings)
            found.append(f"Backing of the top: {told}")
        return tuple(found)


def of_bar(bar: Bar, *, depth_mm: float) -> Timber:
    """Return a rafter, jack or starter as it is cut from timber so deep [mm]."""
    foot, head = (_cheeks(end.side_cuts) for end in (bar.foot, bar.head))
    return Timber(
        mark=bar.mark,
        kind=bar.kind,
        width_mm=bar.width_mm,
        depth_mm=depth_mm,
        pitch_deg=bar.pitch_deg,
        net_mm=bar.net_length_mm,
        over_all_mm=_over_all_mm(
            bar.net_length_mm, bar.pitch_deg, (bar.width_mm, depth_mm), (foot, head)
        ),
        foot=foot,
        head=head,
        hand=bar.hand,
        backings=(),
        start=bar.start,
        end=bar.end,
    )


def of_line(bar: RoofBar, roof: Roof, *, depth_mm: float) -> Timber:
    """Return a hip, valley, ridge or starter along a line as it is cut from timber so deep [mm]."""
    pitch = bar.line.pitch_deg
    foot: list[Cheek] = []
    if bar.kind in (BarKind.HIP, BarKind.VALLEY) and bar.line.joint is not None:
        # Its foot ends in two cheeks along the eaves of both facets, the centre line the longest.
        for name, turn in zip(bar.line.facets, bar.line.joint.plan_angles_deg, strict=True):
            on_top = member_side_cut_deg(pitch, min(turn, 90.0))
            foot.append(_cheek("eaves", on_top, pitch, _side_of(bar.line, roof.facet(name))))
    against = LineKind.RIDGE.value if bar.head_shortening_mm else "next timber"
    head = [_cheek(against, on_top, pitch, side) for on_top, side in bar.head_cheeks]
    return Timber(
        mark=bar.mark,
        kind=bar.kind,
        width_mm=bar.width_mm,
        depth_mm=depth_mm,
        pitch_deg=pitch,
        net_mm=bar.net_length_mm,
        over_all_mm=_over_all_mm(bar.net_length_mm, pitch, (bar.width_mm, depth_mm), (foot, head)),
        foot=tuple(foot),
        head=tuple(head),
        hand=_hand(foot, head),
        backings=tuple(zip(bar.line.facets, bar.backings_deg, strict=False)),
        start=bar.line.start,
        end=bar.line.end,
    )


def _over_all_mm(
    net_mm: float,
    pitch_deg: float,
    section_mm: tuple[float, float],
    ends: Sequence[Sequence[Cheek]],
) -> float:
    width_mm, depth_mm = section_mm
    slant_mm = depth_mm * math.tan(math.radians(pitch_deg))
    # Two cheeks meet in a point on the centre line; one alone reaches beyond it on one side.
    further = [end[0].beyond_mm(width_mm) for end in ends if len(end) == 1]
    return net_mm + slant_mm + sum(further)


def _cheeks(cuts: Sequence[SideCut]) -> tuple[Cheek, ...]:
    return tuple(
        Cheek(
            against=cut.meets.value,
            on_top_deg=cut.on_face_deg,
            blade_deg=cut.blade_deg,
            short="none" if cut.on_face_deg > _SQUARE_DEG else cut.short,
        )
        for cut in cuts
    )


def _cheek(against: str, on_top_deg: float, pitch_deg: float, side: Side) -> Cheek:
    if on_top_deg > _SQUARE_DEG:
        return Cheek(against=against, on_top_deg=90.0, blade_deg=0.0, short="none")
    turn = math.atan(math.tan(math.radians(on_top_deg)) / math.cos(math.radians(pitch_deg)))
    blade_deg = 90.0 - math.degrees(turn)
    return Cheek(against=against, on_top_deg=on_top_deg, blade_deg=blade_deg, short=side)


def _side_of(line: Line, facet: Facet) -> Side:
    """Return on which side of a line, looking up it, a facet lies."""
    (ax, ay, _), (bx, by, _) = line.start, line.end
    x, y, _ = facet.centre
    return "left" if (bx - ax) * (y - ay) - (by - ay) * (x - ax) > 0.0 else "right"


def _hand(foot: Sequence[Cheek], head: Sequence[Cheek]) -> Hand:
    """Return L for a timber cut away more at its left looking up, R for its mirror image."""
    lean = sum(
        {"left": 1.0, "right": -1.0, "none": 0.0}[one.short] * (90.0 - one.on_top_deg)
        for one in (*foot, *head)
    )
    return "N" if abs(lean) < 0.01 else "L" if lean > 0.0 else "R"
