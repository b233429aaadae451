"""Papers of several jobs and of the rack: whose a piece is, what is taken, what goes back."""

import json
from collections import Counter
from dataclasses import replace
from datetime import date

import ezdxf
import pytest
import shapely

from roofmodel.cutting.nesting.nest import Effort
from roofmodel.cutting.rack.offcut import RackPiece, rectangle
from roofmodel.drawings.dxf import dxf_pen
from roofmodel.drawings.dxf.dxf_pen import PLAIN
from roofmodel.drawings.lists import bundle, labels_of
from roofmodel.drawings.paper import layer, page
from roofmodel.drawings.sets import bench_set, pdf_set
from roofmodel.storage.rack import Rack
from roofmodel.storage.rack_entry import RackError, RackState
from roofmodel.workbench.job import reckoning
from roofmodel.workbench.papers import jobs_together, paper_set, papers_together, rack_papers
from tests import acceptance_jobs
from tests.workbench.papers.test_rack_use import SHORT_LEAN_TO

DAY = date(2026, 11, 2)


def drawn(code):
    found = reckoning.reckon(replace(acceptance_jobs.job("J10", **SHORT_LEAN_TO), code=code))
    assert isinstance(found, reckoning.Drawn), found.findings
    return found


def filled_rack(folder):
    rack = Rack(folder)
    rack.add(
        [
            RackPiece.of_mm("R1", "BRD-OSB18", rectangle(2440, 610), since=DAY, place="bay 2"),
            RackPiece.of_length_mm("B1", "TIM-B25", 4000.0, since=DAY),
            RackPiece.of_length_mm("G1", "GUT-112", 2600.0, since=DAY),
        ]
    )
    return rack


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    """Three jobs together with a rack: the rack, the jobs' holder, and their set."""
    rack = filled_rack(tmp_path_factory.mktemp("rack"))
    jobs = [drawn("J11A"), drawn("J12"), drawn("J13")]
    found = jobs_together.together(jobs, rack=rack, effort=Effort.QUICK)
    return rack, found.holder, papers_together.gather(found, jobs, rack=rack)


@pytest.fixture(scope="module")
def written(made, tmp_path_factory):
    folder = tmp_path_factory.mktemp("out") / "set"
    return paper_set.write(made[2], folder), folder


def test_sheets_are_those_of_the_plan_together_and_every_part_is_of_its_job(made):
    _, _, whole = made

    for plan in whole.plans:
        marks = Counter(part.mark for part in plan.parts)
        assert set(marks.values()) == {1}
        assert set(plan.owners) == {"J11A", "J12", "J13"}
        for job in whole.jobs:
            own = next(one for one in job.plans if one.good == plan.good)
            assert own.parts
            assert all(p.mark.startswith(f"{job.heading.job_code}-") for p in own.parts)
            marks.subtract(part.mark for part in own.parts)
        assert not any(marks.values())


def test_bundles_and_labels_are_of_one_job_each(made):
    _, _, whole = made
    codes = [one.code for one in labels_of.labels(whole)]

    for job in whole.jobs:
        code = job.heading.job_code
        for one in bundle.bundles(job.plans):
            assert all(placed.part.mark.startswith(f"{code}-") for placed in one.placed)
        parts = [part.mark for plan in job.plans for part in plan.parts]
        named = f"{code}/A/{job.heading.set_id}"
        assert {f"{named}/{mark}" for mark in parts} <= set(codes)
    assert len(codes) == len(set(codes))


def test_an_offcut_has_a_drawing_that_says_its_label_and_place(made, written):
    _, _, whole = made
    (path,) = (file for file in written[0] if file.name.endswith("-rack-R1.dxf"))
    loops = dxf_pen.read_back(path).loops
    (stock,) = (one for plan in whole.plans for one in plan.stocks if one.rack_label)

    assert len(loops[layer.contour("27OSB", live=False).name]) == len(stock.placed) >= 1
    (outline,) = loops[layer.stock("27OSB").name]
    assert shapely.Polygon(outline).bounds == (0.0, 0.0, 2440.0, 610.0)
    words = [text.dxf.text for text in ezdxf.readfile(path).paperspace().query("TEXT")]
    assert "OSB18 cutting rack piece R1" in words
    assert "bay 2" in words
    said = [text.words for text in bench_set.drawn(whole).texts]
    assert "OSB18: offcut R1, bay 2" in said


def test_what_goes_back_is_outlined_and_marked_on_every_sheet(made, written):
    _, _, whole = made
    on, text_on = layer.offcut("27PIR"), layer.offcut_mark("27PIR")
    plan = next(one for one in whole.plans if one.good.short == "PIR75")

    for stock in plan.stocks:
        (path,) = (f for f in written[0] if f.name.endswith(f"-PIR75-{stock.file_name}.dxf"))
        loops = dxf_pen.read_back(path).loops.get(on.name, ())
        assert len(loops) == len(stock.kept)
        for loop, kept in zip(loops, stock.kept, strict=True):
            outline = shapely.Polygon(kept.corners_mm)
            assert shapely.Polygon(loop).hausdorff_distance(outline) < 0.01
            for placed in stock.placed:
                assert outline.intersection(shapely.Polygon(placed.outline_mm)).area < 1.0
        document = ezdxf.readfile(path)
        marked = document.modelspace().query(f'TEXT[layer=="{text_on.name}"]')
        said = " ".join(text.dxf.text for text in marked)
        for kept in stock.kept:
            assert kept.label in said
            assert kept.size.upper().translate(PLAIN).upper() in said.upper()
        if stock.kept:
            assert document.layers.get(on.name).dxf.linetype == "DASHES-OFFCUT"
    assert any(stock.kept for stock in plan.stocks)


def test_an_offcut_of_a_length_is_promised_to_one_run_of_one_job(made):
    _, _, whole = made
    taken = Counter(
        label for job in whole.jobs for cut in job.lengths for label in cut.plan.from_rack
    )
    kept = Counter(
        one.label for job in whole.jobs for cut in job.lengths for one in cut.kept.values()
    )

    assert taken == {"B1": 1, "G1": 1}
    assert max(kept.values()) == 1


def test_the_set_is_barred_by_any_of_its_jobs_and_says_by_which(made):
    _, _, whole = made

    assert not whole.release.allowed
    assert "J12: Revision A has not been released" in whole.release.reason
    assert whole.heading.stamp.watermark == "NOT FOR CUTTING"


def test_no_words_lie_on_words_and_nothing_outside_the_frame(made):
    pages = pdf_set.drawn(made[2])
    frame = shapely.box(20.0, 10.0, 410.0, 287.0)  # ISO 5457, A3
    for number in range(1, pages.page + 1):
        rooms = [
            (one.words, shapely.Polygon(one.corners).buffer(-0.2))
            for one in pages.texts
            if one.page == number and one.words != whole_page_words
        ]
        tree = shapely.STRtree([room for _, room in rooms])
        for i, (words, room) in enumerate(rooms):
            hit = [rooms[j][0] for j in tree.query(room, predicate="intersects") if j > i]
            assert not hit, f"page {number}: “{words}” lies on {hit}"
            assert len(words) == 1 or frame.covers(room), words
    for stroke in pages.strokes:
        inside = shapely.box(*stroke.low, *stroke.high)
        assert stroke.layer == layer.FRAME.name or frame.buffer(0.01).covers(inside), stroke
    assert page.SIZE_MM == (420.0, 297.0)


whole_page_words = "NOT FOR CUTTING"
"""The watermark, which lies behind everything."""


def test_the_manifest_says_what_the_rack_gives_and_gets(made, written):
    found = json.loads((written[1] / "plan.json").read_text(encoding="utf-8"))

    assert {m for one in found["rack"] for m in one["used"]} == {"R1", "B1", "G1"}
    assert found["rack"] == json.loads(json.dumps(rack_papers.of_set(made[2])))


def test_a_set_that_was_cut_changes_the_rack_once_and_in_one_step(
    made, written, tmp_path, monkeypatch
):
    # That only released sets are booked is tested where the rule stands.
    monkeypatch.setattr(rack_papers, "_refuse_unreleased", lambda *_: None)
    rack, holder = filled_rack(tmp_path), made[1]
    with rack_papers.reserved(rack, made[2], holder) as taken:
        assert set(taken) == {"R1", "B1", "G1"}
    used, kept = rack_papers.note_cut(rack, written[1], since=DAY, place="bay 3")
    entries = {entry.piece.label: entry for entry in rack.entries()}

    assert set(used) == {"R1", "B1", "G1"}
    assert all(entries[label].state is RackState.USED for label in used)
    assert {piece.label for piece in kept} == set(entries) - set(used)
    labels = {one.label for p in made[2].plans for s in p.stocks for one in s.kept}
    assert labels <= set(entries)
    with pytest.raises(RackError, match="has already been cut"):
        rack_papers.note_cut(rack, written[1], since=DAY)
    assert {entry.piece.label for entry in rack.entries()} == set(entries)


def test_a_taken_offcut_stops_the_whole_note(written, tmp_path, monkeypatch):
    monkeypatch.setattr(rack_papers, "_refuse_unreleased", lambda *_: None)
    rack = filled_rack(tmp_path)
    rack.remove(["G1"])
    before = rack.entries()

    with pytest.raises(RackError, match="G1"):
        rack_papers.note_cut(rack, written[1], since=DAY)
    assert rack.entries() == before


@pytest.mark.parametrize("content", [None, "{", "[]", '{"made_by": "someone"}'])
def test_a_folder_without_papers_is_refused_with_the_remedy(tmp_path, content):
    if content is not None:
        (tmp_path / "plan.json").write_text(content, encoding="utf-8")

    with pytest.raises(RackError, match="does not contain a set of papers"):
        rack_papers.note_cut(Rack(tmp_path / "rack"), tmp_path, since=DAY)


def test_one_job_with_the_rack_is_drawn_as_a_job_of_its_own(tmp_path):
    rack, job = filled_rack(tmp_path), drawn("J11A")
    found = jobs_together.together([job], rack=rack, effort=Effort.QUICK)
    whole = papers_together.gather(found, [job], rack=rack)

    assert whole.heading.job_code == "J11A"
    assert "together" not in whole.plans[-1].sentence
