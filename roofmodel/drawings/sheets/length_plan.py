"""Where every length lies on the roof, seen from above: one plan for each kind, all marked."""

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass

import shapely
from shapely.geometry.base import BaseGeometry

from roofmodel.drawings.paper import layer, lettering
from roofmodel.drawings.paper.heading import Heading
from roofmodel.drawings.paper.lettering import Words
from roofmodel.drawings.paper.pen import Pen, Spot
from roofmodel.drawings.sheets.paper_job import CutLengths, PaperJob
from roofmodel.drawings.views import plan_view
from roofmodel.drawings.views.plan_view import BESIDE_MM, WALL_MM, PlanView
from roofmodel.foundation import fingerprint
from roofmodel.quantities.runs import Run
from roofmodel.shapes.bars.members import Members
from roofmodel.shapes.roof import Roof

_TITLE_MM, _LETTERS_MM = 140.0, 75.0
_SMALLEST = 0.72
"""Letters of 2.5 mm shrink to 1.8 mm, the least that a drawing has (ISO 3098, from memory)."""

_IDENTITY = re.compile(rf"-[A-Z][{fingerprint.LETTERS}]{{4}}$")
"""What ends the mark of a piece that is cut: its method, and what names its shape."""

_ALONG = (0.5, 0.35, 0.65, 0.2, 0.8, 0.08, 0.92)
"""Where along its line a mark is tried, in parts of the line."""

_ASIDE = (0.0, 1.6, -1.6, 3.2, -3.2, 4.8, -4.8, 6.4, -6.4, 8.0, -8.0)
"""How far aside of its line a mark past the end of it is tried, in heights of its letters."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthPlan:
    """A roof and the kinds of length that lie on it; ``kept`` are the old bars that stay."""

    heading: Heading
    roof: Roof
    kinds: tuple[tuple[str, tuple[Run, ...]], ...]
    kept: Members

    @property
    def views(self) -> tuple[PlanView, ...]:
        """The plans from left to right, one of each kind."""
        step = PlanView(roof=self.roof, across_mm=0.0).width_mm + 3.0 * BESIDE_MM
        return tuple(PlanView(roof=self.roof, across_mm=step * n) for n in range(len(self.kinds)))

    @property
    def extents_mm(self) -> tuple[Spot, Spot]:
        """Lower left and upper right corner of the drawing [mm]."""
        last = self.views[-1]
        low = -last.depth_mm - BESIDE_MM - 2.0 * lettering.LINE_STEP * _LETTERS_MM
        high = 3.0 * WALL_MM + 2.0 * lettering.LINE_STEP * _TITLE_MM
        return (-1.5 * BESIDE_MM, low), (last.across_mm + last.width_mm + 1.5 * BESIDE_MM, high)


def of_job(job: PaperJob) -> LengthPlan | None:
    """Return the plan of a job's lengths; None of a job without any."""
    kinds = [(cut.name, _placed(cut)) for cut in job.lengths]
    kinds = [kind for kind in kinds if kind[1]]
    bars = _old_bars(job)
    if bars:
        kinds.insert(0, ("bars that stay", bars))
    if not kinds:
        return None
    return LengthPlan(heading=job.heading, roof=job.roof, kinds=tuple(kinds), kept=job.members)


def _placed(cut: CutLengths) -> tuple[Run, ...]:
    return tuple(run for run in cut.runs if run.ends is not None)


def _old_bars(job: PaperJob) -> tuple[Run, ...]:
    """Return the bars a method keeps, as runs, so that battens and boards are found on them."""
    if any(run.timber is not None for cut in job.lengths for run in cut.runs):
        return ()
    bars = [(bar.mark, bar.line_length_mm, (bar.start, bar.end)) for bar in job.members.bars]
    bars += [
        (bar.mark, bar.line_length_mm, (bar.line.start, bar.line.end))
        for bar in job.members.roof_bars
    ]
    return tuple(Run(mark=mark, length_mm=long, ends=ends) for mark, long, ends in bars)


def draw(plan: LengthPlan, pen: Pen) -> None:
    """Draw all plans and their heading."""
    for number in range(len(plan.kinds)):
        draw_kind(plan, number, plan.views[number], pen)
    words = Words(f"{plan.heading.words}: LENGTHS ON THE ROOF".upper(), _TITLE_MM)
    at = (-BESIDE_MM, 3.0 * WALL_MM)
    pen.text(words.text, at, height_mm=words.height_mm, turn_deg=0.0, layer=layer.TITLE)


def draw_kind(
    plan: LengthPlan,
    number: int,
    view: PlanView,
    pen: Pen,
    *,
    letters_mm: float = _LETTERS_MM,
    wall_mm: float = WALL_MM,
) -> None:
    """Draw where the lengths of one kind lie, each with its mark along it."""
    name, runs = plan.kinds[number]
    plan_view.draw_house_wall(view, pen, thick_mm=wall_mm)
    for facet in plan.roof.facets:
        pen.outline(view.facet(facet), layer=layer.ROOF_LINE)
    lines: list[tuple[str, tuple[Spot, Spot]]] = []
    for run in runs:
        assert run.ends is not None, "only lengths that lie somewhere are on the plan"
        start, end = (view.spot(x, y) for x, y, _ in run.ends)
        pen.line([start, end], layer=layer.BAR_CENTRE)
        if math.dist(start, end) >= 1.0:
            lines.append((short_mark(run.mark, plan.heading), (start, end)))
    at = (view.across_mm, -view.depth_mm - 2.0 * letters_mm)
    taken = [_room(at, (1.0, 0.0), (view.width_mm, letters_mm))]
    # The short ones first: they have the fewest places to be marked at.
    for mark, ends in sorted(lines, key=lambda line: math.dist(*line[1])):
        room = _mark(mark, ends, letters_mm, taken, pen)
        taken += [] if room is None else [room]
    bare = len(lines) + 1 - len(taken)
    without = f" ({bare} NOT MARKED)" if bare else ""
    note = f"{name.upper()}, {len(runs)}{without}"
    pen.text(note, at, height_mm=letters_mm, turn_deg=0.0, layer=layer.TITLE)


def short_mark(mark: str, heading: Heading) -> str:
    """Return what of a mark is needed within one job and set, such as ``N-F1-R2``."""
    mark = mark.removeprefix(f"{heading.job_code}-")
    return _IDENTITY.sub("", mark) if heading.set_id else mark


def _mark(
    mark: str,
    ends: tuple[Spot, Spot],
    letters_mm: float,
    taken: Sequence[BaseGeometry],
    pen: Pen,
) -> BaseGeometry | None:
    """Write a mark along its line where it lies on no other; return its room, None without one."""
    (x0, y0), (x1, y1) = ends
    long = math.dist(*ends)
    turn = lettering.upright_deg(math.degrees(math.atan2(y1 - y0, x1 - x0)))
    way = (math.cos(math.radians(turn)), math.sin(math.radians(turn)))
    fitting = min(1.0, max(_SMALLEST, long / Words(mark, letters_mm).length_mm))
    for scale in dict.fromkeys((fitting, _SMALLEST)):
        words = Words(mark, letters_mm * scale)
        high, wide = words.height_mm, words.length_mm
        sides: tuple[float, ...] = (0.35 * high, -1.35 * high)
        if way[0] > 0.99 and max(y0, y1) > -2.0 * high:
            sides = sides[1:]  # Beside the house wall a mark stands below its line.
        for share in _ALONG:
            middle = (x0 + (x1 - x0) * share, y0 + (y1 - y0) * share)
            for off in sides:
                at = (
                    middle[0] - way[0] * wide / 2.0 - way[1] * off,
                    middle[1] - way[1] * wide / 2.0 + way[0] * off,
                )
                room = _room(at, way, (wide, high))
                if not any(room.intersects(other) for other in taken):
                    pen.text(
                        words.text, at, height_mm=high, turn_deg=turn, layer=layer.mark("27BAR")
                    )
                    return room
    return _mark_beyond(Words(mark, letters_mm * _SMALLEST), ends, taken, pen)


def _mark_beyond(
    words: Words, ends: tuple[Spot, Spot], taken: Sequence[BaseGeometry], pen: Pen
) -> BaseGeometry | None:
    """Write a mark past an end of its line, with a thin line to it; return its room, or None.

    The first end is the foot, outside the roof for whatever starts at an eaves.
    """
    high, wide = words.height_mm, words.length_mm
    for here, other in (ends, ends[::-1]):
        long = math.dist(here, other)
        out = ((here[0] - other[0]) / long, (here[1] - other[1]) / long)
        turn = lettering.upright_deg(math.degrees(math.atan2(out[1], out[0])))
        way = (math.cos(math.radians(turn)), math.sin(math.radians(turn)))
        back = wide if out[0] * way[0] + out[1] * way[1] < 0.0 else 0.0
        for step in _ASIDE:
            near = (
                here[0] + out[0] * 1.2 * high - way[1] * step * high,
                here[1] + out[1] * 1.2 * high + way[0] * step * high,
            )
            at = (
                near[0] - way[0] * back + way[1] * 0.4 * high,
                near[1] - way[1] * back - way[0] * 0.4 * high,
            )
            room = _room(at, way, (wide, high))
            if not any(room.intersects(other_room) for other_room in taken):
                pen.line([here, near], layer=layer.BAR_CENTRE)
                pen.text(words.text, at, height_mm=high, turn_deg=turn, layer=layer.mark("27BAR"))
                return room
    return None


def _room(at: Spot, way: Spot, size: Spot) -> BaseGeometry:
    """Return what a line of letters takes up, with a quarter of a letter below it."""
    wide, high = size
    corners = [
        (at[0] + way[0] * along - way[1] * up, at[1] + way[1] * along + way[0] * up)
        for along, up in (
            (0.0, -0.3 * high),
            (wide, -0.3 * high),
            (wide, 1.1 * high),
            (0.0, 1.1 * high),
        )
    ]
    return shapely.Polygon(corners)
