"""Parts on pages of their own: everything a bench man needs, and no mirror image."""

import math

import numpy as np
import pytest
import shapely

from roofmodel.cutting.nesting.nest import Effort
from roofmodel.drawings.paper import layer
from roofmodel.drawings.pdf.pdf_sheet import PagePen, PdfPages
from roofmodel.drawings.sheets import part_cell, part_page
from roofmodel.workbench.job import reckoning
from roofmodel.workbench.papers import paper_set
from tests import acceptance_jobs
from tests.drawings import drawn


class Watched(PagePen):
    """A pen that also remembers every outline and line."""

    def __init__(self):
        super().__init__(PdfPages(title="x"))
        self.pages.next_page()
        self.outlines, self.lines = [], []

    def outline(self, corners, *, layer):
        self.outlines.append((layer.name, np.array(corners)))
        super().outline(corners, layer=layer)

    def line(self, spots, *, layer):
        self.lines.append((layer.name, np.array(spots)))
        super().line(spots, layer=layer)

    def said(self):
        return [text.words for text in self.pages.texts]


def gathered(code):
    job = acceptance_jobs.drawn(code)
    return paper_set.gather(job, job.option, reckoning.cut(job, effort=Effort.QUICK))


@pytest.fixture(scope="module")
def whole():
    return gathered("J04")


def cells_of(whole, short="OSB18"):
    (plan,) = (plan for plan in whole.plans if plan.good.short == short)
    return list(part_cell.cells(plan))


def drawn_cell(cell):
    pen = Watched()
    part_cell.draw(cell, (26.0, 270.0), pen)
    return pen


def cut_loop(pen, code):
    (loop,) = (corners for name, corners in pen.outlines if name == layer.cut(code).name)
    return loop


def test_every_part_is_named_on_one_page_with_its_sheet(whole):
    pages = PdfPages(title="x")
    for plan in whole.plans:
        for page in part_page.pages([plan]):
            page.draw(pages.next_page())
    said = " ".join(text.words for text in pages.texts)

    for plan in whole.plans:
        stocks = plan.stock_by_mark()
        for part in plan.parts:
            assert part.mark in said
            assert stocks[part.mark].name in said


def test_figures_are_the_corners_and_brackets_both_diagonals(whole):
    for cell in cells_of(whole):
        said = drawn_cell(cell).said()
        outline = cell.outline_mm
        for value in {f"{v:.1f}" for corner in outline for v in corner if v > 0.05}:
            assert value in said
        if len(outline) == 4:
            one, two = (math.dist(outline[i], outline[i + 2]) for i in (0, 1))
            assert f"Diagonals: 1-3 ({one:.1f}), 2-4 ({two:.1f})" in said


def test_a_part_says_hand_face_revision_size_mass_and_which_way_the_board_runs(whole):
    for cell in cells_of(whole):
        words = " ".join(drawn_cell(cell).said())
        part = cell.first.placed.part
        hand = {"L": "LEFT HAND", "R": "RIGHT HAND", "N": "NO HAND"}[part.hand]
        mass_kg = part.area_mm2 / 1e6 * cell.first.good.mass_kg_m2
        for wanted in (
            f"{hand}, OUTSIDE FACE UP, REV A",
            f"{part.length_tenths / 10:.1f} x {part.width_tenths / 10:.1f}, {mass_kg:.1f} kg",
            "UP SLOPE",
            "STRENGTH",
            "Strength axis runs",
        ):
            assert wanted in words


def test_left_and_right_are_drawn_as_mirror_images_to_a_tenth_of_a_millimetre(whole):
    cells = cells_of(whole)
    loops, hands = {}, {}
    for cell in cells:
        loop = cut_loop(drawn_cell(cell), cell.first.good.drawing_code) * cell.scale
        part = cell.first.placed.part
        loops[part.mark] = shapely.Polygon(loop - loop.min(axis=0))
        hands[part.mark] = part.hand
    lefts, rights = ([mark for mark in loops if hands[mark] == hand] for hand in "LR")

    assert lefts
    for left in lefts:
        width = loops[left].bounds[2]
        image = shapely.transform(loops[left], lambda xy, width=width: [width, 0] + xy * [-1, 1])
        assert min(image.hausdorff_distance(loops[right]) for right in rights) <= 0.1
        assert image.hausdorff_distance(loops[left]) > 1.0


def test_parts_that_are_alike_are_drawn_once_and_counted():
    roof = drawn.roof_of(drawn.SHAPES["lean-to"])
    (plan,) = drawn.set_of(roof, [drawn.plan_of(roof)]).plans
    cells = list(part_cell.cells(plan))
    alike = [cell for cell in cells if len(cell.sheets) > 1]

    assert sum(len(cell.sheets) for cell in cells) == len(plan.parts)
    assert alike
    for cell in alike:
        assert f"{len(cell.sheets)} OFF:" in drawn_cell(cell).said()
        assert len({sheet.placed.part.corners for sheet in cell.sheets}) == 1


@pytest.mark.parametrize(("shape", "inward"), [("three-facet end", True), ("notch", False)])
def test_the_edge_cut_through_shows_which_way_the_blade_leans(shape, inward):
    """At a hip the inside face ends short; at a valley it sticks out (`bevel_note`)."""
    whole = gathered("J04") if inward else _notch()
    found = 0
    for cell in cells_of(whole):
        pen = drawn_cell(cell)
        stock = layer.stock(cell.first.good.drawing_code).name
        icons = [corners for name, corners in pen.outlines if name == stock]
        assert len(icons) == len(cell.bevels)
        for bevel, (outside, inside, *_) in zip(cell.bevels, icons, strict=True):
            assert outside[1] > inside[1]  # outside face up
            lean = math.degrees(math.atan2(inside[0] - outside[0], outside[1] - inside[1]))
            assert lean == pytest.approx(bevel.degrees * (1 if bevel.inward else -1), abs=0.01)
            found += bevel.inward is inward
    assert found


def _notch():
    from roofmodel.foundation import resources
    from roofmodel.storage import job_file

    job = reckoning.reckon(job_file.read(resources.sample_roofs() / "notch.roofjob.json"))
    return paper_set.gather(job, job.option, reckoning.cut(job, effort=Effort.QUICK))


def test_pages_of_parts_are_few(whole):
    """J05 has 61 parts; one on a page would be a book."""
    job = gathered("J05")
    parts = sum(len(plan.parts) for plan in job.plans)

    assert len(list(part_page.pages(job.plans))) <= parts / 2.5


def test_letters_on_part_pages_are_never_small(whole):
    pages = PdfPages(title="x")
    for page in part_page.pages(whole.plans):
        page.draw(pages.next_page())

    for text in pages.texts:
        low, _, _, high = text.corners
        # A box reaches a quarter of a letter below the line.
        assert math.dist(low, high) / 1.25 >= 1.8, text.words
