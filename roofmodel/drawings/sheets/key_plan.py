"""The roof from above, house wall at the top: what each facet is, and where each board lies.

The plans stand side by side, facets and lines first, then the boards of each sheet material.
"""

from dataclasses import dataclass

from shapely.geometry.base import BaseGeometry

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.parts.part import Part
from roofmodel.drawings.paper import layer, lettering
from roofmodel.drawings.paper.heading import Heading
from roofmodel.drawings.paper.lettering import Place, Words
from roofmodel.drawings.paper.pen import Pen, Spot
from roofmodel.drawings.sheets import board_plan
from roofmodel.drawings.sheets.paper_job import PaperJob
from roofmodel.drawings.sheets.part_drawing import without
from roofmodel.drawings.views import plan_view
from roofmodel.drawings.views.plan_view import BESIDE_MM, WALL_MM, PlanView
from roofmodel.shapes.roof import DATUM, Facet, Line, Roof

_TITLE_MM, _NOTE_MM = 140.0, 80.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Heights:
    """How high words on facets are at full size [mm], and the least scales they may shrink to."""

    name_mm: float
    fact_mm: float
    length_mm: float
    smallest: float
    smallest_facts: float


FULL = Heights(name_mm=150.0, fact_mm=95.0, length_mm=75.0, smallest=0.5, smallest_facts=0.02)
"""On drawings at full size, which are looked at closer where they are small."""


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyPlan:
    """The roof, and the parts of each sheet material that lie on it.

    ``surfaces`` are the roofs the parts of each material lie on, where a layer has its own.
    """

    heading: Heading
    roof: Roof
    boards: tuple[tuple[SheetGood, tuple[Part, ...]], ...]
    surfaces: tuple[Roof, ...] = ()

    @property
    def views(self) -> tuple[PlanView, ...]:
        """The plans from left to right: facets and lines, then one of each material."""
        step = PlanView(roof=self.roof, across_mm=0.0).width_mm + 3.0 * BESIDE_MM
        count = len(self.boards) + 1
        roofs = (self.roof, *(self.surfaces or [self.roof] * len(self.boards)))
        return tuple(PlanView(roof=roofs[n], across_mm=step * n) for n in range(count))

    @property
    def extents_mm(self) -> tuple[Spot, Spot]:
        """Lower left and upper right corner of the drawing [mm]."""
        last = self.views[-1]
        low = -last.depth_mm - BESIDE_MM - 2.0 * lettering.LINE_STEP * _NOTE_MM
        high = 3.0 * WALL_MM + 3.0 * lettering.LINE_STEP * _TITLE_MM
        return (-1.5 * BESIDE_MM, low), (last.across_mm + last.width_mm + 1.5 * BESIDE_MM, high)


def of_job(job: PaperJob) -> KeyPlan:
    """Return the key plan of a job, every layer's parts on the layer's own surface."""
    code = job.heading.job_code
    return KeyPlan(
        heading=job.heading,
        roof=job.roof,
        boards=tuple((plan.good, plan.parts) for plan in job.plans),
        surfaces=tuple(plan.owners[code].surface for plan in job.plans),
    )


def draw(plan: KeyPlan, pen: Pen) -> None:
    """Draw all plans and their heading."""
    first, *others = plan.views
    plan_view.draw_house_wall(first, pen)
    draw_facets(first, pen)
    _write_under("FACETS AND LINES. LENGTHS ARE TRUE LENGTHS IN MM.", first, pen)
    for view, (good, parts) in zip(others, plan.boards, strict=True):
        plan_view.draw_house_wall(view, pen)
        board_plan.draw(good, parts, view, pen)
        _write_under(f"{good.short}, {len(parts)} PIECES. {good.name.upper()}.", view, pen)
    _write_heading(plan.heading, pen)


def draw_facets(view: PlanView, pen: Pen, *, heights: Heights = FULL) -> None:
    """Draw facets with name, pitch and area, and every line with its kind and true length."""
    room = {facet.name: plan_view.inside(view.facet(facet)) for facet in view.roof.facets}
    for line in view.roof.lines:
        name = line.facets[0]
        room[name] = _draw_line(line, room[name], view, pen, heights)
    for facet in view.roof.facets:
        lines, left = _facet_words(facet, heights), room[facet.name]
        place = plan_view.place_in(lines, left, smallest=max(0.45, heights.smallest_facts))
        place = place or _at_any_size(lines, left, heights.smallest_facts)
        if place is None:
            # Without room for pitch and area the facet keeps its name.
            lines = lines[:1]
            place = _at_any_size(lines, left, heights.smallest_facts)
        if place is not None:
            lettering.write_block(lines, place, layer=layer.ROOF_TEXT, pen=pen)
            left = without(left, [lettering.box(lettering.block_size_mm(lines), place)])
        plan_view.draw_up_slope(facet, left, pen)


def _draw_line(
    line: Line, room: BaseGeometry, view: PlanView, pen: Pen, heights: Heights
) -> BaseGeometry:
    """Draw a line and write its kind and length on the facet beside it; return the room left."""
    start, end = (view.spot(x, y) for x, y, _ in (line.start, line.end))
    pen.line([start, end], layer=layer.ROOF_LINE)
    words = Words(f"{line.kind.value.upper()} {line.length_mm:.1f}", heights.length_mm)
    side = (start, end) if _on_left(start, end, room) else (end, start)
    place = lettering.along_side(words, side, room, smallest=heights.smallest)
    if place is None:
        return room
    lettering.write_block([words], place, layer=layer.ROOF_LENGTH, pen=pen)
    return without(room, [lettering.box(lettering.block_size_mm([words]), place)])


def _on_left(start: Spot, end: Spot, facet: BaseGeometry) -> bool:
    """Return whether a facet lies to the left of the line from start to end."""
    x, y = end[0] - start[0], end[1] - start[1]
    middle = facet.centroid
    return bool(x * (middle.y - start[1]) - y * (middle.x - start[0]) > 0.0)


def _facet_words(facet: Facet, heights: Heights) -> tuple[Words, ...]:
    return (
        Words(facet.name, heights.name_mm),
        Words(f"{facet.pitch_deg:.2f} DEG", heights.fact_mm),
        Words(f"{facet.area_m2:.3f} M2", heights.fact_mm),
    )


def _at_any_size(lines: tuple[Words, ...], room: BaseGeometry, smallest: float) -> Place | None:
    size = lettering.block_size_mm(lines)
    return lettering.room(size, room, turns_deg=(0.0, 90.0), smallest=smallest)


def _write_under(note: str, view: PlanView, pen: Pen) -> None:
    height = min(_NOTE_MM, (view.width_mm + BESIDE_MM) / Words(note, 1.0).length_mm)
    up = -view.depth_mm - BESIDE_MM - lettering.LINE_STEP * height
    _write(Words(note, height), (view.across_mm, up), pen)


def _write_heading(heading: Heading, pen: Pen) -> None:
    lines = (
        Words(f"Datum: {DATUM}.".upper(), _NOTE_MM),
        Words("PLAN FROM ABOVE. HOUSE WALL AT THE TOP. ARROWS POINT UP THE SLOPE.", _NOTE_MM),
        Words(f"{heading.words}: KEY PLAN".upper(), _TITLE_MM),
    )
    for number, words in enumerate(lines):
        up = 3.0 * WALL_MM + number * lettering.LINE_STEP * _TITLE_MM
        _write(words, (-BESIDE_MM, up), pen)


def _write(words: Words, at: Spot, pen: Pen) -> None:
    pen.text(words.text, at, height_mm=words.height_mm, turn_deg=0.0, layer=layer.TITLE)
