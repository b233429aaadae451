"""Methods applied to the acceptance jobs' roofs."""

from collections import Counter
from itertools import pairwise

import pytest

from roofmodel.geometry import trimesh_of
from roofmodel.refit import layer_bodies
from roofmodel.refit.method import Method
from roofmodel.shapes.roof import LineKind
from roofmodel.survey.taped.findings import Severity
from tests import acceptance_jobs


def refit(code, method=None, **changes):
    job = acceptance_jobs.drawn(code, **changes)
    return (job.option if method is None else job.option_of(method)).refit


def layer(found, code):
    return next(one for one in found.layers if one.material.code == code)


def stops(option):
    return [f for f in option.findings if f.severity is Severity.STOP]


def test_a_lining_kept_off_the_frames_is_as_small_as_the_room():
    found = refit("J01", refit={"room_inset_mm": 60.0})

    # 3880 between the verges; the eaves side moves in 60 on plan, the wall stays: 2740 of 2800.
    lining, deck = layer(found, "BRD-PB12"), layer(found, "BRD-OSB18")
    assert found.area_m2(lining) == pytest.approx(11.595 * (3880 / 4000) * (2740 / 2800), abs=0.001)
    assert found.area_m2(deck) == pytest.approx(11.595, abs=0.001)
    assert "60 inside eaves and verges" in found.surfaces[lining.number].words


def test_an_overhang_lengthens_the_deck_down_the_slope():
    found = refit("J01", refit={"eaves_overhang_mm": 40.0})

    deck = found.cut_facets(layer(found, "BRD-OSB18"))[0]
    assert deck.slope_length_mm == pytest.approx(2898.77 + 40.0, abs=0.01)


def test_a_deck_is_carried_by_the_bars_and_by_bearers_midway():
    bare, borne = refit("J10"), refit("J10", refit={"bearers_per_bay": 1})

    assert bare.supports_mm(layer(bare, "BRD-OSB18"))["F1"] == pytest.approx([1050.0, 2100.0])
    assert borne.supports_mm(layer(borne, "BRD-OSB18"))["F1"] == pytest.approx(
        [525.0, 1050.0, 1575.0, 2100.0, 2625.0]
    )


def test_panels_reach_into_their_seats_and_boards_stop_short_of_the_bars():
    boards, panels = refit("J01"), refit("J01", Method.PANEL_SWAP)

    assert {round(bay.width_mm, 1) for bay in boards.bays} == {596.7}
    assert {round(bay.width_mm, 1) for bay in panels.bays} == {630.7}


def test_the_fitting_gap_of_the_job_is_the_one_left():
    found = refit("J04", refit={"fitting_gap_mm": 8.0})

    sizes = Counter((round(bay.width_mm, 1), bay.hand) for bay in found.bays)
    # Rectangles of both side facets, and triangles, four of each hand.
    assert sizes == {(540.7, "N"): 6, (646.3, "L"): 4, (646.3, "R"): 4}


def test_a_facet_kept_glazed_is_in_no_layer():
    found = refit("J04", refit={"kept_glazed": ["F3"]})

    assert found.facets == ("F1", "F2", "F4", "F5")
    assert found.area_m2(layer(found, "BRD-OSB18")) == pytest.approx(12.743 - 1.400, abs=0.005)
    assert not [bay for bay in found.bays if bay.facet == "F3"]


def test_a_facet_that_does_not_exist_is_named_with_the_ones_that_do():
    option = acceptance_jobs.drawn("J04", refit={"kept_glazed": ["F9"]}).option

    assert option.refit is None
    assert "no facet F9" in option.refused
    assert "F1, F2" in option.refused


def test_tiles_are_refused_below_fourteen_degrees_and_panels_are_not():
    job = acceptance_jobs.drawn("J02")

    assert "10.94°" in job.option_of(Method.BUILD_ROUND).refused
    assert not stops(job.option_of(Method.PANEL_SWAP))


def test_a_build_up_too_high_for_the_sill_is_refused():
    standing = {"glazing": "polycarbonate", "bar_depth_mm": 75.0, "sill_height_mm": 3000.0}
    option = acceptance_jobs.drawn("J01", standing=standing).option
    high = acceptance_jobs.drawn("J01", standing={**standing, "sill_height_mm": 3100.0}).option

    # Wall plate at 2100 + 750.3; 47.5 over the bars is 49.2 plumb at 15°, and 150 of flashing.
    assert "49 mm too high" in option.refused
    assert "3000 mm" in option.refused
    assert high.refused == ""


def test_a_bay_wider_than_its_board_is_refused_with_a_remedy():
    bars = [{"facet": "F1", "width_mm": 60.0, "bays": 2}]
    option = acceptance_jobs.drawn("J10", bars=bars).option

    assert "1505.0 mm across" in option.refused
    assert "wider stock" in option.refused


def test_without_bars_insulation_is_laid_whole_and_that_is_said():
    option = acceptance_jobs.drawn("J05").option
    texts = [finding.text for finding in option.findings]

    assert option.refused == ""
    assert any("counted there as whole boards" in text for text in texts)
    assert acceptance_jobs.drawn("J05").option_of(Method.PANEL_SWAP).refused


def test_a_new_roof_has_rafters_no_farther_apart_than_asked():
    found = refit("J06", refit={"method": "new-roof", "rafter_spacing_mm": 600.0})

    for facet in found.covered_facets:
        ridge = [line for line in found.site.roof.lines if line.kind is LineKind.RIDGE]
        assert ridge
        places = found.members.of_facet(facet.name).layout.centres_mm
        gaps = [b - a for a, b in pairwise(places)]
        assert max(gaps) <= 600.0 + 1e-6


@pytest.mark.parametrize("code", ["J01", "J04", "J05", "J06", "J07"])
@pytest.mark.parametrize("method", list(Method))
def test_every_layer_is_a_watertight_body_of_its_thickness(code, method):
    found = refit(code, method)

    for one in layer_bodies.of_refit(found):
        body = trimesh_of.body(one.body)
        assert body.is_watertight
        if one.placed.layer.lie == "over":
            area_m2 = body.volume / 1e6 / one.placed.thickness_mm
            # A layer is larger than the datum outside it and smaller inside, by its own depth.
            assert area_m2 == pytest.approx(found.site.roof.area_m2, rel=0.12)


@pytest.mark.parametrize("code", ["J04", "J07"])
def test_no_new_timber_carries_the_mark_of_an_old_bar(code):
    drawn = acceptance_jobs.drawn(code)
    new = drawn.option_of(Method.NEW_ROOF).refit.members
    marks = [
        {one.mark for one in (*members.bars, *members.roof_bars)}
        for members in (drawn.members, new)
    ]

    assert all(len(some) > 3 for some in marks)
    assert not marks[0] & marks[1]
