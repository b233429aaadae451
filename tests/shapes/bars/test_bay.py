"""Bays between bars: acceptance figures, mirror pairs, and an independent sum of areas."""

import math
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
import shapely
import shapely.ops
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from roofmodel.foundation.errors import DimensionError
from roofmodel.shapes import plan
from roofmodel.shapes.bars.bar_layout import BarLayout, FacetCorner, equal_bays, from_running
from roofmodel.shapes.bars.bay import Fit, facet_bays, panel_fit
from roofmodel.shapes.bars.member_cut import BarWidths
from roofmodel.shapes.flat_edge import flat_edges
from roofmodel.shapes.gable import Gable
from roofmodel.shapes.hand import hand
from roofmodel.shapes.hipped import Hipped
from roofmodel.shapes.lean_to import LeanTo
from roofmodel.shapes.polygonal_end import PolygonalEnd
from roofmodel.shapes.roof import LineKind
from tests.shapes import notched

WIDTHS = BarWidths.alike(60.0)
LEFT, RIGHT = FacetCorner.LEFT, FacetCorner.RIGHT
MIRRORED = {"L": "R", "R": "L", "N": "N"}


def built(shape):
    return shape.roof(eaves_height_mm=2100.0)


J01 = built(LeanTo(width_mm=4000, projection_mm=2800, pitch_deg=15)).facet("F1")
J04 = built(PolygonalEnd(width_mm=3500, projection_mm=3600, pitch_deg=25, end_facets=3))


def bays(facet, layout, fit, widths=WIDTHS):
    return facet_bays(facet, layout, widths, fit, job_code="J04")


def j04_bays(gap_mm):
    """Return every bay of acceptance job J04.

    Its figures are measured on the outside face up to the line of the ridge, as if no ridge bar
    stood there; with one, the head stays clear of it.
    """
    no_ridge = replace(WIDTHS, ridge_mm=0.0)
    layouts = {
        "F1": equal_bays(J04.facet("F1"), 3, over_mm=1850.0, corner=RIGHT),
        "F5": equal_bays(J04.facet("F5"), 3, over_mm=1850.0, corner=LEFT),
    }
    found = []
    for facet in J04.facets:
        layout = layouts.get(facet.name) or equal_bays(facet, 2)
        found += bays(facet, layout, Fit(gap_mm=gap_mm), no_ridge)
    return found


@pytest.mark.parametrize(
    ("gap", "rectangle", "triangle"),
    [(5, (546.7, 1930.9), (652.5, 1738.1)), (8, (540.7, 1930.9), (646.3, 1721.6))],
)
def test_j04_six_rectangles_and_eight_triangles_in_mirror_pairs(gap, rectangle, triangle):
    """Acceptance job J04, PIR pieces at a gap of 5 and of 8; tolerance half a printed place."""
    found = j04_bays(gap)
    squares = [bay for bay in found if len(bay.corners_mm) == 4]
    rakes = [bay for bay in found if len(bay.corners_mm) == 3]

    assert (len(squares), len(rakes), len(found)) == (6, 8, 14)
    for bay in squares:
        assert (bay.width_mm, bay.height_mm) == pytest.approx(rectangle, abs=0.051)
        assert bay.hand == "N"
    for bay in rakes:
        assert (bay.width_mm, bay.height_mm) == pytest.approx(triangle, abs=0.051)
        assert bay.area_m2 == pytest.approx(bay.width_mm * bay.height_mm / 2e6, abs=1e-9)
    assert sorted(bay.hand for bay in rakes) == ["L"] * 4 + ["R"] * 4


def test_j04_bays_are_marked_from_the_left_looking_up_the_slope():
    marks = [(bay.mark, bay.hand) for bay in j04_bays(5)]

    assert marks[:6] == [
        ("J04-F1-B1", "L"), ("J04-F1-B2", "N"), ("J04-F1-B3", "N"), ("J04-F1-B4", "N"),
        ("J04-F2-B1", "L"), ("J04-F2-B2", "R"),
    ]  # fmt: skip
    assert marks[-1] == ("J04-F5-B4", "R")


def test_j04_the_whole_list_is_its_own_mirror_image_to_a_tenth_of_a_millimetre():
    found = j04_bays(5)
    for bay, twin in zip(found, reversed(found), strict=True):
        width = max(u for u, _ in bay.ordinates_mm)
        turned = sorted((width - u, v) for u, v in bay.ordinates_mm)
        assert np.abs(np.array(turned) - np.array(sorted(twin.ordinates_mm))).max() < 0.1
        assert bay.hand == MIRRORED[twin.hand]


def test_a_triangle_is_given_by_ordinates_from_its_lower_left():
    bay = j04_bays(5)[4]

    assert bay.ordinates_mm[0] == pytest.approx((0.0, 0.0), abs=1e-9)
    assert bay.ordinates_mm[1] == pytest.approx((652.5, 0.0), abs=0.05)
    assert bay.ordinates_mm[2] == pytest.approx((652.5, 1738.1), abs=0.05)
    assert bay.diagonals_mm == ()


@pytest.mark.parametrize(("gap", "strip"), [(5, 596.7), (3, 600.7)])
def test_j01_strips_between_bars_667_apart(gap, strip):
    """Acceptance job J01: strips of 596.7 and 600.7, as long as the slope, 2898.77."""
    found = bays(J01, equal_bays(J01, 6, bars=7), Fit(gap_mm=gap))

    assert [bay.width_mm for bay in found] == pytest.approx([strip] * 6, abs=0.051)
    assert [bay.height_mm for bay in found] == pytest.approx([2898.77] * 6, abs=0.01)
    assert found[0].diagonals_mm == pytest.approx([math.hypot(strip, 2898.77)] * 2, abs=0.06)
    if gap == 5:
        # Job J01: the sum of the four sheets' pieces is 10.378.
        assert sum(bay.area_m2 for bay in found) == pytest.approx(10.378, abs=5e-4)


def test_j01_panels_sit_15_on_each_bar_less_3_to_expand():
    """Acceptance job J01, panel swap: 606.7 + 30 − 6 = 630.7."""
    found = bays(J01, equal_bays(J01, 6), panel_fit(bottom_mm=5.0))

    assert [bay.width_mm for bay in found] == pytest.approx([630.7] * 6, abs=0.051)
    assert [bay.height_mm for bay in found] == pytest.approx([2893.77] * 6, abs=0.01)


def test_j07_and_j10_bays_of_600_and_1050():
    """Acceptance jobs J07 (7 bays of 600) and J10 (3 bays of 1050), bars 60, no gap."""
    gable = built(Gable(width_mm=3800, projection_mm=4200, left_pitch_deg=30, right_pitch_deg=30))
    wide = built(LeanTo(width_mm=3150, projection_mm=2500, pitch_deg=18)).facet("F1")
    for facet in gable.facets:
        found = bays(facet, equal_bays(facet, 7), Fit(gap_mm=0))
        assert [bay.width_mm for bay in found] == pytest.approx([540.0] * 7, abs=1e-6)
    found = bays(wide, equal_bays(wide, 3), Fit(gap_mm=0))
    assert [bay.width_mm for bay in found] == pytest.approx([990.0] * 3, abs=1e-6)


def test_bays_between_unequal_bars_follow_the_tape():
    taped = [30.0, 700.0, 1300.0, 2000.0, 2600.0, 3300.0, 3970.0]
    found = bays(J01, from_running(J01, taped, corner=LEFT), Fit(gap_mm=5))
    expected = [b - a - 70 for a, b in pairwise(taped)]

    # First and last bar were taped inside the verges: they are the starters.
    assert [bay.width_mm for bay in found] == pytest.approx(expected, abs=1e-6)


def test_a_hip_that_ends_above_a_bay_cuts_it_to_five_sides():
    roof = built(
        Hipped(
            width_mm=4000, projection_mm=5000, left_pitch_deg=30, front_pitch_deg=30,
            right_pitch_deg=30,
        )
    )  # fmt: skip
    facet = roof.facet("F1")
    layout = from_running(facet, [2500.0], corner=RIGHT)
    left, right = bays(facet, layout, Fit(gap_mm=5), replace(WIDTHS, ridge_mm=0.0))

    # Ridge over 3000 from the wall, hip from there down to the eaves at 5000.
    assert (left.hand, right.hand) == ("L", "N")
    assert len(right.corners_mm) == 4
    top = sorted(left.corners_mm, key=lambda c: -c[1])[:2]
    assert abs(top[0][0] - top[1][0]) == pytest.approx(
        # The bay's top reaches from the bar to where the hip's side meets the ridge line.
        500.0 - 35.0 - 35.0 / math.sin(math.atan(1 / math.cos(math.radians(30)))),
        abs=1e-6,
    )
    assert len(left.diagonals_mm) == 2


def test_bays_that_cannot_be_are_refused_with_their_numbers():
    with pytest.raises(
        DimensionError, match=r"Bars 65 mm apart on F1 leave nothing to cut: .* 70 mm"
    ):
        bays(J01, from_running(J01, [600.0, 665.0], corner=LEFT), Fit(gap_mm=5))
    with pytest.raises(DimensionError, match="60 mm apart"):
        bays(J01, from_running(J01, [600.0, 660.0], corner=LEFT), Fit(gap_mm=5))
    with pytest.raises(DimensionError, match="lap 12 mm over a bar 20 mm wide"):
        bays(J01, equal_bays(J01, 6), panel_fit(), BarWidths.alike(20.0))
    with pytest.raises(DimensionError, match="gap of nan mm is out of range"):
        Fit(gap_mm=math.nan)


@pytest.mark.parametrize(
    ("corners", "expected"),
    [
        ([(0, 0), (600, 0), (600, 900)], "L"),
        ([(0, 0), (600, 0), (0, 900)], "R"),
        ([(0, 0), (600, 0), (300, 900)], "N"),
        ([(0, 0), (600, 0), (600, 900), (0, 900)], "N"),
        ([(0, 0), (600, 0), (900, 900), (300, 900)], "L"),
        ([(300, 0), (900, 0), (600, 900), (0, 900)], "R"),
    ],
    ids=["cut at left", "cut at right", "isosceles", "rectangle", "leans right", "leans left"],
)
def test_a_piece_is_left_handed_when_it_is_cut_away_at_the_left(corners, expected):
    assert hand(corners) == expected


def area_between(facet, left, right, insets):
    """Return the area of a facet between two uprights, sides drawn in, without any clipping [mm²].

    A facet of these roofs is convex, so at each u it reaches from the highest of its lower sides
    to the lowest of its upper ones, and changes evenly between the places where sides cross.
    """
    lower, upper = [], []
    for edge, inset in zip(flat_edges(facet), insets, strict=True):
        (u0, v0), (u1, v1) = edge.start, edge.end
        if abs(u1 - u0) < 1e-6:
            at_right = v1 > v0
            right = min(right, u0 - inset) if at_right else right
            left = left if at_right else max(left, u0 + inset)
        elif max(u0, u1) > left + 0.01 and min(u0, u1) < right - 0.01:
            slope = (v1 - v0) / (u1 - u0)
            shift = math.copysign(inset * math.hypot(1.0, slope), u1 - u0)
            (lower if u1 > u0 else upper).append((slope, v0 - slope * u0 + shift))

    def chord(u):
        return min(s * u + c for s, c in upper) - max(s * u + c for s, c in lower)

    crossings = {
        (d - c) / (s - t) for s, c in lower + upper for t, d in lower + upper if abs(s - t) > 1e-12
    }
    stops = sorted({left, right, *(u for u in crossings if left < u < right)})
    # Between stops the chord is straight, so it is negative all along or nowhere.
    return sum(max(0.0, chord((a + b) / 2.0)) * (b - a) for a, b in pairwise(stops))


roofs = st.one_of(
    st.builds(
        lambda w, p, a: built(LeanTo(width_mm=w, projection_mm=p, pitch_deg=a)),
        st.floats(1500, 6000), st.floats(1500, 4000), st.floats(5, 45),
    ),
    st.builds(
        lambda w, extra, a, b, c: built(
            Hipped(width_mm=w, projection_mm=3 * w + extra, left_pitch_deg=a, front_pitch_deg=b,
                   right_pitch_deg=c)
        ),
        st.floats(1500, 4000), st.floats(0, 2000), st.floats(20, 40), st.floats(20, 40),
        st.floats(20, 40),
    ),
    st.builds(
        lambda w, extra, a, n: built(
            PolygonalEnd(width_mm=w, projection_mm=w + extra, pitch_deg=a, end_facets=n)
        ),
        st.floats(2500, 5000), st.floats(0, 2000), st.floats(10, 40), st.sampled_from([3, 5]),
    ),
)  # fmt: skip


@settings(max_examples=120, deadline=None)
@given(
    roof=roofs, number=st.integers(0, 6), count=st.integers(1, 6), gap=st.sampled_from([0, 5, -12])
)
def test_each_bay_is_what_is_left_between_bars_and_lines(roof, number, count, gap):
    facet = roof.facets[number % len(roof.facets)]
    layout = equal_bays(facet, count)
    fit = Fit(gap_mm=gap)
    found = bays(facet, layout, fit)
    insets = [fit.inset_mm(edge, WIDTHS, pitch_deg=facet.pitch_deg) for edge in flat_edges(facet)]
    half = 30.0 + gap
    lefts = [0.0, *(at + half for at in layout.centres_mm)]
    rights = [*(at - half for at in layout.centres_mm), float(facet.outline_mm[:, 0].max())]
    expected = [area_between(facet, a, b, insets) for a, b in zip(lefts, rights, strict=True)]

    assert [bay.area_m2 for bay in found] == pytest.approx(
        [area / 1e6 for area in expected if area > 1.0], abs=1e-6
    )


NOTCHED = [
    plan.with_wing(
        6000, 3000, wing_width_mm=2500, wing_projection_mm=2000, from_right_mm=1500, pitch_deg=25
    ),
    plan.with_wing(
        7000, 2500, wing_width_mm=3000, wing_projection_mm=1500, from_right_mm=0, pitch_deg=35
    ),
    plan.polygonal_end_with_lean_to(
        3500, 4000, end_facets=3, lean_to_width_mm=2000, lean_to_projection_mm=2000, pitch_deg=25
    ),
    notched.with_notch(
        5000, 4000, notch=notched.Notch(from_right_mm=1000, width_mm=2000, depth_mm=400),
        sides=(plan.VERGE, plan.eaves(20), plan.VERGE), gutter_pitch_deg=20,
    ),
]  # fmt: skip


@settings(max_examples=80, deadline=None)
@given(
    footprint=st.sampled_from(NOTCHED),
    number=st.integers(0, 8),
    places=st.lists(st.floats(0.02, 0.98), max_size=6),
)
def test_on_plans_with_valleys_bays_keep_their_distance_and_leave_nothing_out(
    footprint, number, places
):
    roof = built(footprint)
    facet = roof.facets[number % len(roof.facets)]
    wide = float(facet.outline_mm[:, 0].max())
    centres = sorted(share * wide for share in places)
    assume(all(b - a > 71 for a, b in pairwise(centres)))
    layout = BarLayout(facet=facet.name, centres_mm=tuple(centres))
    fit = Fit(gap_mm=5)
    whole = shapely.Polygon(facet.outline_mm)
    shapes = [shapely.Polygon(bay.corners_mm) for bay in bays(facet, layout, fit)]

    assert whole.buffer(0.01).contains(shapely.union_all(shapes))
    assert shapely.union_all(shapes).area == pytest.approx(sum(s.area for s in shapes), abs=1.0)
    lines = [
        (
            shapely.LineString([edge.start, edge.end]),
            fit.inset_mm(edge, WIDTHS, pitch_deg=facet.pitch_deg),
        )
        for edge in flat_edges(facet)
    ]
    uprights = [shapely.LineString([(u, -1), (u, facet.slope_length_mm + 1)]) for u in centres]
    for shape in shapes:
        assert all(shape.distance(upright) > 35 - 1e-6 for upright in uprights)
        left, _, right, _ = shape.bounds
        for line, inset in lines:
            # A piece may touch the end of a hip where a ridge, which takes nothing, begins.
            middle = shapely.ops.substring(line, 150, line.length - 150)
            if middle.bounds[2] > left + 0.1 and middle.bounds[0] < right - 0.1:
                assert shape.distance(middle) > inset - 1e-6
    # Whatever lies well away from every bar and line is glazed.
    taken = [upright.buffer(36) for upright in uprights]
    taken += [line.buffer(5 * inset + 1) for line, inset in lines]
    rest = whole.difference(shapely.union_all([*taken, *shapes]))
    starters = [c for c in centres if min(c, wide - c) <= WIDTHS.rafter_mm]
    assert starters or rest.area < 1.0


@settings(max_examples=60, deadline=None)
@given(roof=roofs, number=st.integers(0, 6), count=st.integers(1, 6), gap=st.floats(1, 20))
def test_bays_bars_and_gaps_tile_the_facet(roof, number, count, gap):
    """Stretches between bars make up the facet; a gap takes its strip along every bar, no more."""
    facet = roof.facets[number % len(roof.facets)]
    layout = equal_bays(facet, count)
    stops = [0.0, *layout.centres_mm, float(facet.outline_mm[:, 0].max())]
    bare = [0.0] * len(facet.edges)
    whole = sum(area_between(facet, a, b, bare) for a, b in pairwise(stops))
    assert whole / 1e6 == pytest.approx(facet.area_m2, abs=1e-6)

    tight, loose = (bays(facet, layout, Fit(gap_mm=g)) for g in (0.0, gap))
    assume([len(bay.corners_mm) for bay in tight] == [len(bay.corners_mm) for bay in loose])
    for one, other in zip(tight, loose, strict=True):
        # As the gap opens, sides at bars change evenly in length, so the strip is a trapezium.
        sides = (bar_sides_mm(one, facet) + bar_sides_mm(other, facet)) / 2.0
        assert one.area_m2 - other.area_m2 == pytest.approx(sides * gap / 1e6, abs=1e-6)


def bar_sides_mm(bay, facet):
    """Return how long the sides of a bay are that lie neither at the eaves nor at the head."""
    top = facet.slope_length_mm
    return sum(
        math.dist(start, end)
        for start, end in pairwise([*bay.corners_mm, bay.corners_mm[0]])
        if not any(abs(start[1] - v) < 1e-6 and abs(end[1] - v) < 1e-6 for v in (0.0, top))
    )


def level_off_mm(facet, edge, corner, depth_mm):
    """Return how far a spot under a facet lies, level, from the upright through a side's line."""
    start, end = facet.frame.raise_up(np.array([edge.start, edge.end]))
    spot = facet.frame.raise_up(np.array([corner]))[0] - depth_mm * np.array(facet.plane.normal)
    across = np.array([start[1] - end[1], end[0] - start[0]])
    return float((spot[:2] - start[:2]) @ across / np.hypot(*across))


@settings(max_examples=60, deadline=None)
@given(
    roof=roofs, number=st.integers(0, 6), count=st.integers(1, 6), depth=st.sampled_from([32, 120])
)
def test_a_board_drawn_in_at_its_inside_face_runs_into_no_bar_ridge_or_wall(
    roof, number, count, depth
):
    """In space: every corner of the inside face, level, against the upright side of each member.

    A bar 60 wide on the glazing is narrower seen from above; by that it is measured here.
    """
    facet = roof.facets[number % len(roof.facets)]
    for bay in bays(facet, equal_bays(facet, count), Fit(gap_mm=5)):
        corners, _ = bay.at_depth(depth)
        for edge in flat_edges(facet):
            if edge.kind.drains or edge.along[0] > -1e-9:
                continue
            level = math.cos(math.radians(facet.pitch_deg))
            half = WIDTHS.half_mm(edge) * level / math.hypot(edge.along[0], edge.along[1] * level)
            offs = [level_off_mm(facet, edge, corner, depth) for corner in corners]
            # A hip's line ends at the ridge; what lies beyond its end is the other line's.
            beside = [
                off
                for off, corner in zip(offs, corners, strict=True)
                if min(edge.start[0], edge.end[0]) <= corner[0] <= max(edge.start[0], edge.end[0])
            ]
            assert all(off >= half - 0.05 for off in beside)


def test_a_square_board_would_run_into_the_ridge_and_a_bevelled_one_stops_at_it():
    """A gable of 26 and 41°: 120 mm deep, a square head is 52.6 and 78.7 mm further in."""
    gable = built(Gable(width_mm=3800, projection_mm=4200, left_pitch_deg=26, right_pitch_deg=41))
    for facet, pitch in zip(gable.facets, (41, 26), strict=True):
        (bay, *_) = bays(facet, equal_bays(facet, 7), Fit(gap_mm=5))
        head = max(bay.leans_deg)
        top = max(v for _, v in bay.corners_mm)
        ridge = next(edge for edge in flat_edges(facet) if edge.kind is LineKind.RIDGE)

        assert head == pytest.approx(pitch)
        square = level_off_mm(facet, ridge, (0.0, top), 120.0)
        on_face = level_off_mm(facet, ridge, (0.0, top), 0.0)
        assert on_face - square == pytest.approx(120 * math.sin(math.radians(pitch)))
        inner, leans = bay.at_depth(120.0)
        assert max(v for _, v in inner) == pytest.approx(top - 120 * math.tan(math.radians(pitch)))
        assert leans == bay.leans_deg


def beside_the_head_of_a_hip():
    """Return the bay of J04's first facet that begins 7 mm beyond the head of its hip."""
    facet = J04.facet("F1")
    layout = BarLayout(facet="F1", centres_mm=(724.87 - 28.0, 1341.0, 1958.0))
    return facet, bays(facet, layout, Fit(gap_mm=5.0))[1]


def test_a_bay_beyond_the_head_of_a_hip_stays_clear_of_its_body():
    facet, bay = beside_the_head_of_a_hip()
    (hip,) = [edge for edge in flat_edges(facet) if edge.kind is LineKind.HIP]
    x, y = (30.0 * one for one in hip.inward)
    body = shapely.Polygon(
        [
            hip.start,
            hip.end,
            (hip.end[0] + x, hip.end[1] + y),
            (hip.start[0] + x, hip.start[1] + y),
        ]
    )

    assert bay.corners_mm[0][0] == pytest.approx(731.87, abs=0.01)
    assert shapely.Polygon(bay.corners_mm).distance(body) > 4.9
    # Squared off at its head alone it would reach into the hip by half its width.
    head = shapely.box(731.87, 0.0, 1306.0, 1930.9 - 35.0)
    assert head.intersection(body).area > 100.0


def test_a_bar_that_leans_towards_a_bay_from_beyond_its_corner_takes_that_corner_at_full_depth():
    # 10 mm further along, the outside face is clear of the hip; 120 mm under it the hip is not.
    facet = J04.facet("F1")
    layout = BarLayout(facet="F1", centres_mm=(724.87, 1341.0, 1958.0))
    bay = bays(facet, layout, Fit(gap_mm=5.0))[1]
    whole, leans = bay.at_depth(0.0, beside_mm=120.0)

    assert len(bay.corners_mm) == 4
    assert bay.beside
    assert len(whole) == 5
    # The corner is cut square; what leans beside the ridge is still bevelled.
    assert sum(lean > 0.0 for lean in leans) == 1
    assert bay.at_depth(0.0)[0] == bay.corners_mm
