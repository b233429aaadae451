"""Every DXF of a job as two independent readers see it: ezdxf and GDAL."""

import re

import ezdxf
import numpy as np
import pyogrio
import pytest
import shapely

from roofmodel.cutting.nesting.nest import Effort
from roofmodel.drawings.dxf import dxf_pen
from roofmodel.drawings.paper import layer
from roofmodel.workbench.job import reckoning
from roofmodel.workbench.papers import paper_set
from tests import acceptance_jobs
from tests.drawings import drawn


@pytest.fixture(scope="module")
def job():
    made = acceptance_jobs.drawn("J04")
    plans = reckoning.cut(made, effort=Effort.QUICK)
    return drawn.for_cutting(paper_set.gather(made, made.option, plans))


@pytest.fixture(scope="module")
def folder(job, tmp_path_factory):
    found = tmp_path_factory.mktemp("papers") / "J04"
    paper_set.write(job, found, with_r12=True)
    return found


def by_ezdxf(path):
    """Return the closed loops of a file by layer."""
    return {
        name: [shapely.Polygon(loop) for loop in loops]
        for name, loops in dxf_pen.read_back(path).loops.items()
    }


def by_gdal(path):
    """Return the closed loops of a file by layer; two ends on one spot close a line.

    This reader does not tell the page from the model, so the page's frame is left out.
    """
    _, _, shapes, fields = pyogrio.raw.read(path)
    found = {}
    for name, shape in zip(fields[0], shapes, strict=True):
        line = shapely.from_wkb(shape)
        if line.geom_type == "LineString" and line.is_closed and len(line.coords) > 3:
            found.setdefault(str(name), []).append(shapely.Polygon(line.coords))
    found.pop(layer.FRAME.name, None)
    return found


def cut_loops(path, code, reader=by_ezdxf):
    return reader(path).get(layer.cut(code).name, [])


def parts(job):
    return {part.mark: (part, plan) for plan in job.plans for part in plan.parts}


def test_two_readers_find_the_same_loops_in_every_file_and_release(folder):
    """Sheets, parts, facets and key plan, in R2010 and R12, by ezdxf and by GDAL."""
    paths = sorted(folder.rglob("*.dxf"))
    kinds = {"sheet", "part", "facet", "key-plan"}
    assert {kind for kind in kinds for path in paths if f"-{kind}" in path.name} == kinds
    for path in paths:
        ours, theirs = by_ezdxf(path), by_gdal(path)
        assert ours.keys() == theirs.keys(), path.name
        for name, loops in ours.items():
            assert len(loops) == len(theirs[name]) > 0
            for one, other in zip(loops, theirs[name], strict=True):
                assert one.hausdorff_distance(other) < 1e-3


def test_every_drawing_is_there_in_both_releases(folder):
    new = {path.stem for path in folder.rglob("*.dxf") if not path.stem.endswith("-r12")}
    old = {path.stem.removesuffix("-r12") for path in folder.rglob("*-r12.dxf")}
    assert new == old


def test_every_text_is_in_the_single_stroke_font(folder):
    for path in sorted(folder.rglob("*.dxf")):
        document = ezdxf.readfile(path)
        texts = [one for space in document.layouts for one in space.query("TEXT")]
        assert texts, path.name
        styles = {text.dxf.style for text in texts}
        assert {document.styles.get(style).dxf.font for style in styles} == {"txt.shx"}


@pytest.mark.parametrize("reader", [by_ezdxf, by_gdal])
@pytest.mark.parametrize("short", ["PIR75", "OSB18"])
def test_files_of_left_and_right_parts_are_mirror_images(job, folder, reader, short):
    """J04: F2 and F4 mirror each other, and so do F1 and F5; to a tenth of a millimetre."""
    code = next(plan.good.drawing_code for plan in job.plans if plan.good.short == short)
    loops = {
        hand: [
            loop
            for path in folder.rglob(f"*-part-*-{short}-{hand}-B????.dxf")
            for loop in cut_loops(path, code, reader)
        ]
        for hand in "LR"
    }
    assert len(loops["L"]) == len(loops["R"]) > 0
    for left in loops["L"]:
        width = left.bounds[2]
        image = shapely.transform(left, lambda xy, width=width: [width, 0] + xy * [-1, 1])
        assert min(image.hausdorff_distance(right) for right in loops["R"]) <= 0.1
        assert image.hausdorff_distance(left) > 1.0


def test_every_part_has_a_file_of_its_own_that_is_the_part(job, folder):
    for mark, (part, plan) in parts(job).items():
        for ending in ("parts/{}.dxf", "machine/{}-r12.dxf"):
            name = ending.format(f"{job.heading.file_stem}-part-{mark}")
            (loop,) = cut_loops(folder / name, plan.good.drawing_code)
            wanted = shapely.Polygon(np.array(part.corners) / 10.0)
            assert loop.area == pytest.approx(wanted.area, abs=1.0)
            assert loop.hausdorff_distance(wanted) < 0.01
            assert loop.exterior.is_ccw
            assert loop.bounds[:2] == pytest.approx((0.0, 0.0), abs=0.01)


def test_left_and_right_are_mirror_images(job):
    """J04: bays of F1 and F5, F2 and F4 that lie at a hip come in pairs of left and right hands."""
    found = parts(job)
    mirrored = 0
    for mark, (part, plan) in found.items():
        if plan.good.short != "PIR75" or part.hand != "L":
            continue
        width = part.length_tenths
        image = shapely.Polygon([(width - x, y) for x, y in part.corners])
        twins = [
            other
            for other, _ in found.values()
            if other.material == part.material
            and other.hand == "R"
            and shapely.Polygon(other.corners).hausdorff_distance(image) <= 1.0
        ]
        assert twins, f"{mark} has no right-hand twin to 0.1 mm"
        mirrored += 1
    assert mirrored == 5


def test_a_board_with_a_face_is_never_turned_over(job):
    for plan in job.plans:
        for placed in plan.placed:
            if plan.good.faces != "alike" or any(placed.part.bevels_deg):
                assert not placed.turned_over


def first_two_of_each_kind(folder):
    """Files of one kind and release are written by the same lines of the program."""
    kinds = {}
    for path in sorted(folder.rglob("*.dxf")):
        kinds.setdefault(re.sub(r"F?\d+(-[A-Z]\w*)?", "*", path.name), []).append(path)
    assert len(kinds) > 6
    return [path for paths in kinds.values() for path in paths[:2]]


def test_nothing_lies_on_layer_0_and_every_file_passes_its_audit(folder):
    for path in first_two_of_each_kind(folder):
        found = dxf_pen.read_back(path)
        assert not found.faults, path.name
        assert "0" not in found.layers, path.name
        wanted = "AC1009" if path.name.endswith("-r12.dxf") else "AC1024"
        assert found.version == wanted


def test_extents_are_the_board_and_the_page_lies_beside_it(job, folder):
    """A reader that shows page and model at once must not draw the frame on the board."""
    for path in folder.rglob("*-sheet-[0-9][0-9].dxf"):
        document = ezdxf.readfile(path)
        plan = next(p for p in job.plans if p.short_in_files in path.name)
        size = (plan.good.length_mm, plan.good.width_mm, 0.0)
        assert document.header["$EXTMIN"] == (0.0, 0.0, 0.0)
        assert document.header["$EXTMAX"] == size
        assert len(document.paperspace()) > 0
        for entity in document.paperspace():
            if entity.dxftype() == "LWPOLYLINE":
                assert max(y for _, y in entity.get_points("xy")) < 0.0


def test_what_must_not_be_cut_has_no_layer_a_saw_looks_at(tmp_path):
    made = acceptance_jobs.drawn("J01")
    plans = reckoning.cut(made, effort=Effort.QUICK)
    files = paper_set.write(paper_set.gather(made, made.option, plans), tmp_path / "out")

    for path in (one for one in files if one.suffix == ".dxf"):
        names = dxf_pen.read_back(path).layers
        assert not [name for name in names if name.endswith("-E-CUT")]
