"""The papers beside the saw: few pages, letters read at arm's length, nothing left out."""

import math
import re
from dataclasses import replace

import pytest
import shapely

from roofmodel.cutting.nesting.nest import Effort
from roofmodel.drawings.pdf.pdf_sheet import A4_MM
from roofmodel.drawings.sets import bench_set, pdf_set
from roofmodel.drawings.sheets import bench_page
from roofmodel.drawings.sheets.board_plan import short_mark
from roofmodel.refit.method import Method
from roofmodel.workbench.job import reckoning
from roofmodel.workbench.papers import paper_set
from tests import acceptance_jobs


def gathered(code, method):
    drawn = acceptance_jobs.drawn(code)
    option = drawn.option_of(method)
    plans = reckoning.cut(drawn, method=option.method, effort=Effort.QUICK)
    return paper_set.gather(drawn, option, plans)


@pytest.fixture(scope="module")
def lean_to():
    return gathered("J01", Method.BUILD_ROUND)


@pytest.fixture(scope="module", params=["J01", "J04"])
def whole(request, lean_to):
    return lean_to if request.param == "J01" else gathered("J04", Method.BUILD_ROUND)


def letters_mm(text):
    # A box reaches a quarter of a letter below the line.
    return math.dist(text.corners[0], text.corners[3]) / 1.25


def test_a_lean_to_round_its_bars_is_printed_on_twelve_pages(lean_to):
    """The workshop asked for it: front page, key plan, sheets, odd parts, lengths and lists."""
    pages = [one(lean_to).page for one in (bench_set.drawn, pdf_set.drawn, paper_set.lists)]
    assert sum(pages) <= 12


def test_marks_are_seven_millimetres_and_all_other_words_three_and_a_half(whole):
    pages = bench_set.drawn(whole)
    names = {one for plan in whole.plans for sheet in bench_page.sheets(plan)
             for one in map(sheet.mark_of, sheet.first.placed)}  # fmt: skip
    # The layers on the front page are drawn with letters of their own.
    first = next(text.page for text in pages.texts if text.words in names)
    texts = [text for text in pages.texts if text.page >= first]
    small = [one.words for one in texts if letters_mm(one) < 3.49]

    assert len([one for one in texts if letters_mm(one) >= 6.99]) > 10
    assert [one for one in texts if 3.6 < letters_mm(one) < 4.9] == []
    # A sliver bears its letter smaller, and no words but a mark are small.
    assert all(re.fullmatch(r"[A-Z]\d?", words) for words in small), small
    assert len(small) <= 2


def test_every_piece_and_offcut_is_named_once_beside_the_saw(whole):
    said = " ".join(text.words for text in bench_set.drawn(whole).texts)
    for plan in whole.plans:
        for part in plan.parts:
            assert re.search(rf"\b{short_mark(part)}\b", said), part.mark
        for stock in plan.stocks:
            assert all(kept.label in said for kept in stock.kept)


def test_sheets_cut_alike_are_drawn_once_and_none_is_lost(lean_to):
    for plan in lean_to.plans:
        sheets = bench_page.sheets(plan)
        assert sum(len(one.stocks) for one in sheets) == len(plan.stocks)
        for sheet in sheets:
            for other in sheet.stocks[1:]:
                assert [p.cut_outline_mm for p in other.placed] == [
                    p.cut_outline_mm for p in sheet.first.placed
                ]
    # Two whole boards of the lining, and two that are cut across at one length.
    titles = [sheet.title for sheet in bench_page.sheets(lean_to.plans[0])]
    assert sum(title.endswith(" × 2") for title in titles) == 2


def test_nothing_leaves_the_page_on_the_right_or_below(whole):
    pages = bench_set.drawn(whole)
    sheet = shapely.box(10.0, 8.0, A4_MM[0] - 5.0, A4_MM[1] - 5.0)
    for text in pages.texts:
        assert text.words == "NOT FOR CUTTING" or sheet.covers(shapely.Polygon(text.corners)), text


def test_a_front_page_says_why_nothing_may_be_cut_and_how_many_there_are(lean_to):
    said = " ".join(text.words for text in bench_set.drawn(lean_to).texts if text.page == 1)
    for wanted in ("has not been released", "5 new, 6 pieces, 5 cuts", "6 with the blade tilted"):
        assert wanted in said


def test_where_pieces_lie_either_way_up_each_is_named_with_its_face(whole):
    """A piece cut on the wrong face is the wrong hand."""
    plan = next(one for one in whole.plans if one.good.short == "PIR75")
    sheet = next(s for s in bench_page.sheets(plan) if len(s.first.placed) > 2)
    assert [line for line in sheet.lines if "face" in line] == ["All pieces outside face up."]
    first, *others = sheet.first.placed
    turned = replace(sheet.first, placed=(replace(first, turned_over=True), *others))
    mixed = bench_page.BenchSheet(plan=plan, stocks=(turned,))

    down, up = (next(line for line in mixed.lines if line.startswith(f"OUTSIDE FACE {way}: "))
                for way in ("DOWN", "UP"))  # fmt: skip
    assert down.split(": ")[1] == mixed.mark_of(turned.placed[0])
    assert up.split(": ")[1].split(", ") == [mixed.mark_of(one) for one in others]
