"""Details at 1 : 5: layers in their own thicknesses, mitres that meet, words that keep apart."""

import math

import pytest
import shapely

from roofmodel.drawings.details import detail, details
from roofmodel.drawings.details.detail import ROOM_MM, Detail, DetailOutline, Note
from roofmodel.drawings.details.detail_lines import Meeting
from roofmodel.drawings.details.detail_run import Run
from roofmodel.drawings.paper import page
from roofmodel.foundation import resources
from roofmodel.refit.method import Method
from roofmodel.shapes.roof import LineKind
from roofmodel.storage import job_file
from roofmodel.workbench.job import reckoning
from tests import acceptance_jobs

SAMPLES = sorted(resources.sample_roofs().glob(f"*{job_file.SUFFIX}"))


def of_job(code, method=Method.BUILD_ROUND, **changes):
    drawn = acceptance_jobs.drawn(code, **changes)
    return details.of_refit(drawn.option_of(method).refit, drawn.job.site)


def titled(found, words):
    return next(one for one in found if words in one.title)


def thickness_mm(piece):
    """Return the distance between the two long sides of a layer's outline."""
    a, b, c, _ = piece.corners
    along = (b[0] - a[0], b[1] - a[1])
    return abs(along[0] * (c[1] - a[1]) - along[1] * (c[0] - a[0])) / math.hypot(*along)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.name.partition(".")[0])
def test_every_detail_of_every_method_fits_a_page_at_1_to_5(path):
    drawn = reckoning.reckon(job_file.read(path))
    for method in Method:
        refit = drawn.option_of(method).refit
        if refit is None:
            continue
        found = details.of_refit(refit, drawn.job.site)
        assert found
        for one in found:
            low, high = detail.extents_mm(one)
            assert page.scale_for((high[0] - low[0], high[1] - low[1])) == 5.0, one.title


def test_the_lean_to_has_eaves_wall_and_verges():
    assert [one.title for one in of_job("J01")] == [
        "Detail: eaves of F1, pitch 15.0°",
        "Detail: house wall of F1, pitch 15.0°",
        "Detail: verge of F1",
    ]


def test_the_double_hip_has_box_gutter_ridge_and_both_kinds_of_hip():
    """Acceptance job J05: bevels 8.24° in front and 15.36° at the rear corners."""
    found = of_job("J05")
    assert any("box gutter" in one.title for one in found)
    assert any("ridge" in one.title for one in found)
    hips = " ".join(" ".join(one.remarks) for one in found if "hip" in one.title)
    assert "8.24°" in hips
    assert "15.36°" in hips


@pytest.mark.parametrize("place", ["eaves", "house wall", "verge"])
def test_layers_are_drawn_in_their_own_thicknesses(place):
    drawn = acceptance_jobs.drawn("J01")
    refit = drawn.option_of(Method.BUILD_ROUND).refit
    one = titled(details.of_refit(refit, drawn.job.site), place)
    shown = {round(thickness_mm(piece), 6) for piece in one.pieces}
    built = {round(layer.thickness_mm, 6) for layer in refit.layers if layer.thickness_mm > 3.0}
    assert {75.0, 12.5, 30.0} < built <= shown


def test_the_eaves_stand_at_the_pitch_of_their_facet():
    one = titled(of_job("J01"), "eaves")
    board = next(piece for piece in one.pieces if abs(thickness_mm(piece) - 75.0) < 1e-6)
    (x0, y0), (x1, y1) = board.corners[:2]
    assert math.degrees(math.atan2(y1 - y0, x1 - x0)) == pytest.approx(15.0)


def test_the_flashing_goes_150_mm_up_from_the_new_surface():
    one = titled(of_job("J01"), "house wall")
    upstand = one.measures[0]
    assert upstand.end[1] - upstand.start[1] == pytest.approx(150.0)
    assert upstand.words == "150"


@pytest.mark.parametrize("falls", [(25.0, 25.0), (25.0, 35.0), (9.3, 9.3), (-15.4, -15.4)])
def test_both_sides_of_a_mitre_meet_at_every_depth(falls):
    where = Meeting(kind=LineKind.RIDGE, falls_deg=falls)
    left, right = Run(turn_deg=-falls[0], leftwards=True), Run(turn_deg=-falls[1])
    for offset in (-180.0, -75.0, 0.0, 43.5):
        a = left.spot(where.mitre(right=False) * offset, offset)
        b = right.spot(where.mitre(right=True) * offset, offset)
        assert a == pytest.approx(b, abs=1e-9)


def test_a_panel_swap_says_what_is_kept_and_has_no_tray():
    words = [note.words for note in titled(of_job("J01", Method.PANEL_SWAP), "eaves").notes]
    assert any("kept where sound" in one for one in words)
    assert not any("tray" in one for one in words)


def test_labels_of_one_side_keep_apart_and_stay_within_their_room():
    for one in of_job("J05"):
        for side in ("left", "right"):
            boxes = [
                shapely.box(
                    min(x for x, _ in label.starts()),
                    label.starts()[-1][1],
                    min(x for x, _ in label.starts()) + ROOM_MM,
                    label.starts()[0][1] + detail.LETTERS_MM,
                )
                for label in detail.labels(one)
                if label.side == side
            ]
            for i, a in enumerate(boxes):
                assert not any(a.intersects(b) for b in boxes[i + 1 :]), one.title


def test_words_about_layers_stand_from_the_covering_down_to_the_room():
    found = detail.labels(titled(of_job("J01"), "eaves"))
    right = [label for label in found if label.side == "right"]
    from_above = sorted(right, key=lambda label: -label.leader[1])
    numbers = [int(label.lines[0].split()[0]) for label in from_above]
    assert numbers == sorted(numbers, reverse=True)


def test_hatching_stays_within_its_outline():
    corners = ((0.0, 0.0), (200.0, 40.0), (180.0, 110.0), (-20.0, 70.0))
    lines = detail.hatching(corners)
    outline = shapely.Polygon(corners).buffer(1e-6)
    assert len(lines) > 5
    assert all(outline.contains(shapely.LineString(line)) for line in lines)


def test_a_box_gutter_is_drawn_as_measured_or_says_that_it_is_not():
    site = {"box_width_mm": 260.0, "box_depth_mm": 120.0}
    assert "measure it" in " ".join(titled(of_job("J05"), "box gutter").remarks)
    read = titled(of_job("J05", site=site), "box gutter")
    assert read.measures[0].words == "260"
    assert read.measures[0].end[0] - read.measures[0].start[0] == 260.0


def test_the_extents_hold_the_words_too():
    bare = Detail(title="", pieces=(DetailOutline(((0, 0), (10, 0), (10, 10), (0, 10))),))
    noted = Detail(title="", pieces=bare.pieces, notes=(Note("some words", (0.0, 5.0)),))
    assert detail.extents_mm(noted)[0][0] < detail.extents_mm(bare)[0][0] - 60.0
