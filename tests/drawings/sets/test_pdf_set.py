"""The PDF papers of a job: nothing outside the frame, no words on words, codes that can be read."""

import io
import math
import re
from datetime import date

import pypdfium2
import pytest
import shapely
import zxingcpp

from roofmodel.cutting.nesting.nest import Effort
from roofmodel.drawings.lists import labels_of
from roofmodel.drawings.paper import layer, page
from roofmodel.drawings.pdf import pdf_table
from roofmodel.drawings.pdf.pdf_sheet import A4_MM
from roofmodel.drawings.sets import bench_set, pdf_set
from roofmodel.drawings.sheets import key_plan_page, length_page, part_page
from roofmodel.workbench.job import reckoning
from roofmodel.workbench.papers import paper_set
from roofmodel.workbench.papers.job_papers import Issue
from tests import acceptance_jobs, cases
from tests.drawings import drawn

OWNER, ISSUED = "Invented Roofing", date(2026, 11, 3)
RELEASED = {"revision": "A", "by": "invented surveyor", "on": "2026-11-02"}


def gathered(code, **changes):
    job = acceptance_jobs.drawn(code, **changes)
    plans = reckoning.cut(job, effort=Effort.QUICK)
    return paper_set.gather(job, job.option, plans, issue=Issue(issued=ISSUED, owner=OWNER))


@pytest.fixture(scope="module")
def job():
    return drawn.for_cutting(gathered("J04"))


@pytest.fixture(scope="module")
def pages(job):
    return pdf_set.drawn(job)


def every_page(job):
    yield bench_set.drawn(job)
    yield pdf_set.drawn(job)
    yield paper_set.lists(job)
    yield labels_of.pages(job)


def rooms(pages, number):
    return [
        (text.words, shapely.Polygon(text.corners)) for text in pages.texts if text.page == number
    ]


def test_there_are_pages_for_key_plan_odd_parts_facets_and_lengths(job, pages):
    facets = sum(len({part.facet for part in plan.parts}) for plan in job.plans)
    parts = len(list(part_page.pages(job.plans, odd_only=True)))
    plans = len(list(key_plan_page.pages(job.jobs[0])))
    lengths = len(list(length_page.pages(job.jobs[0])))
    layers = not bench_set.shows_layers(job)
    assert lengths
    assert pages.page == plans + parts + facets + lengths + layers


@pytest.mark.parametrize(
    "code", cases.few_of(["J01", "J04", "J05", "J06", "J07", "J10"], {"J01", "J05"})
)
def test_no_words_lie_on_other_words_on_any_page(code):
    """Key plans, sheets, parts, facets, sections, details, lists and labels; only the stamp across
    a page lies under them, grey."""
    job = gathered(code)
    for pages in every_page(job):
        for number in range(1, pages.page + 1):
            found = [
                (words, room.buffer(-0.2))
                for words, room in rooms(pages, number)
                if words != "NOT FOR CUTTING" or room.area < 300.0
            ]
            tree = shapely.STRtree([room for _, room in found])
            for i, (words, room) in enumerate(found):
                for j in tree.query(room, predicate="intersects"):
                    if i < j:
                        pytest.fail(f"page {number}: “{words}” lies on “{found[j][0]}”")


@pytest.mark.parametrize("code", cases.few_of(["J01", "J04", "J05", "J07"], {"J01", "J05"}))
def test_letters_are_never_smaller_than_the_standard_has_them(code):
    """ISO 3098: 1.8 mm. A box reaches a quarter of a letter below the line. Where a board has no
    room, as on one facet of J05, its mark alone may be smaller: the part's own page says it."""
    job = gathered(code)
    for pages in every_page(job):
        small = [
            text.words
            for text in pages.texts
            if math.dist(text.corners[0], text.corners[3]) / 1.25 < 1.79
        ]
        assert all(re.fullmatch(r"F\d+-[A-Z]\w+", words) for words in small), small
        assert len(small) <= 0.002 * len(pages.texts)


def test_words_and_lines_lie_inside_the_frame(pages):
    """Only centring marks and the letters and figures of the fields stand outside (ISO 5457)."""
    sheet, frame = shapely.box(0, 0, *page.SIZE_MM), shapely.box(20.0, 10.0, 410.0, 287.0)
    for number in range(1, pages.page + 1):
        for words, room in rooms(pages, number):
            assert sheet.contains(room), words
            assert len(words) == 1 or frame.covers(room), words
    for stroke in pages.strokes:
        inside = frame.buffer(0.01).covers(shapely.box(*stroke.low, *stroke.high))
        assert inside or stroke.layer == layer.FRAME.name, stroke


def test_every_title_block_has_what_the_standard_asks_for(job, pages):
    """ISO 7200: owner, number, day of issue, page, title, who approved and made it, type."""
    for number in range(1, pages.page + 1):
        said = " | ".join(text.words for text in pages.texts if text.page == number)
        for wanted in (
            OWNER,
            f"J04-A-{job.heading.set_id}-{number:02d} ({number} / {pages.page})",
            f"Job J04, rev A, set {job.heading.set_id}, issued 2026-11-03",
            "Title",
            "invented surveyor, 2026-11-02",
            "Made by",
            "workshop drawing",
            "Status | FOR CUTTING",
        ):
            assert wanted in said, wanted


def test_scales_are_those_of_the_standard(pages):
    said = [t.words.removesuffix(", mm") for t in pages.texts if t.words.endswith(", mm")]
    scales = {scale for words in said for scale in words.split(", ")}

    assert len(said) == pages.page
    # ISO 5455, reduction scales.
    assert scales <= {f"1 : {n}" for n in (5, 10, 20, 50, 100)}


def test_a_released_job_is_for_cutting_and_says_so_on_every_page(job, pages):
    assert job.release.allowed
    stamped = {text.page for text in pages.texts if text.words == "FOR CUTTING"}
    assert stamped == set(range(1, pages.page + 1))
    assert not [text for text in pages.texts if text.words == "NOT FOR CUTTING"]


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({}, "Revision A has not been released"),
        (
            {"revision": "B", "released": RELEASED},
            "Revision A was released, but this is revision B",
        ),
    ],
)
def test_an_unreleased_job_carries_the_reason_across_every_page(changes, words):
    found = gathered("J01", **changes)
    pages = pdf_set.drawn(found)

    assert words in found.release.reason
    for number in range(1, pages.page + 1):
        said = " ".join(text.words for text in pages.texts if text.page == number)
        assert "NOT FOR CUTTING" in said
        assert words.split(",")[0] in said


def test_the_same_job_gives_the_same_bytes(job):
    assert pdf_set.content(job) == pdf_set.content(job)


def test_every_label_is_read_by_an_independent_reader(job):
    """zxing reads the codes off the rendered page."""
    content = labels_of.pages(job).content()
    document = pypdfium2.PdfDocument(io.BytesIO(content))
    read = []
    for number in range(len(document)):
        image = document[number].render(scale=200 / 72).to_pil()
        read += [code.text for code in zxingcpp.read_barcodes(image)]
        document[number].close()
    document.close()

    wanted = [one.code for one in labels_of.labels(job)]
    assert sorted(read) == sorted(wanted)
    (own,) = (one.heading for one in job.jobs)
    assert any(one.startswith(f"J04/A/{own.set_id}/J04-F2-B1-PIR75-L-") for one in read)


def test_labels_name_the_hand_and_show_the_facet(job):
    found = {one.large: one for one in labels_of.labels(job)}

    left, right = (
        next(one for mark, one in found.items() if mark.startswith(begins))
        for begins in ("J04-F2-B1-PIR75-L-", "J04-F2-B2-PIR75-R-")
    )
    assert "LEFT HAND" in left.lines[0]
    assert "RIGHT HAND" in right.lines[0]
    assert left.facet.name == "F2"
    assert [one for one in found if "roll 1 of" in one]


@pytest.mark.parametrize("released", [True, False])
def test_labels_lie_on_their_page_and_keep_off_their_codes(job, released):
    """A reader needs four squares of white round a code (ISO/IEC 18004, from memory)."""
    whole = job if released else gathered("J04")
    pages = labels_of.pages(whole)
    sheet = shapely.box(0, 0, *A4_MM)

    for text in pages.texts:
        room = shapely.Polygon(text.corners)
        assert sheet.contains(room)
        codes = [code for on, code in pages.codes if on == text.page]
        assert codes
        assert not any(room.intersects(shapely.box(*low, *high)) for low, high in codes), text


def test_lists_keep_every_mark_and_leave_no_page(job):
    pages = paper_set.lists(job)
    said = " ".join(text.words for text in pages.texts)
    sheet = shapely.box(0, 0, *pdf_table.SIZE_MM)

    for plan in job.plans:
        for part in plan.parts:
            assert part.mark in said
    assert all(sheet.contains(shapely.Polygon(text.corners)) for text in pages.texts)
