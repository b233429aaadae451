import json
from datetime import date

import ezdxf
import numpy as np
import pytest
import shapely

from roofmodel.cutting.plan import plan as cutting_plan
from roofmodel.drawings.dxf import dxf_pen
from roofmodel.drawings.paper import layer
from roofmodel.drawings.paper.release import Release
from roofmodel.drawings.sets import read_back
from roofmodel.drawings.sheets import cutting_sheet, key_plan
from roofmodel.foundation.errors import DrawingError
from roofmodel.workbench.papers import paper_set
from tests.drawings import drawn

CODES = ("BRD-OSB18", "INS-PIR75", "BRD-PB12")


def plans_of(roof):
    return [drawn.plan_of(roof, code) for code in CODES]


def write(roof, folder, plans=None, *, progress=None, **more):
    whole = drawn.set_of(roof, plans or plans_of(roof), **more)
    return paper_set.write(whole, folder, cutting_only=True, progress=progress)


@pytest.fixture(scope="module")
def written(tmp_path_factory):
    roof = drawn.roof_of()
    plans = plans_of(roof)
    folder = tmp_path_factory.mktemp("papers") / "J04"
    return roof, plans, write(roof, folder, plans, issued=date(2026, 1, 2))


def test_one_drawing_for_each_sheet_one_key_plan_one_list_and_the_figures(written):
    _, plans, files = written

    names = [path.name for path in files]
    assert len(names) == sum(plan.sheets for plan in plans) + 4
    assert names[0] == "J04-A-OSB18-sheet-01.dxf"
    lists = ["J04-A-cut-list.csv", "J04-A-cut-order.csv"]
    assert names[-4:] == ["J04-A-key-plan.dxf", *lists, "plan.json"]
    assert all(path.is_file() for path in files)


def test_every_drawing_read_back_is_sound_and_in_millimetres(written):
    for path in written[2]:
        if path.suffix == ".dxf":
            found = dxf_pen.read_back(path)
            assert (found.version, found.unit_code, found.faults) == ("AC1024", 4, ())
            assert all(name.startswith("W-") for name in found.layers)


def test_loops_and_areas_of_every_sheet_equal_the_schedule(written):
    _, plans, files = written
    by_name = {path.name: path for path in files}

    for plan in plans:
        for number in range(1, plan.sheets + 1):
            found = dxf_pen.read_back(by_name[f"J04-A-{plan.good.short}-sheet-{number:02d}.dxf"])
            loops = [
                shapely.Polygon(loop) for loop in found.loops[f"W-{plan.good.drawing_code}-E-CUT"]
            ]
            ordered = [placed.part.area_mm2 for placed in plan.layout.on_sheet(number)]
            assert all(loop.is_valid and loop.exterior.is_ccw for loop in loops)
            assert [loop.area / 1e6 for loop in loops] == pytest.approx(
                [area / 1e6 for area in ordered], abs=0.001
            )


def test_left_and_right_parts_drawn_are_mirror_images_to_a_tenth_of_a_millimetre(written):
    """The two sides of the roof mirror each other, so each L of F1 has its R on F5."""
    _, plans, files = written
    shapes = {}
    for plan in plans:
        for placed in plan.layout.placed:
            path = next(
                p for p in files if f"{plan.good.short}-sheet-{placed.sheet_no:02d}" in p.name
            )
            loops = dxf_pen.read_back(path).loops[f"W-{plan.good.drawing_code}-E-CUT"]
            loop = loops[plan.layout.on_sheet(placed.sheet_no).index(placed)]
            upright = loop * (-1 if placed.turned_deg == 180 else 1)
            shapes[placed.part.mark] = shapely.Polygon(upright - upright.min(axis=0))

    lefts = [mark for mark in shapes if "-F1-" in mark and mark.endswith("-L")]
    rights = [mark for mark in shapes if "-F5-" in mark and mark.endswith("-R")]
    assert len(lefts) == len(rights) >= 2 * len(CODES)
    for left in lefts:
        flipped = shapely.transform(shapes[left], lambda xy: xy * [-1, 1])
        flipped = shapely.transform(flipped, lambda xy: xy - np.array([xy[:, 0].min(), 0]))
        assert min(flipped.hausdorff_distance(shapes[right]) for right in rights) <= 0.1
        assert shapes[left].hausdorff_distance(flipped) > 1.0


def test_the_page_says_revision_day_and_how_many_sheets_are_needed_and_why(written):
    found = dxf_pen.read_back(written[2][0])
    words = " ".join(found.texts)

    assert "Job J04, rev A, issued 2026-01-02" in words
    assert "in 12 pieces" in words
    assert "2440 x 1220 mm" in words
    assert words.isascii()


def test_the_figures_carry_the_names_that_reports_use(written):
    _, plans, files = written
    figures = json.loads(files[-1].read_text(encoding="utf-8"))

    assert [name.rsplit("/", 1)[-1] for name in figures["files"]] == [
        path.name for path in files[:-1]
    ]
    for shown, plan in zip(figures["plans"], plans, strict=True):
        for key in ("material", "sheets", "proved", "pieces"):
            assert shown[key] == getattr(plan, key)
        assert shown["sheet_mm"] == list(plan.sheet_mm)
        assert shown["these_pieces_need"] == 1
        assert 0 < shown["utilisation"] < 1


def test_the_cut_list_opens_with_the_mark_spreadsheets_look_for(written):
    text = written[2][-3].read_bytes()

    assert text.startswith(b"\xef\xbb\xbfMark,Facet,")
    assert text.count(b"\r\n") == 1 + sum(plan.pieces for plan in written[1])


def test_the_same_job_gives_the_same_bytes(tmp_path):
    roof = drawn.roof_of()
    one, two = (write(roof, tmp_path / name, [drawn.plan_of(roof)]) for name in "ab")

    for a, b in zip(one, two, strict=True):
        assert a.read_bytes() == b.read_bytes(), a.name


def test_a_plan_from_the_nester_is_drawn_and_read_back(tmp_path):
    roof = drawn.roof_of(drawn.SHAPES["hipped"])
    found = cutting_plan(roof.facets, drawn.good(), job_code="J06", effort="quick")

    files = write(roof, tmp_path / "J06", [found], job_code="J06", revision="B")
    assert len(files) == found.sheets + 4


def test_progress_is_told_to_the_last_paper(tmp_path):
    roof = drawn.roof_of()
    told = []
    files = write(
        roof, tmp_path / "J04", [drawn.plan_of(roof)], progress=lambda *so_far: told.append(so_far)
    )

    assert told == [(done, len(files)) for done in range(1, len(files) + 1)]


def test_a_run_that_fails_leaves_the_earlier_set(tmp_path, monkeypatch):
    roof = drawn.roof_of()
    folder = tmp_path / "J04"
    earlier = {path: path.read_bytes() for path in write(roof, folder)}

    def fail(plan, pen):
        raise DrawingError("no room for the facets")

    monkeypatch.setattr(key_plan, "draw", fail)
    with pytest.raises(DrawingError, match="no room"):
        write(roof, folder, [drawn.plan_of(roof)])
    assert {path: path.read_bytes() for path in folder.rglob("*.*")} == earlier
    assert [entry.name for entry in tmp_path.iterdir()] == ["J04"]


def test_a_drawing_that_lost_a_part_is_found_out(tmp_path, monkeypatch):
    roof = drawn.roof_of()
    draw = cutting_sheet.draw

    def forgetful(sheet, pen):
        draw(
            drawn.sheet_of(
                *sheet.placed[1:], roof=sheet.plan.owners["J04"].surface, material=sheet.good
            ),
            pen,
        )

    monkeypatch.setattr(cutting_sheet, "draw", forgetful)
    with pytest.raises(DrawingError, match="0 outlines are drawn for 1 parts"):
        write(roof, tmp_path / "J04", [drawn.plan_of(roof)])
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("spoil", "says"),
    [
        (lambda xy: xy[::-1], "does not run counter-clockwise"),
        (lambda xy: [*xy, xy[-1]], "has a corner twice"),
        (lambda xy: [(x + 3000, y) for x, y in xy], "leaves the stock sheet"),
        (lambda xy: [(x * 0.9, y) for x, y in xy], "is drawn"),
    ],
)
def test_a_drawing_with_a_spoilt_outline_is_found_out(tmp_path, spoil, says):
    sheet = drawn.sheet_of(drawn.placed(drawn.rectangle(900, 500)))
    drawing = dxf_pen.DxfDrawing()
    ((corners, on),) = [(sheet.placed[0].outline_mm, layer.cut("27OSB"))]
    drawing.model.outline(spoil(corners), layer=on)
    drawing.save(tmp_path / "a.dxf")

    with pytest.raises(DrawingError, match=says):
        read_back.check_sheet(tmp_path / "a.dxf", sheet)


def test_two_materials_of_one_short_name_are_refused_before_anything_is_written(tmp_path):
    roof = drawn.roof_of()
    with pytest.raises(DrawingError, match="OSB18"):
        write(roof, tmp_path / "J04", [drawn.plan_of(roof), drawn.plan_of(roof)])
    assert list(tmp_path.iterdir()) == []


def test_without_a_plan_there_is_nothing_to_draw(tmp_path):
    with pytest.raises(DrawingError, match="no cutting plan"):
        paper_set.write(drawn.set_of(drawn.roof_of(), []), tmp_path / "J04", cutting_only=True)


@pytest.mark.parametrize(("reasons", "barred"), [((), False), (("Nobody has released it.",), True)])
def test_every_piece_and_title_block_says_whether_it_may_be_cut(tmp_path, reasons, barred):
    """On the piece too: a saw is sent the pieces, not the title block."""
    files = write(
        drawn.roof_of(),
        tmp_path / "J04",
        [drawn.plan_of(drawn.roof_of())],
        release=Release(reasons=reasons),
    )

    for file in (one for one in files if one.suffix == ".dxf"):
        document = ezdxf.readfile(file)
        page = [text.dxf.text for text in document.paperspace().query("TEXT")]
        assert ("NOT FOR CUTTING" if barred else "FOR CUTTING") in page
        pieces = [text.dxf.text for text in document.modelspace().query("TEXT")]
        barred_pieces = sum("NOT FOR CUTTING" in words for words in pieces)
        marks = sum(words.startswith("REV A") for words in pieces)
        assert barred_pieces == (marks if barred else 0)
    assert json.loads(files[-1].read_text())["status"].startswith("NOT") is barred
