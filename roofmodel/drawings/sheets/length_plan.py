"""Where every length lies on the roof, seen from above: one plan for each kind, all marked."""

import math
from dataclasses import dataclass

from roofmodel.drawings.paper import layer, lettering
from roofmodel.drawings.paper.heading import Heading
from roofmodel.drawings.paper.lettering import Words
from roofmodel.drawings.paper.pen import Pen, Spot
from roofmodel.drawings.sheets.paper_job import CutLengths, PaperJob
from roofmodel.drawings.views import plan_view
from roofmodel.drawings.views.plan_view import BESIDE_MM, WALL_MM, PlanView
from roofmodel.quantities.runs import Run
from roofmodel.shapes.bars.members import Members
from roofmodel.shapes.roof import Roof

_TITLE_MM, _LETTERS_MM = 140.0, 75.0
_SMALLEST = 0.6


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
    for run in runs:
        assert run.ends is not None, "only lengths that lie somewhere are on the plan"
        start, end = (view.spot(x, y) for x, y, _ in run.ends)
        pen.line([start, end], layer=layer.BAR_CENTRE)
        _mark(short_mark(run.mark, plan.heading), (start, end), letters_mm, pen)
    note = f"{name.upper()}, {len(runs)}"
    at = (view.across_mm, -view.depth_mm - 2.0 * letters_mm)
    pen.text(note, at, height_mm=letters_mm, turn_deg=0.0, layer=layer.TITLE)


def short_mark(mark: str, heading: Heading) -> str:
    """Return what of a mark is needed within one job and set, such as ``N-F1-R2``."""
    mark = mark.removeprefix(f"{heading.job_code}-")
    return mark.removesuffix(f"-{heading.set_id}") if heading.set_id else mark


def _mark(mark: str, ends: tuple[Spot, Spot], letters_mm: float, pen: Pen) -> None:
    """Write a mark along its line, beside the middle of it."""
    (x0, y0), (x1, y1) = ends
    long = math.dist(*ends)
    if long < 1.0:
        return
    scale = min(1.0, max(_SMALLEST, long / Words(mark, letters_mm).length_mm))
    words = Words(mark, letters_mm * scale)
    turn = lettering.upright_deg(math.degrees(math.atan2(y1 - y0, x1 - x0)))
    along = (math.cos(math.radians(turn)), math.sin(math.radians(turn)))
    off = 0.35 * words.height_mm
    if along[0] > 0.99 and max(y0, y1) > -2.0 * words.height_mm:
        off = -1.35 * words.height_mm  # Beside the house wall a mark stands below its line.
    at = (
        (x0 + x1) / 2.0 - along[0] * words.length_mm / 2.0 - along[1] * off,
        (y0 + y1) / 2.0 - along[1] * words.length_mm / 2.0 + along[0] * off,
    )
    pen.text(words.text, at, height_mm=words.height_mm, turn_deg=turn, layer=layer.mark("27BAR"))
