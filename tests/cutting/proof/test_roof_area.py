"""What boards take of sheets by area: against boardings made to save as much as gaps can."""

import math
from dataclasses import replace

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from roofmodel.cutting.laying.division import fewest_rows
from roofmodel.cutting.laying.from_facets import boardings
from roofmodel.cutting.laying.rule import rules_for
from roofmodel.cutting.proof.roof_area import least_mm2
from tests.cutting import made

FACETS = {
    "rectangle": made.rectangle_facet(3700, 2500),
    "triangle": made.facet((0, 0), (4000, 0), (2000, 2200)),
    "leaning triangle": made.facet((0, 0), (3000, 0), (3400, 2600)),
    "trapezoid": made.facet((0, 0), (4200, 0), (3100, 1900), (1500, 1900)),
    "parallelogram": made.facet((0, 0), (2500, 0), (4400, 1800), (1900, 1800)),
    "wider above": made.facet((900, 0), (2000, 0), (3300, 1700), (0, 1700)),
    "out of square": made.facet((0, 0), (4000, 12), (4030, 2500), (-20, 2480)),
    "notched": made.facet(
        (0, 0), (4000, 0), (4000, 2600), (2900, 2600), (2900, 2000), (1800, 2000), (1800, 2600),
        (0, 2600),
    ),
}  # fmt: skip


def grown_mm2(shape, good, row_mm, piece_mm):
    """Return the area of boards in low rows, jointed as often as can be, each grown by the saw.

    And the rules that just allow so many rows and joints.
    """
    rules = rules_for(good)
    facet = shape if hasattr(shape, "name") else None
    way = boardings([facet], good, rules, job_code="T")[0]
    _, low, _, high = shapely.Polygon(facet.outline_mm).bounds
    fewest = fewest_rows(high - low, rules)
    count = max(fewest, int((high - low + rules.gap_mm) // (row_mm + rules.gap_mm)))
    height = (high - low - (count - 1) * rules.gap_mm) / count
    half = good.kerf_mm / 2
    total = 0.0
    most_joints = 0
    for number in range(1, count + 1):
        at = low + (number - 1) * (height + rules.gap_mm)
        bare = way.bare((at, at + height))
        joints = tuple(_often(strip, piece_mm, rules) for strip in bare.strips)
        most_joints = max(most_joints, *map(len, joints))
        for part in way.row(replace(bare, joints=joints), number).parts:
            outline = shapely.Polygon(part.corners)
            total += outline.area / 100 + outline.length / 10 * half + math.pi * half * half
    return total, replace(rules, more_rows=count - fewest, more_joints=most_joints)


def _often(strip, piece_mm, rules):
    left, _, right, _ = strip.bounds
    count = max(1, int((right - left + rules.gap_mm) // (piece_mm + rules.gap_mm)))
    step = (right - left + rules.gap_mm) / count
    return tuple(left - rules.gap_mm / 2 + i * step for i in range(1, count))


@settings(max_examples=60, deadline=None)
@given(
    name=st.sampled_from(sorted(FACETS)),
    row_mm=st.floats(150, 1200),
    piece_mm=st.floats(150, 2400),
    gap_mm=st.sampled_from([0.0, 2.0, 3.0, 5.0, 8.0]),
    kerf_mm=st.sampled_from([0.0, 1.0, 3.0, 5.0]),
)
def test_no_boards_take_less_than_the_least_area(name, row_mm, piece_mm, gap_mm, kerf_mm):
    good = made.good("INS-PIR75", board_gap_mm=gap_mm, kerf_mm=kerf_mm)
    facet = FACETS[name]
    taken, rules = grown_mm2(facet, good, row_mm, piece_mm)
    least = least_mm2(shapely.Polygon(facet.outline_mm), rules, kerf_mm=kerf_mm)

    assert least <= taken


@pytest.mark.parametrize("name", sorted(FACETS))
def test_the_smallest_pieces_the_rules_allow_come_close_to_the_least(name):
    # Else the bound would be needlessly weak: three parts in a hundred is what gaps may save.
    good = made.good("INS-PIR75")
    facet = FACETS[name]
    shape = shapely.Polygon(facet.outline_mm)
    taken, rules = grown_mm2(facet, good, 150, 150)

    assert least_mm2(shape, rules, kerf_mm=good.kerf_mm) > 0.97 * taken


@pytest.mark.parametrize("name", sorted(FACETS))
def test_few_rows_and_joints_leave_little_to_be_saved_by_gaps(name):
    good = made.good("INS-PIR75")
    shape = shapely.Polygon(FACETS[name].outline_mm)
    least = least_mm2(shape, rules_for(good), kerf_mm=good.kerf_mm)
    any_number = replace(rules_for(good), more_rows=99, more_joints=99)

    assert least_mm2(shape, any_number, kerf_mm=good.kerf_mm) < least
    assert least > 0.99 * shape.area


def test_a_gap_no_wider_than_the_saw_cut_saves_nothing():
    good = made.good("BRD-OSB18", board_gap_mm=3.0, kerf_mm=3.0)
    shape = shapely.box(0, 0, 4000, 2500)

    assert least_mm2(shape, rules_for(good), kerf_mm=3.0) > shape.area
