"""Lengths on paper: each is marked on a plan, drawn as it is cut, and told how its ends are cut."""

from functools import cache

import pytest

from roofmodel.drawings.paper import layer
from roofmodel.drawings.pdf.pdf_sheet import A3_MM, PdfPages
from roofmodel.drawings.sheets import length_page, length_plan, length_sheet, timber_sheet
from roofmodel.drawings.sheets.paper_job import CutLengths, PaperJob
from roofmodel.quantities import lengths
from roofmodel.refit.method import Method
from tests import acceptance_jobs
from tests.drawings import drawn


@cache
def job(method=Method.NEW_ROOF, code="J04"):
    of = acceptance_jobs.drawn(code)
    refit = of.option_of(method).refit
    cuts = lengths.cuts(refit, of.catalogue)
    return PaperJob(
        heading=drawn.HEADING,
        title="",
        method=method.printed,
        roof=of.roof,
        members=refit.members,
        plans=(),
        release=drawn.Release(),
        lengths=tuple(
            CutLengths(name=name, plan=cut.plan, runs=cut.runs)
            for name, cut in cuts.items()
            if cut.plan is not None
        ),
    )


def on(draw):
    pen = drawn.RecordingPen()
    draw(pen)
    return pen


def kind(name):
    return next(cut for cut in job().lengths if cut.name == name)


def test_every_mark_of_the_linear_list_stands_on_the_plan_of_lengths():
    plan = length_plan.of_job(job())
    written = set(on(lambda pen: length_plan.draw(plan, pen)).said())

    for cut in job().lengths:
        for run in cut.runs:
            assert length_plan.short_mark(run.mark, drawn.HEADING) in written


@pytest.mark.parametrize("code", ["J04", "J05", "J06", "J07"])
def test_every_length_is_marked_on_the_printed_plan_too(code):
    """Letters are larger there than at full size; short jacks in a corner have the least room."""
    whole = job(code=code)
    pages = PdfPages(title="", size_mm=A3_MM)
    for one in length_page.pages(whole):
        one.draw(pages.next_page())
    said = {text.words for text in pages.texts}

    assert not [words for words in said if "NOT MARKED" in words]
    for cut in whole.lengths:
        for run in cut.runs:
            if run.ends is not None:
                assert length_plan.short_mark(run.mark, drawn.HEADING) in said


def test_bars_that_stay_are_marked_where_none_are_new():
    plan = length_plan.of_job(job(Method.BUILD_ROUND))

    assert plan.kinds[0][0] == "bars that stay"
    assert length_plan.of_job(job()).kinds[0][0] != "bars that stay"


def test_pieces_lie_on_their_bar_one_saw_cut_apart_with_mark_and_length():
    cut = kind("rafters")
    sheet = length_sheet.sheet(drawn.HEADING, cut)
    pen = on(sheet.draw)
    contour = layer.contour(length_sheet.CODE, live=True)

    assert len(pen.outlines_on(contour.name)) == len(cut.plan.parts)
    first, second = sheet.outlines_mm[:2]
    # Parallelograms: measured along one edge they are a saw cut apart.
    slant = cut.runs[0].timber.slant_mm
    assert second[0][0] - (first[1][0] + slant) == pytest.approx(
        cut.plan.problem.kerf / 10, abs=0.2
    )
    written = set(pen.said())
    assert {part.mark for part in cut.plan.parts} <= written


def test_timbers_that_are_cut_alike_are_drawn_once_under_all_their_marks():
    ((_, sheet),) = timber_sheet.sheets(drawn.HEADING, [kind("rafters")])
    pen = on(sheet.draw)
    written = " ".join(pen.said())

    assert len(sheet.alike) < len(kind("rafters").runs)
    assert all(run.mark in written for run in kind("rafters").runs)
    assert "20.58° on the top, blade 67.50° off square, shorter on the left, to the hip" in written
    # One view of the side and one of the top.
    assert len(pen.outlines_on(layer.shown(length_sheet.CODE).name)) == 2 * len(sheet.alike)


def test_the_pages_show_plan_timbers_and_lengths():
    titles = [one.title.split(" 1 of")[0] for one in length_page.pages(job())]

    assert titles[0].startswith("Lengths on the roof")
    assert "Timbers" in titles
    assert "Lengths as cut" in titles
