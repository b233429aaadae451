"""Every DXF of a job as two independent readers see it: ezdxf and GDAL."""

import numpy as np
import pyogrio
import pytest
import shapely

from roofmodel.cutting.nest import Effort
from roofmodel.drawings import dxf_pen, layer
from roofmodel.workbench import paper_set, reckoning
from tests import acceptance_jobs


@pytest.fixture(scope="module")
def job():
    drawn = acceptance_jobs.drawn("J04")
    return paper_set.gather(drawn, drawn.option, reckoning.cut(drawn, effort=Effort.QUICK))


@pytest.fixture(scope="module")
def folder(job, tmp_path_factory):
    found = tmp_path_factory.mktemp("papers") / "J04"
    paper_set.write(job, found)
    return found


def by_ezdxf(path, code):
    loops = dxf_pen.read_back(path).loops.get(layer.cut(code).name, ())
    return [shapely.Polygon(loop) for loop in loops]


def by_gdal(path, code):
    _, _, shapes, fields = pyogrio.raw.read(path)
    return [
        shapely.Polygon(shapely.from_wkb(shape).coords)
        for name, shape in zip(fields[0], shapes, strict=True)
        if str(name) == layer.cut(code).name
    ]


def parts(job):
    return {part.mark: (part, plan) for plan in job.plans for part in plan.parts}


def test_two_readers_find_the_same_loops_in_every_file_and_release(job, folder):
    codes = {plan.good.short: plan.good.drawing_code for plan in job.plans}
    for short, code in codes.items():
        for path in sorted(folder.glob(f"*-{short}-sheet-*.dxf")):
            ours, theirs = by_ezdxf(path, code), by_gdal(path, code)
            assert len(ours) == len(theirs) > 0
            for one, other in zip(ours, theirs, strict=True):
                assert one.hausdorff_distance(other) < 1e-3


def test_every_part_has_a_file_of_its_own_that_is_the_part(job, folder):
    for mark, (part, plan) in parts(job).items():
        for ending in (".dxf", "-r12.dxf"):
            (loop,) = by_ezdxf(folder / f"J04-A-part-{mark}{ending}", plan.good.drawing_code)
            wanted = shapely.Polygon(np.array(part.corners) / 10.0)
            assert loop.area == pytest.approx(wanted.area, abs=1.0)
            assert loop.hausdorff_distance(wanted) < 0.01
            assert loop.exterior.is_ccw
            assert loop.bounds[:2] == pytest.approx((0.0, 0.0), abs=0.01)


def test_left_and_right_are_mirror_images(job):
    """J04: parts of F1 and F5, F2 and F4 come in pairs of left and right hands."""
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
    assert mirrored == 4


def test_a_board_with_a_face_is_never_turned_over(job):
    for plan in job.plans:
        for placed in plan.placed:
            if plan.good.faces != "alike" or any(placed.part.bevels_deg):
                assert not placed.turned_over


def test_nothing_lies_on_layer_0_and_every_file_passes_its_audit(folder):
    for path in sorted(folder.glob("*.dxf")):
        found = dxf_pen.read_back(path)
        assert not found.faults, path.name
        assert "0" not in found.layers, path.name
        wanted = "AC1009" if path.name.endswith("-r12.dxf") else "AC1024"
        assert found.version == wanted
