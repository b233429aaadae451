"""Rules of the trade that were read or quoted somewhere, against what the program holds.

Each test names its row of the check values, its status and its source. READ: seen in the document;
READ-2nd: seen in somebody's summary; MEMORY: not seen, and marked unverified in the program.
"""

import math

import pytest

from roofmodel.gates.buildable import fixings
from roofmodel.gates.damp import rules as condensation_rules
from roofmodel.gates.rain import box_gutter as rainwater_box
from roofmodel.gates.timber import screen as members_screen
from roofmodel.geometry.joint import jack_side_cut_deg
from roofmodel.refit.method import Method
from roofmodel.shapes.polygonal_end import PolygonalEnd
from roofmodel.shapes.roof import LineKind
from roofmodel.standards import approved_document_h_2015 as document_h
from roofmodel.standards import bs_5534_2014 as bs_5534
from roofmodel.standards import en_338_2016 as en_338
from roofmodel.standards import en_1991_1_1_2002 as en_1991_1_1
from roofmodel.standards import en_1991_1_3_2003 as en_1991_1_3
from roofmodel.standards import en_1995_1_1_2004 as en_1995_1_1
from roofmodel.standards import en_12056_3_2000 as en_12056_3
from roofmodel.standards import iso_13788_2012 as iso_13788
from roofmodel.standards import new_home_warranty_2020 as new_home_warranty
from roofmodel.standards import panel_guide_2 as panel_guide
from tests import acceptance_jobs
from tests.worked_examples.test_rafter_table import measured


@pytest.mark.parametrize(("rise", "common"), [(16.0, 20.00), (13.0, 17.69)])
def test_g_08_common_rafters_of_steep_roofs_are_as_printed(rise, common):
    """READ: a US Army manual on carpentry, scale method."""
    assert measured(rise)["common"] == pytest.approx(common, abs=0.005)


def test_g_25_a_strip_lying_on_one_slope_is_cut_to_another_as_printed():
    """READ: a page on compound cuts; pitch 39.80557° against a plane at 30.25644°.

    Bevel 33.57154° = asin(sin a cos b), mitre 52.78951° = atan(cos a / tan b): what a jack has on
    the face, and its backing, with the second angle as the plan angle.
    """
    pitch, plan = 39.80557, 30.25644
    assert jack_side_cut_deg(pitch, plan) == pytest.approx(52.78951, abs=2e-5)
    bevel = math.asin(math.sin(math.radians(pitch)) * math.cos(math.radians(plan)))
    assert math.degrees(bevel) == pytest.approx(33.57154, abs=2e-5)


@pytest.mark.parametrize(("facets", "run"), [(3, 2.1648), (4, 2.1029), (5, 2.0706)])
def test_g_47_the_corner_of_a_polygonal_end_runs_as_far_as_its_turn_says(facets, run):
    """CALC: common run 2.0 over cos 22.5°, cos 18° and cos 15°."""
    roof = PolygonalEnd(
        width_mm=4000.0, projection_mm=5000.0, pitch_deg=25.0, end_facets=facets
    ).roof(eaves_height_mm=2000.0)
    longest = max(line.plan_length_mm for line in roof.lines_of(LineKind.HIP))
    assert longest / 1e3 == pytest.approx(run, abs=1e-4)


@pytest.mark.parametrize(("sd_m", "resistance"), [(0.05, 0.25), (50.0, 250.0), (100.0, 500.0)])
def test_c_07_a_metre_of_still_air_is_five_meganewton_seconds_a_gram(sd_m, resistance):
    """READ-2nd, arithmetic: 1 / (2e-10 × 1e9)."""
    assert iso_13788.vapour_resistance_mns_g(sd_m) == pytest.approx(resistance)


def test_c_08_rooms_of_a_humidity_class_hold_so_much_more_vapour():
    """MEMORY: ISO 13788 annex A; the source says so."""
    assert list(iso_13788.EXCESS_PA.values()) == [270.0, 540.0, 810.0, 1080.0]
    assert iso_13788.room_pressure_pa(3, 20.0, 1000.0) == pytest.approx(1000.0)
    assert "memory" in str(iso_13788.ROOM)


def test_c_09_mould_is_asked_about_at_eighty_percent_on_the_surface():
    """READ-2nd, BS 5250 annex D: 12.6 °C on the surface for 20 °C and 50 % at 80 %."""
    asked = iso_13788.least_surface_factor(20.0, 0.5 * iso_13788.saturation_pa(20.0), 0.0)
    surface_c = 20.0 * asked
    assert 0.5 * iso_13788.saturation_pa(20.0) == pytest.approx(
        0.8 * iso_13788.saturation_pa(surface_c), rel=1e-6
    )


def test_l_09_exposure_and_warmth_are_taken_as_one():
    """READ-2nd: the document's normal site; that the UK takes it everywhere is MEMORY."""
    assert en_1991_1_3.EXPOSURE == en_1991_1_3.THERMAL == 1.0
    assert en_1991_1_3.on_roof_kn_m2(0.8, 0.5) == pytest.approx(0.4)


def test_l_10_drifted_snow_weighs_as_settled_snow():
    """READ-2nd, annex E: settled 2 kN/m³."""
    assert en_1991_1_3.DENSITY_KN_M3 == 2.0


def test_l_20_a_man_counts_as_0_9_kn_and_the_document_itself_recommends_otherwise():
    """MEMORY for the UK; READ-2nd for the recommended 0.4 kN/m² and 1.0 kN."""
    assert en_1991_1_1.POINT_UK_KN == 0.9
    recommended = (en_1991_1_1.RECOMMENDED_KN_M2, en_1991_1_1.RECOMMENDED_POINT_KN)
    assert recommended == (0.4, 1.0)


def test_t_05_timber_creeps_as_quoted():
    """READ-2nd and MEMORY: kdef 0.6, 0.8, 2.0."""
    assert en_1995_1_1.K_DEF == {1: 0.6, 2: 0.8, 3: 2.0}


def test_t_06_timber_has_a_partial_factor_of_1_3():
    """READ-2nd; a characteristic 16 by kmod 0.9 designs to 11.08."""
    assert en_1995_1_1.GAMMA_TIMBER == 1.3
    assert en_1995_1_1.design(16.0, 0.9) == pytest.approx(11.077, abs=1e-3)


def test_t_10_members_count_as_those_of_a_cold_roof():
    """READ-2nd, a yearbook on the UK annex: 1 for warm roofs, 2 for cold ones; 2 is taken."""
    beam = members_screen.Beam(
        name="rafter",
        strength=en_338.strength_class("C16"),
        width_mm=47.0,
        depth_mm=145.0,
        span_mm=2400.0,
    )
    assert beam.service_class == 2


def test_r_01_headlaps_are_as_read():
    """READ, published new-home warranty standards 7.2.19."""
    assert new_home_warranty.HEADLAP_MM == {
        "plain tile": 65.0,
        "interlocking concrete tile": 75.0,
        "slate": 54.0,
    }
    assert new_home_warranty.LEAST_PITCH.verified


@pytest.mark.parametrize(
    ("pitch_deg", "free", "on_boards"),
    [(12.5, 225.0, 150.0), (14.9, 225.0, 150.0), (15.0, 150.0, 100.0), (35.0, 100.0, 75.0)],
)
def test_r_02_underlay_laps_by_pitch(pitch_deg, free, on_boards):
    """MEMORY, BS 5534, and said so wherever it is printed."""
    assert bs_5534.underlay_lap_mm(pitch_deg, supported=False) == free
    assert bs_5534.underlay_lap_mm(pitch_deg, supported=True) == on_boards
    assert bs_5534.underlay_lap_mm(12.0, supported=True) is None
    assert "memory" in str(bs_5534.LAPS)


def test_r_03_and_r_05_are_printed_with_the_fixings_of_a_deck():
    """R-03 READ: 100 mm upright laps. R-05 READ-2nd: two fixings at the rim, every cap fixed."""
    refit = acceptance_jobs.drawn("J01").option_of(Method.BUILD_ROUND).refit
    deck = fixings.of_deck(refit)[0]
    rows = dict(deck.details)
    assert rows["underlay, lap up the slope"].startswith("100 mm")
    assert rows["tiles at eaves, verge, ridge and hip"] == "2 fixings each"
    assert "mortar" in rows["ridge and hip caps"]
    assert [bs_5534.tile_fixing(pitch) for pitch in (25.0, 45.0, 55.0)] == [
        "every tile fixed",
        "every tile nailed",
        "every tile nailed and clipped",
    ]


def test_r_06_an_underlay_of_low_resistance_is_five_hundredths_of_a_metre():
    """READ, published new-home warranty standards 7.2.14: 0.25 MN s/g; on boards it is tight."""
    assert iso_13788.vapour_resistance_mns_g(0.05) == pytest.approx(0.25)
    assert condensation_rules.ON_BOARDS.verified


def test_r_07_a_ventilated_roof_has_50_mm_clear_with_25_and_5_mm_openings():
    """READ-2nd, makers' summaries of BS 5250."""
    found = (
        condensation_rules.CLEAR_MM,
        condensation_rules.EAVES_MM,
        condensation_rules.RIDGE_MM,
    )
    assert found == (50.0, 25.0, 5.0)
    assert not condensation_rules.VENTILATION.verified


@pytest.mark.parametrize(
    ("category", "life", "years"), [(1, 60.0, 1.0), (2, 60.0, 90.0), (3, 60.0, 270.0)]
)
def test_w_07_a_box_gutter_is_held_against_a_rarer_storm(category, life, years):
    """READ-2nd, gutter makers' data sheets and a plumbing handbook."""
    assert en_12056_3.storm_years(category, life) == years
    assert en_12056_3.BOX_GUTTER_CATEGORY == 2
    assert rainwater_box.LIFE_YEARS == 60.0


def test_w_07_the_greatest_likely_storm_has_no_return_period():
    with pytest.raises(ValueError, match="no return period"):
        en_12056_3.storm_years(4, 60.0)


def test_w_08_half_a_wall_above_counts_as_roof():
    """READ in a roofing code: half its elevation."""
    assert en_12056_3.effective_wall_m2(4.0, 2.5) == pytest.approx(5.0)


def test_w_09_150_mm_an_hour_are_0_042_litres_a_second():
    """READ-2nd, gutter makers' data sheet."""
    assert pytest.approx(0.042, abs=5e-4) == 2.0 * document_h.RAIN_L_S_M2


@pytest.mark.parametrize(("away_mm", "factor"), [(1_999.0, 0.8), (2_500.0, 0.9), (4_000.0, 1.0)])
def test_w_06_a_corner_takes_a_fifth_near_an_outlet_and_a_tenth_farther_off(away_mm, factor):
    """READ-2nd, a gutter maker's page; another says 0.85 for any corner, so it is a setting."""
    assert en_12056_3.CornerRule().factor(away_mm) == factor
    assert en_12056_3.FLAT_CORNER.factor(away_mm) == 0.85


def test_s_02_boards_are_gapped_as_quoted():
    """READ-2nd, PanelGuide 2.5: 3 mm, 10 mm at walls, 2 mm for every metre overall."""
    found = (panel_guide.GAP_MM, panel_guide.WALL_GAP_MM, panel_guide.MOVEMENT_MM_M)
    assert found == (3.0, 10.0, 2.0)


def test_s_03_boards_are_fixed_as_quoted():
    """READ-2nd, PanelGuide 2.6: 50 mm or 2.5 times the board; 150, 300 and on sarking 200 mm."""
    assert (panel_guide.RIM_MM, panel_guide.FIELD_MM, panel_guide.SARKING_FIELD_MM) == (
        150.0,
        300.0,
        200.0,
    )
    assert (panel_guide.EDGE_MM, panel_guide.BEARING_MM) == (8.0, 20.0)
    assert [panel_guide.fixing_length_mm(one) for one in (9.0, 18.0, 22.0)] == [50.0, 50.0, 55.0]


def test_s_08_ten_boards_in_a_row_need_their_nine_gaps():
    """CALC: 10 × 1200 + 9 × 3 = 12 027 mm."""
    assert 10 * 1200.0 + 9 * panel_guide.GAP_MM == 12_027.0
