import itertools
import re

import pytest
import shapely

from roofmodel.drawings.pdf.pdf_pen import A4_MM, Letters, PdfPen, fitted, printable
from roofmodel.drawings.survey_sheet import page as survey_sheet
from roofmodel.drawings.survey_sheet import words as survey_sheet_words
from roofmodel.foundation.errors import DrawingError
from roofmodel.shapes.footprint import SideKind
from roofmodel.survey.readings.measure import Measure
from roofmodel.survey.readings.reading import Unit
from roofmodel.survey.sheets import networks
from tests.survey import random_surveys

BACKS = (SideKind.HOUSE_WALL, SideKind.BOX_GUTTER, SideKind.EAVES)
NETWORKS = [
    networks.lean_to(),
    networks.gable(),
    *(networks.hipped(back) for back in BACKS),
    *(networks.polygonal_end(count, back) for count in (3, 4, 5) for back in BACKS),
    *random_surveys.PLANS.values(),
]
EVERY = pytest.mark.parametrize("network", NETWORKS, ids=lambda network: network.shape)
MARGINS = shapely.box(12.0, 10.0, 198.0, 287.0)


def sheet_of(network, title="Sample job, made up", job_code="J04"):
    """Return a drawn sheet; each is drawn once, for no test changes it."""
    key = (id(network), title, job_code)
    if key not in _DRAWN:
        _DRAWN[key] = survey_sheet.pen_of(network, title=title, job_code=job_code)
    return _DRAWN[key]


_DRAWN = {}


def area(mark):
    return shapely.box(*mark.low, *mark.high)


def said(pen, page=None):
    return [mark.words for mark in pen.texts if page in (None, mark.page)]


@EVERY
def test_nothing_stands_outside_the_margins(network):
    pen = sheet_of(network, title="A very long name of a job " * 9, job_code="LONG-CODE" * 9)

    within = MARGINS.buffer(0.01)
    marks = [*pen.texts, *pen.boxes, *pen.lines]
    assert [mark for mark in marks if not within.covers(area(mark))] == []
    assert pen.size_mm == A4_MM


@EVERY
def test_no_words_cover_other_words_or_the_edge_of_a_box(network):
    pen = sheet_of(network)

    for page in range(1, pen.page + 1):
        texts = [mark for mark in pen.texts if mark.page == page]
        edges = shapely.MultiLineString([area(b).exterior for b in pen.boxes if b.page == page])
        shapely.prepare(edges)
        tree = shapely.STRtree([area(text) for text in texts])
        for text in texts:
            near = [texts[i] for i in tree.query(area(text), predicate="intersects")]
            assert near == [text]
            assert not edges.intersects(area(text)), text


@EVERY
def test_every_line_stands_in_the_table_in_the_order_of_taping(network):
    pen = sheet_of(network)
    words = [text for text in pen.texts if text.page > 1]

    rows = []
    for page in range(2, pen.page + 1):
        column = [t for t in words if t.page == page and t.low[0] == 13.0]
        rows += [int(t.words) for t in column if re.fullmatch(r"\d+", t.words)]
    assert rows == list(range(1, len(network.lines) + 1))
    names = [t.words for t in words if t.low[0] == 21.0]
    assert [name for name in names if name != "Line"] == [line.name for line in network.lines]
    labels = [t.words for t in words]
    assert all(line.label in labels for line in network.lines)


@EVERY
def test_each_line_has_boxes_to_fill_and_says_unit_and_how_often(network):
    pen = sheet_of(network)
    boxes = [box for box in pen.boxes if box.page > 1]
    ticks = [box for box in boxes if box.high[0] - box.low[0] == pytest.approx(2.8)]
    first = [
        b
        for b in boxes
        if b.low[0] == 142.0 and b.high[1] - b.low[1] == pytest.approx(survey_sheet.ROW_MM)
    ]
    words = said(pen)

    assert len(ticks) == 3 * len(network.lines)
    assert len(first) == len(network.lines)
    assert words.count("2×") == sum(line.times == 2 for line in network.lines)
    assert words.count("1×") == sum(line.times == 1 for line in network.lines)
    assert words.count("–") == sum(line.times == 0 for line in network.lines)
    asked = [one for _, rows in survey_sheet_words.entries(network) for one in rows]
    degrees = sum(one.says.unit == "°" for one in asked)
    assert words.count("°") == degrees + sum(line.unit is Unit.DEG for line in network.lines)


@EVERY
def test_corners_are_lettered_and_drawn_lines_numbered_on_the_plans(network):
    pen = sheet_of(network)
    plans = [text.words for text in pen.texts if text.page == 1]

    for corner in network.corners:
        assert plans.count(corner) == 2, "on either plan"
    assert [f.name for f in network.facets if plans.count(f.name) != 1] == []
    drawn = (Measure.PLAN_LENGTH, Measure.SLOPE_LENGTH, Measure.BAR_LENGTH, Measure.PITCH)
    for number, line in enumerate(network.lines, 1):
        if line.measure in drawn:
            assert plans.count(str(number)) == 1, line.name


@EVERY
def test_the_house_is_at_the_top_and_the_right_hand_side_on_the_right(network):
    """A is the left-hand end of the wall: a true plan has it at the upper left."""
    pen = sheet_of(network)
    first = {}
    for text in pen.texts:
        if text.page == 1 and text.words in network.corners:
            first.setdefault(text.words, text.low)

    a, b, c, last = (first[letter] for letter in ("A", "B", "C", network.corners[-1]))
    assert a[0] < b[0]
    assert last[0] < c[0]
    assert c[1] < b[1]
    assert last[1] < a[1]
    wall = next(t for t in pen.texts if t.words in survey_sheet_words.BACK.values())
    assert wall.low[1] > a[1]


@EVERY
def test_the_caution_and_every_item_to_tick_are_printed(network):
    pen = sheet_of(network)
    words = said(pen, page=1)

    assert " ".join(words).count(survey_sheet_words.CAUTION) == 1
    items = [item for group in survey_sheet_words.groups(network) for item in group.items]
    assert [item for item in items if words.count(item) != 1] == []
    gutter = any("gutter" in group.heading for group in survey_sheet_words.groups(network))
    assert gutter == (SideKind.BOX_GUTTER in network.sides)


@EVERY
def test_bars_of_each_facet_run_from_its_left_hand_corner(network):
    words = said(sheet_of(network))

    for facet in network.facets:
        for left, right in (facet.eaves, *facet.more_eaves):
            assert words.count(f"{facet.name}, {left} to {right}") == 1


@EVERY
def test_every_page_says_shape_job_and_number(network):
    pen = sheet_of(network)

    for page in range(1, pen.page + 1):
        words = said(pen, page)
        assert f"Page {page} of {pen.page}" in words
        assert any(network.shape in text and "Survey sheet" in text for text in words)
        assert any("J04" in text for text in words)


def test_the_lines_of_the_simplest_shapes_fit_on_one_page_and_all_on_three():
    for network in NETWORKS[:2]:
        pen = sheet_of(network)
        assert pen.page == 3
        assert network.lines[-1].label in said(pen, page=2)


def test_the_file_is_a_pdf_and_the_same_each_time():
    made = [
        survey_sheet.content(networks.gable(), title="Sample", job_code="J05") for _ in range(2)
    ]

    assert made[0] == made[1]
    assert made[0].startswith(b"%PDF-")
    assert made[0].rstrip().endswith(b"%%EOF")
    assert made[0] != survey_sheet.content(networks.gable(), title="Sample")
    assert len(re.findall(rb"/Type /Page\b", made[0])) == 3


def test_an_empty_sheet_leaves_room_for_the_job_code():
    words = said(sheet_of(networks.lean_to(), title="", job_code=""))

    assert any(re.search(r"job \.{10,}", text) for text in words)


def test_letters_the_fonts_lack_are_printed_as_well_as_can_be():
    assert printable("25°, 12 m², 2×, é – “ok”…") == "25°, 12 m², 2×, é – “ok”…"
    assert printable("Ōtaki Łąka 漢\n") == "Otaki ?aka ? "
    pen = PdfPen(title="x")
    pen.text("Ōtaki", (20.0, 20.0), Letters(points=8.0))
    assert pen.texts[0].words == "Otaki"


def test_words_too_long_are_cut_with_a_sign_and_refused_where_there_is_no_room_at_all():
    letters = Letters(points=8.0)
    short = fitted("A very long name", letters, 15.0)

    assert short.endswith("…")
    assert letters.length_mm(short) <= 15.0
    assert fitted("Short", letters, 15.0) == "Short"
    with pytest.raises(DrawingError, match="does not fit"):
        fitted("Short", letters, 0.5)


def test_letters_are_as_wide_as_the_printers_tables_say():
    """Helvetica's A is 667 thousandths of its size wide (Adobe's font metrics)."""
    assert Letters(points=10.0).length_mm("A") == pytest.approx(6.67 * 25.4 / 72.0)


@pytest.mark.parametrize(("a", "b"), list(itertools.combinations(NETWORKS[:4], 2)))
def test_sheets_of_two_shapes_differ(a, b):
    assert said(sheet_of(a)) != said(sheet_of(b))


@EVERY
def test_what_the_job_asks_of_the_site_besides_the_lines_has_a_row(network):
    """Gutter, outlets, downpipe and the section of a bar among it, in the words of the forms."""
    words = said(sheet_of(network))
    rows = [one for _, asked in survey_sheet_words.entries(network) for one in asked]
    names = {one.name for one in rows}

    assert [one.says.label for one in rows if one.says.label not in words] == []
    assert [one.says.where for one in rows if one.says.where not in words] == []
    assert {"gutter_mm", "gutter_outlets", "downpipe_mm"} <= names
    assert {"bar_shape", "bar_depth_mm", "bar_wall_mm"} <= names
    assert ("box_width_mm" in names) == (SideKind.BOX_GUTTER in network.sides)
