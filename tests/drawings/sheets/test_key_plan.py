import itertools
import math

import pytest
import shapely

from roofmodel.drawings.sheets import board_plan, key_plan
from roofmodel.drawings.sheets.key_plan import KeyPlan
from roofmodel.shapes.roof import LineKind
from tests.drawings import drawn
from tests.drawings.drawn import RecordingPen

CODES = ("BRD-OSB18", "INS-PIR75", "BRD-PB12")


def plan_of(roof, codes=CODES):
    boards = tuple((drawn.good(code), drawn.parts_of(roof, drawn.good(code))) for code in codes)
    return KeyPlan(heading=drawn.HEADING, roof=roof, boards=boards)


def draw(plan):
    pen = RecordingPen()
    key_plan.draw(plan, pen)
    return pen


ALL = [pytest.param(drawn.roof_of(shape), id=name) for name, shape in drawn.SHAPES.items()]


@pytest.mark.parametrize("roof", ALL)
def test_every_board_lies_on_its_roof_with_its_short_mark(roof):
    plan = plan_of(roof)
    pen = draw(plan)

    for view, (good, parts) in zip(plan.views[1:], plan.boards, strict=True):
        outlines = pen.outlines_on(f"W-{good.drawing_code}-E-KEY")
        footprint = shapely.union_all([shapely.Polygon(view.facet(f)) for f in roof.facets])
        assert len(outlines) == len(parts)
        assert all(footprint.buffer(0.5).contains(outline.area) for outline in outlines)
        marks = {t.words for t in pen.texts if t.layer == f"W-{good.drawing_code}-T-KEY"}
        assert marks == {board_plan.short_mark(part) for part in parts}


@pytest.mark.parametrize("roof", ALL)
def test_boards_and_gaps_cover_the_plan(roof):
    """Seen from above a board is as much smaller than its true size as its facet is."""
    plan = plan_of(roof, codes=("BRD-OSB18",))
    outlines = draw(plan).outlines_on("W-27OSB-E-KEY")

    covered_m2 = sum(outline.area.area for outline in outlines) / 1e6
    assert 0.985 * roof.plan_area_m2 < covered_m2 <= roof.plan_area_m2 + 1e-3


@pytest.mark.parametrize("roof", ALL)
def test_words_on_the_key_plan_neither_cover_each_other_nor_leave_it(roof):
    plan = plan_of(roof)
    pen = draw(plan)
    low, high = plan.extents_mm

    for a, b in itertools.combinations(pen.texts, 2):
        assert not a.box.intersects(b.box), (a, b)
    sheet = shapely.box(*low, *high)
    assert all(sheet.contains(text.box) for text in pen.texts)
    assert all(text.words.isascii() for text in pen.texts)


def test_the_house_wall_is_at_the_top_and_the_right_hand_side_on_the_right():
    roof = drawn.roof_of()
    pen = draw(plan_of(roof))

    wall = pen.outlines_on("W-21WAL-E-HSE")[0]
    assert min(y for _, y in wall.spots) == 0.0
    assert pen.text_saying("F1").at[0] > pen.text_saying("F5").at[0]
    assert pen.text_saying("F3").at[1] < pen.text_saying("F1").at[1] < 0.0


def test_each_facet_says_pitch_and_true_area_and_each_line_kind_and_true_length():
    said = draw(plan_of(drawn.roof_of())).said()

    assert said.count("25.00 DEG") == 5
    assert said.count("4.272 M2") == 2
    assert said.count("1.400 M2") == 3
    assert said.count("HIP 2062.5") == 4
    assert "RIDGE 1850.0" in said
    assert sum(words.startswith("EAVES") for words in said) == 5


def test_arrows_point_from_the_eaves_towards_the_ridge():
    roof = drawn.roof_of()
    pen = draw(plan_of(roof, codes=()))
    (ridge,) = roof.lines_of(LineKind.RIDGE)
    view = plan_of(roof, codes=()).views[0]
    top = shapely.LineString([view.spot(x, y) for x, y, _ in (ridge.start, ridge.end)])

    shafts = [line.spots for line in pen.lines_on("W-27ROF-J-SLP") if len(line.spots) == 2]
    assert len(shafts) == 5
    for tail, tip in shafts:
        closer = shapely.Point(tail).distance(top) - shapely.Point(tip).distance(top)
        assert closer == pytest.approx(math.dist(tail, tip), rel=0.15)


def test_the_heading_says_job_revision_and_datum():
    said = draw(plan_of(drawn.roof_of())).said()

    assert "JOB J04, REV A: KEY PLAN" in said
    assert any(words.startswith("DATUM: PLANE THROUGH EAVES AND RIDGE") for words in said)
