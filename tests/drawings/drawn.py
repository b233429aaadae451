"""Roofs, sheets and a pen that writes down its strokes, for the tests of this room."""

from dataclasses import dataclass, field, replace

import shapely

from roofmodel.buildups import catalogue
from roofmodel.cutting.laying.from_facets import problem_for
from roofmodel.cutting.laying.rule import rules_for
from roofmodel.cutting.parts.layout import Layout, Placed
from roofmodel.cutting.parts.part import Part
from roofmodel.cutting.plan import Plan
from roofmodel.cutting.proof.bound import Bound
from roofmodel.cutting.rack.offcut import rectangle as rack_rectangle
from roofmodel.drawings.paper.heading import Heading
from roofmodel.drawings.paper.release import Release
from roofmodel.drawings.sheets import cut_on_facet
from roofmodel.drawings.sheets.cut_on_facet import CutPlan, Owner, Stock
from roofmodel.drawings.sheets.cutting_sheet import CuttingSheet
from roofmodel.drawings.sheets.paper_job import CuttingSet, PaperJob
from roofmodel.shapes.bars.members import Members
from roofmodel.shapes.gable import Gable
from roofmodel.shapes.hipped import Hipped
from roofmodel.shapes.lean_to import LeanTo
from roofmodel.shapes.polygonal_end import PolygonalEnd

EAVES_MM = 2100.0
THREE_FACET_END = PolygonalEnd(width_mm=3500, projection_mm=3600, pitch_deg=25, end_facets=3)
SHAPES = {
    "lean-to": LeanTo(width_mm=4000, projection_mm=2800, pitch_deg=15),
    "gable": Gable(width_mm=3800, projection_mm=4200, left_pitch_deg=30, right_pitch_deg=30),
    "hipped": Hipped(
        width_mm=3000,
        projection_mm=3400,
        left_pitch_deg=25,
        front_pitch_deg=35,
        right_pitch_deg=25,
    ),
    "three-facet end": THREE_FACET_END,
    "five-facet end": PolygonalEnd(width_mm=4200, projection_mm=4500, pitch_deg=25, end_facets=5),
}
HEADING = Heading(job_code="J04", revision="A")


def roof_of(shape=THREE_FACET_END):
    return shape.roof(eaves_height_mm=EAVES_MM)


def good(code="BRD-OSB18"):
    """Return a sheet of the catalogue, laid up to the wall."""
    return replace(catalogue.shipped().sheet_goods()[code], wall_gap_mm=0.0)


def parts_of(roof, material=None):
    return problem_for(roof.facets, material or good(), job_code="J04")[0].parts


def part(corners_mm, mark="J04-F1-C1P1-OSB18-N", *, bevels_deg=None, may_turn_over=True):
    """Return a part of the given corners, on the facet its mark names, at the facet's origin."""
    return Part(
        mark=mark,
        facet=mark.split("-")[1],
        material="BRD-OSB18",
        corners=tuple((round(x * 10), round(y * 10)) for x, y in corners_mm),
        bevels_deg=bevels_deg or (0.0,) * len(corners_mm),
        at_mm=(0.0, 0.0),
        may_turn_deg=(0, 180),
        may_turn_over=may_turn_over,
    )


def rectangle(length_mm, width_mm, mark="J04-F1-C1P1-OSB18-N"):
    return part([(0, 0), (length_mm, 0), (length_mm, width_mm), (0, width_mm)], mark)


def placed(one, x_mm=0.0, y_mm=0.0, *, turned_deg=0, turned_over=False, sheet_no=1):
    return Placed(
        part=one,
        sheet_no=sheet_no,
        x_mm=x_mm,
        y_mm=y_mm,
        turned_deg=turned_deg,
        turned_over=turned_over,
    )


def in_rows(parts, material):
    """Return the parts laid in rows, every other one turned; good to draw, not good at saving."""
    laid, sheet, x, y, row = [], 1, 0.0, 0.0, 0.0
    for number, one in enumerate(sorted(parts, key=lambda p: (-p.width_tenths, p.mark))):
        length, width = one.length_tenths / 10, one.width_tenths / 10
        if x + length > material.length_mm:
            x, y, row = 0.0, y + row + material.kerf_mm, 0.0
        if y + width > material.width_mm:
            sheet, x, y, row = sheet + 1, 0.0, 0.0, 0.0
        laid.append(placed(one, x, y, turned_deg=180 * (number % 2), sheet_no=sheet))
        x, row = x + length + material.kerf_mm, max(row, width)
    return Layout(placed=tuple(laid))


def sheet_of(*laid, roof=None, material=None, number=1, count=1, kept=(), cuts=()):
    material = material or good()
    roof = roof or roof_of()
    stock = Stock(
        number=number,
        count=count,
        outline_mm=rack_rectangle(material.length_mm, material.width_mm),
        placed=tuple(laid),
        kept=tuple(kept),
        cuts=tuple(cuts),
    )
    jobs = {one.part.mark.split(f"-{one.part.facet}-")[0] for one in laid}
    owners = {job: Owner(heading=HEADING, surface=roof) for job in jobs}
    plan = CutPlan(good=material, stocks=(stock,), owners=owners, sentence="")
    return CuttingSheet(heading=HEADING, plan=plan, stock=stock)


def sheets_of(roof, material=None):
    material = material or good()
    layout = in_rows(parts_of(roof, material), material)
    return [
        sheet_of(*layout.on_sheet(n), roof=roof, material=material, number=n, count=layout.sheets)
        for n in range(1, layout.sheets + 1)
    ]


def plan_of(roof, code="BRD-OSB18", job_code="J04"):
    """Return a plan laid in rows: a whole one, found at once."""
    material = good(code)
    problem, notes = problem_for(roof.facets, material, job_code=job_code)
    return Plan(
        good=material,
        problem=problem,
        layout=in_rows(problem.parts, material),
        bound=Bound(sheets=1, reason="by area"),
        claim=rules_for(material).claim,
        notes=notes,
        net_area_m2=roof.area_m2,
    )


def set_of(roof, plans, *, job_code="J04", revision="A", issued=None, release=None):
    """Return what the papers of plans on one roof are drawn from."""
    release = release or Release()
    heading = Heading(job_code=job_code, revision=revision, issued=issued, stamp=release.stamp)
    owner = Owner(heading=heading, surface=roof)
    made = tuple(
        cut_on_facet.of_plan(p, owner, rack_prefix=f"{job_code}-{revision}") for p in plans
    )
    job = PaperJob(
        heading=heading,
        title="",
        method="Build round the bars",
        roof=roof,
        members=Members(),
        plans=made,
        release=release,
    )
    return CuttingSet(heading=heading, title="", plans=made, jobs=(job,), release=release)


@dataclass(frozen=True)
class Stroke:
    """An outline or a line."""

    spots: list
    layer: str

    @property
    def area(self):
        return shapely.Polygon(self.spots)


@dataclass(frozen=True)
class Text:
    """One line of text; `box` is the room its letters take at one letter height each."""

    words: str
    at: tuple
    height_mm: float
    turn_deg: float
    layer: str

    @property
    def box(self):
        length = 0.8 * self.height_mm * len(self.words)
        flat = shapely.box(0.0, 0.0, length, self.height_mm)
        turned = shapely.affinity.rotate(flat, self.turn_deg, origin=(0.0, 0.0))
        return shapely.affinity.translate(turned, *self.at)


@dataclass
class RecordingPen:
    """Keeps what was drawn."""

    outlines: list = field(default_factory=list)
    lines: list = field(default_factory=list)
    texts: list = field(default_factory=list)

    def outline(self, corners, *, layer):
        self.outlines.append(Stroke(list(corners), layer.name))

    def line(self, spots, *, layer):
        self.lines.append(Stroke(list(spots), layer.name))

    def text(self, words, at, *, height_mm, turn_deg, layer):
        self.texts.append(Text(words, at, height_mm, turn_deg, layer.name))

    def outlines_on(self, layer_name):
        return [stroke for stroke in self.outlines if stroke.layer == layer_name]

    def lines_on(self, layer_name):
        return [stroke for stroke in self.lines if stroke.layer == layer_name]

    def said(self):
        return [text.words for text in self.texts]

    def text_saying(self, start):
        found = [text for text in self.texts if text.words.startswith(start)]
        assert found, f"{start!r} is not among {self.said()}"
        return found[0]


def for_cutting(whole, approved="invented surveyor, 2026-11-02"):
    """Return a set as it is once every gate that binds has passed and somebody has released it."""
    release = Release(approved=approved, content=whole.release.content)

    def headed(one):
        return replace(one, heading=replace(one.heading, stamp=release.stamp))

    def planned(plan):
        owners = {code: headed(owner) for code, owner in plan.owners.items()}
        return replace(plan, owners=owners)

    jobs = tuple(
        replace(headed(job), release=release, plans=tuple(map(planned, job.plans)))
        for job in whole.jobs
    )
    return replace(
        headed(whole), release=release, plans=tuple(map(planned, whole.plans)), jobs=jobs
    )
