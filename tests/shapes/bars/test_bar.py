"""Bars and rafters: lengths and cuts against published tables, entries doubted in trade words."""

import math
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from roofmodel.foundation.errors import DimensionError
from roofmodel.shapes import plan
from roofmodel.shapes.bars import bar_layout, roof_bar
from roofmodel.shapes.bars.bar import BarKind, facet_bars
from roofmodel.shapes.bars.bar_layout import (
    FacetCorner,
    equal_bays,
    equal_spacing,
    from_running,
    spacings_mm,
)
from roofmodel.shapes.bars.member_cut import BarWidths, shortening_mm
from roofmodel.shapes.flat_edge import flat_edges, line_of
from roofmodel.shapes.footprint import Footprint
from roofmodel.shapes.gable import Gable
from roofmodel.shapes.hipped import Hipped
from roofmodel.shapes.layers.layer_surface import LayerPlace, layer_roof
from roofmodel.shapes.lean_to import LeanTo
from roofmodel.shapes.polygonal_end import PolygonalEnd
from roofmodel.shapes.roof import LineKind
from tests import strategies
from tests.worked_examples.published import rows

INCH = 25.4
WIDTHS = BarWidths.alike(60.0)
LEFT, RIGHT = FacetCorner.LEFT, FacetCorner.RIGHT
EXAMPLES = {row["id"]: row for row in rows("corner_angles.toml", "example")}


def built(shape):
    return shape.roof(eaves_height_mm=2100.0)


def hipped(left, front, right, width=9000.0, projection=12000.0):
    return built(
        Hipped(
            width_mm=width,
            projection_mm=projection,
            left_pitch_deg=left,
            front_pitch_deg=front,
            right_pitch_deg=right,
        )
    )


def bars(facet, layout, widths=WIDTHS):
    return facet_bars(facet, layout, widths, job_code="J04")


J04 = built(PolygonalEnd(width_mm=3500, projection_mm=3600, pitch_deg=25, end_facets=3))
J01 = built(LeanTo(width_mm=4000, projection_mm=2800, pitch_deg=15))


@pytest.mark.parametrize("row", rows("rafter_table.toml", "row"), ids=lambda r: f"{r['rise']:g}")
@pytest.mark.parametrize("spacing", [16, 24])
def test_jacks_lengthen_by_the_rafter_tables_difference(row, spacing):
    """Rafter table in shared/, cells jack16 and jack24, rounded to 1/100 in."""
    pitch = math.degrees(math.atan2(row["rise"], 12.0))
    facet = hipped(pitch, pitch, pitch).facet("F2")
    jacks = bars(facet, equal_spacing(facet, spacing * INCH, corner=LEFT))[:7]
    lengths = np.array([jack.line_length_mm for jack in jacks]) / INCH

    assert {jack.kind for jack in jacks} == {BarKind.JACK}
    assert np.diff(lengths) == pytest.approx(row[f"jack{spacing}"], abs=0.0051)
    assert lengths[0] == pytest.approx(row[f"jack{spacing}"], abs=0.0051)
    # All of them lose the same to the hip, so the difference holds for what is cut as well.
    net = np.array([jack.net_length_mm for jack in jacks]) / INCH
    assert np.diff(net) == pytest.approx(row[f"jack{spacing}"], abs=0.0051)


@pytest.mark.parametrize("row", rows("rafter_table.toml", "row"), ids=lambda r: f"{r['rise']:g}")
def test_side_cuts_of_jack_and_hip_are_the_steel_squares(row):
    """Rafter table in shared/: side cuts to 12, and the hip's plumb cut and backing."""
    pitch = math.degrees(math.atan2(row["rise"], 12.0))
    roof = hipped(pitch, pitch, pitch)
    jack = bars(roof.facet("F2"), equal_spacing(roof.facet("F2"), 500.0, corner=LEFT))[0]
    hip = next(
        b for b in roof_bar.roof_bars(roof, (), WIDTHS, job_code="J04") if b.kind is BarKind.HIP
    )
    (cut,) = jack.head.side_cuts

    assert 12 * math.tan(math.radians(cut.on_face_deg)) == pytest.approx(
        row["side_jack"], abs=0.00051
    )
    assert 12 * math.tan(math.radians(hip.head_side_cut_deg)) == pytest.approx(
        row["side_hip"], abs=0.00051
    )
    assert hip.plumb_cut_deg == pytest.approx(row["hip_pitch"], abs=0.00051)
    assert hip.backings_deg == pytest.approx([row["backing"]] * 2, abs=0.00051)
    assert jack.plumb_cut_deg == pytest.approx(row["pitch"], abs=0.00051)


def test_g_20_jacks_at_a_square_corner_of_unequal_pitches():
    """Check value G-20, published web example: 10/12 beside 11/12."""
    row = EXAMPLES["G-20"]
    pitch_a, pitch_b = row["pitches_deg"]
    roof = hipped(pitch_b, pitch_b, pitch_a)
    for name, corner, cut_deg, plan_deg in (
        ("F1", LEFT, row["side_cuts_deg"][0], row["plan_angles_deg"][0]),
        ("F2", RIGHT, row["side_cuts_deg"][1], row["plan_angles_deg"][1]),
    ):
        facet = roof.facet(name)
        jack = next(
            b for b in bars(facet, from_running(facet, [400.0], corner=corner)) if b.head.side_cuts
        )
        (cut,) = jack.head.side_cuts
        assert cut.meets is LineKind.HIP
        assert cut.on_face_deg == pytest.approx(cut_deg, abs=2e-5)
        # The source: the blade is set to the plan angle along the jack's plumb line.
        assert cut.blade_deg == pytest.approx(plan_deg, abs=2e-5)
        assert cut.short == corner.value


def test_g_21_valley_jacks_between_a_12_12_roof_and_an_8_12_dormer():
    """Check value G-21, published web example; also the difference of jacks at 16 in."""
    row = EXAMPLES["G-21"]
    main, dormer = row["pitches_deg"]
    sides = plan.with_wing(
        14000,
        4000,
        wing_width_mm=4000,
        wing_projection_mm=1500,
        from_right_mm=5000,
        pitch_deg=main,
    )
    slopes = [
        plan.eaves(dormer) if i in (3, 5) else plan.VERGE if i == 4 else side
        for i, side in enumerate(sides.sides)
    ]
    roof = built(Footprint(corners_mm=sides.corners_mm, sides=tuple(slopes)))
    valley = roof.lines_of(LineKind.VALLEY)[0]
    assert valley.pitch_deg == pytest.approx(row["hip_pitch_deg"], abs=2e-5)
    for name, short, cut_deg, difference in zip(
        valley.facets, ("right", "left"), row["side_cuts_deg"], (15.08495, 28.84441), strict=True
    ):
        facet = roof.facet(name)
        count = int(facet.outline_mm[:, 0].max() / (16 * INCH))
        layout = bar_layout.BarLayout(
            facet=name, centres_mm=tuple(16 * INCH * (i + 0.5) for i in range(count))
        )
        # Beside one of the valleys, from its foot to the ridge or the wall.
        jacks = [
            bar
            for bar in bars(facet, layout)
            if [(cut.meets, cut.short) for cut in bar.foot.side_cuts] == [(LineKind.VALLEY, short)]
            and bar.head.side_cuts[0].meets in (LineKind.RIDGE, LineKind.HOUSE_WALL)
        ]
        lengths = np.array([jack.line_length_mm for jack in jacks]) / INCH

        assert len(jacks) > 1
        assert {bar.kind for bar in jacks} == {BarKind.JACK}
        assert [jack.foot.side_cuts[0].on_face_deg for jack in jacks] == pytest.approx(
            [cut_deg] * len(jacks), abs=2e-5
        )
        assert np.abs(np.diff(lengths)) == pytest.approx(difference, abs=2e-5)


def blunt_corner():
    """Return a roof with a corner of 144° between slopes of 22.5° and 30°, in that order."""
    turn = math.radians(36.0)
    length = 3000.0
    corner = (0.0, 5000.0)
    far = (length * math.sin(turn), 5000.0 + length * math.cos(turn))
    sides = (
        plan.WALL,
        plan.eaves(22.5),
        plan.eaves(30.0),
        plan.eaves(30.0),
        plan.eaves(30.0),
    )
    return Footprint(
        corners_mm=((8000.0, 0.0), (0.0, 0.0), corner, far, (8000.0, far[1])), sides=sides
    )


def test_g_34_a_hip_on_a_blunt_corner_lies_outside_its_flatter_facet():
    """Check value G-34, vector algebra and closed formulas: backing −3.3774, side cut −8.1910."""
    row = EXAMPLES["G-34"]
    roof = built(blunt_corner())
    found = roof_bar.roof_bars(roof, (), WIDTHS, job_code="J04")
    hip = next(b for b in found if b.line.facets == ("F1", "F2"))

    assert hip.backings_deg == pytest.approx(row["backings_deg"], abs=6e-5)
    assert hip.plumb_cut_deg == pytest.approx(row["hip_pitch_deg"], abs=6e-5)
    (asked,) = roof_bar.questions([hip])
    assert "leans out over the end of F1's eaves" in asked.text
    assert "-3.38°" in asked.text
    # A bar beyond the end of the eaves begins on the hip instead.
    flatter = roof.facet("F1")
    ends = [
        u for e in flat_edges(flatter) if e.kind is LineKind.EAVES for u in (e.start[0], e.end[0])
    ]
    layout = bar_layout.BarLayout(facet="F1", centres_mm=(min(ends) - 40.0,))
    (jack,) = bars(flatter, layout)
    assert [cut.meets for cut in jack.foot.side_cuts] == [LineKind.HIP]
    assert jack.foot.side_cuts[0].on_face_deg == pytest.approx(-row["side_cuts_deg"][0], abs=6e-5)


def test_j04_bars_of_a_three_facet_end():
    """Acceptance job J04: three bays of 616.7 and a triangle on the sides, a jack on each end."""
    side = J04.facet("F1")
    rafters = bars(side, equal_bays(side, 3, over_mm=1850.0, corner=RIGHT))
    jack = bars(J04.facet("F2"), equal_bays(J04.facet("F2"), 2))[0]

    assert [bar.mark for bar in rafters] == ["J04-F1-R1", "J04-F1-R2", "J04-F1-R3"]
    assert {bar.kind for bar in rafters} == {BarKind.RAFTER}
    assert [bar.line_length_mm for bar in rafters] == pytest.approx([1930.91] * 3, abs=0.01)
    # By hand: half the ridge, level, is 30 / cos 25 along the slope.
    assert rafters[1].net_length_mm == pytest.approx(
        1930.91 - 30 / math.cos(math.radians(25)), abs=0.01
    )
    assert (jack.mark, jack.kind, jack.hand) == ("J04-F2-R1", BarKind.JACK, "N")
    # The centre jack is pointed: a cut on either side, 20.58 off its length.
    assert [cut.short for cut in jack.head.side_cuts] == ["right", "left"]
    assert [cut.on_face_deg for cut in jack.head.side_cuts] == pytest.approx([20.58] * 2, abs=0.01)


def test_j04_hips_ridge_and_starters_have_marks_and_lengths():
    found = roof_bar.roof_bars(J04, (), WIDTHS, job_code="J04")
    by_mark = {bar.mark: bar for bar in found}

    assert sorted(by_mark) == [
        "J04-D1", "J04-F1-S1", "J04-F5-S1", "J04-H1", "J04-H2", "J04-H3", "J04-H4",
    ]  # fmt: skip
    assert [by_mark[f"J04-H{i}"].line_length_mm for i in (1, 2, 3, 4)] == pytest.approx(
        [2062.5] * 4, abs=0.05
    )
    assert by_mark["J04-D1"].line_length_mm == pytest.approx(1850.0, abs=0.05)
    assert by_mark["J04-F1-S1"].line_length_mm == pytest.approx(1930.91, abs=0.01)
    # Only the outer hips lie beside the ridge; by hand: 30 / sin 67.5 / cos 23.31.
    assert by_mark["J04-H1"].head_shortening_mm == pytest.approx(35.36, abs=0.01)
    assert by_mark["J04-H2"].head_shortening_mm == 0.0
    assert by_mark["J04-H2"].head_side_cut_deg == pytest.approx(
        math.degrees(math.atan(math.tan(math.radians(22.5)) * math.cos(math.radians(23.307)))),
        abs=1e-3,
    )


@pytest.mark.parametrize(("plan_deg", "factor"), [(0.0, 1.0), (45.0, 1.414), (67.5, 2.613)])
def test_a_hip_takes_its_half_thickness_over_the_cosine_of_its_plan_angle(plan_deg, factor):
    """NAVEDTRA 14044, ridge layout: half the 45° thickness; 2.613 at an octagon by arithmetic."""
    assert shortening_mm(30.0, plan_deg, 0.0) == pytest.approx(30.0 * factor, abs=0.02)


@settings(max_examples=80, deadline=None)
@given(shape=strategies.shapes, share=st.floats(0.05, 0.95), data=st.data())
def test_a_cut_bar_ends_where_the_upright_face_of_the_member_stands(shape, share, data):
    """In plan the end of the centre-line lies half a width from every line it meets, or farther."""
    roof = built(shape)
    facet = roof.facet(data.draw(st.sampled_from([f.name for f in roof.facets])))
    at_mm = share * facet.outline_mm[:, 0].max()
    layout = bar_layout.BarLayout(facet=facet.name, centres_mm=(float(at_mm),))
    try:
        found = bars(facet, layout)
    except DimensionError:  # the members leave a short jack no length
        assume(False)
    for bar in found:
        v = bar.head.v_mm - bar.head.shortening_mm
        end = facet.frame.raise_up(np.array([[bar.at_mm, v]]))[0]
        distances = [
            abs(_plan_distance(line_of(roof, facet, edge.number), end))
            for edge in flat_edges(facet)
            if edge.kind in (LineKind.HIP, LineKind.RIDGE)
            and edge.kind in [cut.meets for cut in bar.head.side_cuts]
        ]
        if distances:
            assert min(distances) == pytest.approx(30.0, abs=0.02)
        assert math.dist(bar.start, bar.end) == pytest.approx(bar.line_length_mm, abs=1e-6)


def test_a_bar_just_beside_a_tip_clears_the_members_of_both_hips():
    # Found by hypothesis: 2.5 mm beside the tip, 30 mm off the one hip and 5 mm off the other.
    roof = built(
        Hipped(
            width_mm=1500, projection_mm=1500, left_pitch_deg=39, front_pitch_deg=3,
            right_pitch_deg=3,
        )
    )  # fmt: skip
    facet = roof.facet("F2")
    (bar,) = bars(facet, bar_layout.BarLayout(facet="F2", centres_mm=(93.75,)))
    end = facet.frame.raise_up(np.array([[bar.at_mm, bar.head.v_mm - bar.head.shortening_mm]]))[0]
    off = [
        abs(_plan_distance(line_of(roof, facet, edge.number), end))
        for edge in flat_edges(facet)
        if edge.kind is LineKind.HIP
    ]

    assert [cut.meets for cut in bar.head.side_cuts] == [LineKind.HIP, LineKind.HIP]
    assert min(off) == pytest.approx(30.0, abs=0.02)


def _plan_distance(line, spot):
    along = np.array(line.end[:2]) - np.array(line.start[:2])
    away = np.array(spot[:2]) - np.array(line.start[:2])
    return float(along[0] * away[1] - along[1] * away[0]) / math.hypot(*along)


@settings(deadline=None)
@given(
    projection=st.floats(6000, 9000), places=st.lists(st.floats(200, 4800), min_size=1, max_size=6)
)
def test_left_and_right_side_of_a_roof_have_mirrored_bars(projection, places):
    roof = hipped(25.0, 35.0, 25.0, width=5000.0, projection=projection)
    taped = sorted(places)
    assume(all(b - a > 61 for a, b in pairwise(taped)))
    right, left = roof.facet("F1"), roof.facet("F3")
    ones = bars(right, from_running(right, taped, corner=RIGHT))
    others = bars(left, from_running(left, taped, corner=LEFT))[::-1]
    swapped = {"L": "R", "R": "L", "N": "N"}

    for one, other in zip(ones, others, strict=True):
        assert one.net_length_mm == pytest.approx(other.net_length_mm, abs=1e-6)
        assert one.kind is other.kind
        assert one.hand == swapped[other.hand]


def test_a_jack_that_falls_away_to_the_left_is_left_handed():
    facet = hipped(25.0, 25.0, 25.0).facet("F2")
    left, *_, right = bars(facet, equal_bays(facet, 6))

    assert (left.hand, left.head.side_cuts[0].short) == ("L", "left")
    assert (right.hand, right.head.side_cuts[0].short) == ("R", "right")


@pytest.mark.parametrize("bays", [0, -1, 501, 10**12])
def test_bays_nobody_can_have_counted_are_refused_at_once(bays):
    with pytest.raises(DimensionError, match="Enter 1 to 500"):
        equal_bays(J01.facet("F1"), bays)


def test_seven_bars_at_both_ends_of_a_lean_to_make_six_bays():
    facet = J01.facet("F1")
    layout = equal_bays(facet, 6, bars=7)

    assert spacings_mm(layout) == pytest.approx([666.67] * 4, abs=0.01)
    with pytest.raises(
        DimensionError, match=r"7 bars on F1 \(bars at both ends\) leave 6 bays, not 5"
    ):
        equal_bays(facet, 5, bars=7)


@pytest.mark.parametrize(
    ("taped", "match"),
    [
        (
            [600.0, 1200.0, 4100.0],
            r"Bar 3 at 4100 mm is beyond F1, whose eaves are 4000\.0 mm long",
        ),
        ([600.0, 1200.0, 1100.0], r"Bar 3 at 1100 mm is not beyond bar 2 at 1200 mm"),
        ([600.0, math.nan], r"Bar 2 at nan mm is not a running dimension"),
        ([-600.0], r"Bar 1 at -600 mm is beyond"),
    ],
)
def test_running_dimensions_that_cannot_be_are_refused_by_number(taped, match):
    with pytest.raises(DimensionError, match=match):
        from_running(J01.facet("F1"), taped, corner=LEFT)


def test_a_spacing_of_60_is_asked_about_and_never_changed():
    """Acceptance job J12: spacing 60, the likely meaning is asked, not assumed."""
    (asked,) = bar_layout.questions([60.0], field="spacing_mm")

    assert (asked.field, asked.text) == (
        "spacing_mm",
        "Bars 60 mm apart is unusual. Did you mean 600?",
    )
    assert bar_layout.questions([666.7, 1050.0], field="spacing_mm") == ()
    assert "Did you mean 600?" in bar_layout.questions([6000.0], field="spacing_mm")[0].text


def test_bars_that_lie_on_each_other_and_bars_of_no_length_are_refused():
    facet = J01.facet("F1")
    with pytest.raises(DimensionError, match="60 mm wide, are 40 mm apart"):
        bars(facet, from_running(facet, [600.0, 640.0], corner=LEFT))
    corner = hipped(25.0, 25.0, 25.0).facet("F2")
    with pytest.raises(
        DimensionError, match="long from line to line, but the members it meets take"
    ):
        bars(corner, from_running(corner, [20.0], corner=LEFT))
    with pytest.raises(DimensionError, match="width of -60 mm is not possible for a bar"):
        BarWidths.alike(-60.0)
    with pytest.raises(DimensionError, match="spacing of 0 mm is not possible"):
        equal_spacing(facet, 0.0, corner=LEFT)
    with pytest.raises(DimensionError, match="beyond the eaves of F1"):
        equal_bays(facet, 3, over_mm=4100.0)


def test_running_dimensions_may_be_unequal_and_start_at_either_corner():
    roof = built(Gable(width_mm=3800, projection_mm=4200, left_pitch_deg=30, right_pitch_deg=30))
    facet = roof.facet("F1")
    left = from_running(facet, [0.0, 590.0, 1210.0, 4200.0], corner=LEFT)
    right = from_running(facet, [0.0, 2990.0, 3610.0, 4200.0], corner=RIGHT)

    # The bars at both ends stand on verge and wall, which have their own.
    assert left.centres_mm == pytest.approx((590.0, 1210.0))
    assert right.centres_mm == pytest.approx(left.centres_mm)
    starters = [b.mark for b in roof_bar.roof_bars(roof, (left,), WIDTHS, job_code="J07")]
    assert starters == ["J07-D1", "J07-F1-S2", "J07-F1-S1", "J07-F2-S2", "J07-F2-S1"]


def test_a_first_bar_taped_inside_the_verge_is_its_starter():
    facet = J01.facet("F1")
    layout = from_running(facet, [30.0, 700.0, 3970.0], corner=LEFT)
    found = bars(facet, layout)

    assert [(b.mark, b.kind) for b in found] == [
        ("J04-F1-S1", BarKind.STARTER),
        ("J04-F1-R1", BarKind.RAFTER),
        ("J04-F1-S2", BarKind.STARTER),
    ]
    assert roof_bar.roof_bars(J01, (layout,), WIDTHS, job_code="J01") == ()


def test_a_wall_plate_stands_along_the_head_of_a_lean_to_and_shortens_its_bars():
    widths = BarWidths(
        rafter_mm=47, hip_mm=47, valley_mm=47, ridge_mm=47, starter_mm=0, plate_mm=45
    )
    (plate,) = roof_bar.roof_bars(J01, (), widths, job_code="J01")
    bar = bars(J01.facet("F1"), from_running(J01.facet("F1"), [2000.0], corner=LEFT), widths)[0]

    assert (plate.mark, plate.kind, plate.line_length_mm) == ("J01-F1-P1", BarKind.PLATE, 4000.0)
    assert bar.head.shortening_mm == pytest.approx(45 / math.cos(math.radians(15)), abs=1e-9)


def test_bars_keep_their_place_on_the_surface_of_another_layer():
    footprint = LeanTo(width_mm=4000, projection_mm=2800, pitch_deg=15).footprint()
    place = LayerPlace(offset_mm=18.0, verge_overhang_mm=40.0, eaves_overhang_mm=50.0)
    deck = layer_roof(footprint, place, eaves_height_mm=2100.0).facet("F1")
    layout = from_running(J01.facet("F1"), [700.0, 1300.0], corner=LEFT)

    moved = bar_layout.on_layer(layout, J01.facet("F1"), deck)
    assert moved.centres_mm == pytest.approx([740.0, 1340.0])
    for one, other in zip(bars(J01.facet("F1"), layout), bars(deck, moved), strict=True):
        assert one.start[0] == pytest.approx(other.start[0], abs=1e-9)
        assert other.line_length_mm == pytest.approx(one.line_length_mm + 50.0, abs=1e-6)
