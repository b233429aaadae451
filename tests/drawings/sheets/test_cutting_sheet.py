import itertools
import math

import pytest
import shapely

from roofmodel.drawings.sheets import cutting_sheet
from tests.drawings import drawn
from tests.drawings.drawn import RecordingPen, part, placed, rectangle, sheet_of

CUT, BEVEL, ARROWS = "W-27OSB-E-CUT", "W-27OSB-E-BVL", "W-27OSB-J-GRN"
MARKS, DIMENSIONS = "W-27OSB-T-MRK", "W-27OSB-D-DIM"


def draw(sheet):
    pen = RecordingPen()
    cutting_sheet.draw(sheet, pen)
    return pen


ALL_SHEETS = [
    pytest.param(sheet, id=f"{name}, {sheet.good.short} {sheet.stock.number}")
    for name, shape in drawn.SHAPES.items()
    for code in ("BRD-OSB18", "INS-PIR75", "BRD-PB12")
    for sheet in drawn.sheets_of(drawn.roof_of(shape), drawn.good(code))
]


@pytest.mark.parametrize("sheet", ALL_SHEETS)
def test_every_part_is_one_loop_with_its_own_mark_on_it_or_led_to_it(sheet):
    pen = draw(sheet)
    code = sheet.good.drawing_code

    loops = pen.outlines_on(f"W-{code}-E-CUT")
    assert len(loops) == len(sheet.placed)
    for loop, one in zip(loops, sheet.placed, strict=True):
        assert loop.area.exterior.is_ccw
        assert loop.area.area == pytest.approx(one.part.area_mm2)
        written = " ".join(note_of(loop.area, pen))
        assert one.part.mark in written.replace("- ", "-")
        # Everything is drawn from outside, which of a lining is its back.
        face = "BACK UP, ROOM FACE DOWN" if "PB12" in one.part.mark else "OUTSIDE FACE UP"
        assert face in written
        assert f"REV A, {sheet.stock.name.upper()}" in written


def note_of(area, pen):
    """Return what is written on a part, or where the leaders that end on it begin."""
    notes = [text for text in pen.texts if text.layer.endswith("-T-MRK")]
    leaders = [shapely.LineString(line.spots) for line in pen.lines if line.layer.endswith("-MRK")]
    leading = [leader for leader in leaders if leader.intersects(area)]
    return [
        text.words
        for text in notes
        if area.contains(text.box) or any(led.distance(text.box) < 250 for led in leading)
    ]


def test_most_parts_of_a_usual_roof_have_room_for_their_note():
    for sheet in drawn.sheets_of(drawn.roof_of()):
        assert not draw(sheet).lines_on(MARKS)


@pytest.mark.parametrize("sheet", ALL_SHEETS)
def test_no_words_cover_others_cross_a_cut_or_leave_the_board(sheet):
    pen = draw(sheet)
    board = shapely.box(0, 0, sheet.good.length_mm, sheet.good.width_mm)
    cuts = [shapely.LinearRing(loop.spots) for loop in pen.outlines if "-E-CUT" in loop.layer]

    for text in pen.texts:
        assert board.contains(text.box), text
        assert not any(cut.intersects(text.box) for cut in cuts), text
        assert text.height_mm >= 7, text
        assert text.words.isascii(), text
    for a, b in itertools.combinations(pen.texts, 2):
        assert not a.box.intersects(b.box), (a, b)


@pytest.mark.parametrize("sheet", ALL_SHEETS)
def test_nothing_is_drawn_outside_the_stock_sheet(sheet):
    pen = draw(sheet)
    board = shapely.box(0, 0, sheet.good.length_mm, sheet.good.width_mm).buffer(0.01)

    for stroke in (*pen.outlines, *pen.lines):
        assert board.contains(shapely.MultiPoint(stroke.spots)), stroke


def test_the_stock_sheet_starts_at_the_origin():
    (stock,) = draw(sheet_of(placed(rectangle(600, 400)))).outlines_on("W-27STK-E-BRD")

    assert stock.spots == [(0, 0), (2440, 0), (2440, 1220), (0, 1220)]


def test_the_title_says_job_revision_sheet_material_and_saw_cut():
    pen = draw(sheet_of(placed(rectangle(600, 400)), number=2, count=9))

    titles = [text.words for text in pen.texts if text.layer == "W-------V-TTL"]
    assert titles[0] == "JOB J04, REV A: OSB18 SHEET 2 OF 9"
    assert titles[1] == "OSB/3 18 MM, SQUARE EDGE, 2440.0 X 1220.0."
    assert titles[2].startswith("SAW CUT 3.0")


def test_a_sheet_without_waste_carries_the_title_on_its_part():
    whole = rectangle(2440, 1220)
    pen = draw(sheet_of(placed(whole)))

    assert pen.text_saying("JOB J04").height_mm >= 12
    assert not any(a.box.intersects(b.box) for a, b in itertools.combinations(pen.texts, 2))


def test_a_part_says_its_size_its_place_and_its_hand():
    one = part([(0, 0), (900, 0), (900, 500), (200, 500)], "J04-F1-C1P1-OSB18-L")
    pen = draw(sheet_of(placed(one, 30.5, 40)))

    assert "900.0 x 500.0  AT 30.5, 40.0" in pen.said()
    assert "OUTSIDE FACE UP, LEFT HAND" in pen.said()


def test_a_square_edged_part_turned_over_says_that_the_outside_face_is_down():
    pen = draw(sheet_of(placed(rectangle(900, 500), turned_over=True)))

    assert "OUTSIDE FACE DOWN, NO HAND" in pen.said()


@pytest.mark.parametrize(("turned", "up"), [(0, (0, 1)), (180, (0, -1)), (90, (-1, 0))])
def test_the_arrow_points_up_the_slope_however_the_part_is_turned(turned, up):
    pen = draw(sheet_of(placed(rectangle(900, 500), turned_deg=turned), material=drawn.good()))

    tail, tip = pen.lines_on(ARROWS)[0].spots
    length = math.dist(tail, tip)
    assert ((tip[0] - tail[0]) / length, (tip[1] - tail[1]) / length) == pytest.approx(up)


def test_only_boards_with_a_strength_axis_show_one_and_it_runs_along_the_sheet():
    one = placed(rectangle(900, 500))
    board = draw(sheet_of(one))
    foam = draw(sheet_of(one, material=drawn.good("INS-PIR75")))

    shaft = board.lines_on(ARROWS)[2].spots
    assert shaft[0][1] == pytest.approx(shaft[1][1])
    assert "STRENGTH" in board.said()
    assert "STRENGTH" not in foam.said()


def test_bevelled_sides_are_drawn_again_as_a_note_and_labelled_along_the_side():
    roof = drawn.roof_of()
    one = next(p for p in drawn.parts_of(roof) if p.mark.startswith("J04-F2-C1P1"))
    pen = draw(sheet_of(placed(one), roof=roof))

    sides = {frozenset(line.spots) for line in pen.lines_on(BEVEL)}
    (loop,) = pen.outlines_on(CUT)
    assert sides == {
        frozenset((loop.spots[1], loop.spots[2])),
        frozenset((loop.spots[3], loop.spots[0])),
    }
    labels = [text for text in pen.texts if text.words == "BEVEL 9.31 UNDERCUT 2.9"]
    assert sorted(round(label.turn_deg, 1) for label in labels) == [-69.4, 69.4]


def test_corners_of_a_part_that_is_no_rectangle_are_dimensioned_from_its_lower_left():
    one = part([(0, 0), (900, 0), (900, 500), (200, 500)], "J04-F1-C1P1-OSB18-L")
    pen = draw(sheet_of(placed(one, 100, 100)))

    assert {text.words for text in pen.texts if text.layer == DIMENSIONS} == {
        "0.0, 0.0",
        "900.0, 0.0",
        "900.0, 500.0",
        "200.0, 500.0",
    }
    assert not draw(sheet_of(placed(rectangle(900, 500)))).lines_on(DIMENSIONS)


def test_a_part_too_small_to_write_on_has_its_note_beside_it_with_a_leader():
    small = part([(0, 0), (120, 0), (60, 90)])
    pen = draw(
        sheet_of(
            placed(small, 300, 300), placed(rectangle(900, 500, "J04-F1-C1P2-OSB18-N"), 1000, 0)
        )
    )

    (leader,) = pen.lines_on(MARKS)
    assert shapely.Polygon([(300, 300), (420, 300), (360, 390)]).intersects(
        shapely.LineString(leader.spots)
    )
    mark = pen.text_saying("J04-F1-C1P1")
    assert mark.height_mm >= 12
    assert shapely.LineString(leader.spots).distance(mark.box) < 400


def test_a_small_part_with_no_waste_beside_it_still_carries_its_mark():
    strip = part([(0, 0), (2440, 0), (2440, 20), (0, 20)])
    pen = draw(sheet_of(placed(strip), placed(rectangle(2440, 1197, "J04-F1-C1P2-OSB18-N"), 0, 23)))

    assert pen.text_saying("J04-F1-C1P1").box.bounds[3] < 20
