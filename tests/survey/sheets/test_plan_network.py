import math

import numpy as np
import pytest
import shapely

from roofmodel.foundation.errors import DimensionError
from roofmodel.shapes.footprint import SideKind
from roofmodel.survey.fit import adjustment, closure, fitted_footprint, suspect, twist
from roofmodel.survey.readings.measure import Measure
from roofmodel.survey.readings.network import reading
from roofmodel.survey.sheets import networks, nominal
from roofmodel.survey.taped import to_shape
from roofmodel.survey.verdict import examination
from tests.survey import random_surveys
from tests.survey.random_surveys import PLANS, SURVEYS

EVERY = pytest.mark.parametrize("name", PLANS)
L, T, NOTCH = PLANS["L wing"], PLANS["T wing"], PLANS["plan with a notch"]
RAISED = PLANS["plan with a raised box gutter"]


def random_survey(network, seed=3):
    rng = np.random.default_rng(seed)
    return random_surveys.survey(network, random_surveys.true_points(network, rng), rng)


@EVERY
def test_letters_stand_on_the_corners_of_the_roof_the_typed_values_make(name):
    network, roof = PLANS[name], to_shape.built(SURVEYS[name]).roof
    lettered = list(network.plan.at_mm.values())

    for facet in roof.facets:
        for corner in facet.corners:
            assert min(math.dist(corner, point) for point in lettered) < 0.01
    assert [facet.name for facet in network.facets] == [facet.name for facet in roof.facets]
    assert len({line.name for line in network.lines}) == len(network.lines)


@EVERY
def test_every_diagonal_and_square_asked_for_can_be_taped_inside_the_plan(name):
    network = PLANS[name]
    at = {point: np.array(spot[:2]) for point, spot in network.plan.at_mm.items()}
    outline = shapely.Polygon([at[corner] for corner in network.corners]).buffer(2.0)

    for line in network.recommended:
        if line.measure is Measure.PLAN_LENGTH:
            ends = [at[point] for point in line.points]
        elif line.measure is Measure.SQUARE_OFF and line.points[0] in network.corners:
            corner, a, b = (at[point] for point in line.points)
            along = (b - a) / np.hypot(*(b - a))
            ends = [corner, a + along * float(along @ (corner - a))]
        else:
            continue
        assert outline.covers(shapely.LineString(ends)), line.name


def test_no_diagonal_of_an_l_plan_leaves_it():
    """Its inner corner E stands between D and F."""
    names = {line.name for line in L.lines if line.measure is Measure.PLAN_LENGTH}

    assert "DF" not in names
    assert {"AE", "BE", "BD", "BF"} <= names


def test_a_notch_is_taped_across_along_the_house_wall_and_square_off_either_part_of_it():
    survey = random_surveys.free_plan(
        (5000, 0, "house wall", None), (3500, 0, "box gutter", 20), (3500, 400, "box gutter", 20),
        (1500, 400, "box gutter", 20), (1500, 0, "house wall", None), (0, 0, "eaves", 25),
        (0, 3500, "eaves", 25), (5000, 3500, "eaves", 25),
    )  # fmt: skip
    network = networks.of_survey(survey)

    taped = {line.name: line.times for line in network.lines}

    assert taped["AF"] == 2
    assert taped["G off AB"] == taped["H off AB"] == 2
    rng = np.random.default_rng(0)
    points = random_surveys.true_points(network, rng)
    adjusted = adjustment.adjust(network, random_surveys.survey(network, points, rng))
    roof = fitted_footprint.footprint(adjusted).roof(eaves_height_mm=2100.0)
    assert len(roof.facets) == len(network.facets)


def test_an_inner_corner_has_more_than_180_degrees():
    line = L.line("angle E")

    assert line.range == (180.0, 360.0)
    assert L.faults(reading(line, 270.0)) == []
    (fault,) = L.faults(reading(line, 90.0))
    assert "more than 180.00° and less than 360.00°" in fault.remedy
    assert L.faults(reading(L.line("angle B"), 270.0)) != []


def test_the_angles_of_a_plan_with_inner_corners_add_up():
    found = closure.table(T, random_surveys.survey(T, nominal_points(T), None))
    total = next(c for c in found if c.title == "sum of the plan angles")

    assert total.expected == (8 - 2) * 180.0
    assert total.measured == pytest.approx(1080.0)


def nominal_points(network):
    guess = network.start({})
    return np.array([guess[point] for point in network.points])


def test_two_eaves_in_one_line_under_one_facet_stay_one_facet():
    (facet,) = [facet for facet in T.facets if facet.more_eaves]
    assert (facet.eaves, facet.more_eaves) == (("H", "G"), (("D", "C"),))

    adjusted = adjustment.adjust(T, random_survey(T))
    fitted = fitted_footprint.footprint(adjusted)

    assert len(fitted.roof(eaves_height_mm=2100.0).facets) == len(T.facets)
    h, g, d, c = (np.array(fitted.corners_mm[T.corners.index(p)]) for p in "HGDC")
    for corner in (g, d):
        off = np.cross(np.append(c - h, 0), np.append(corner - h, 0))[2] / np.hypot(*(c - h))
        assert abs(off) < 1e-3


@EVERY
def test_closures_of_the_roof_as_typed_all_close(name):
    network = PLANS[name]

    found = closure.table(network, random_surveys.survey(network, nominal_points(network), None))

    assert [c.title for c in found if abs(c.misclosure) > 0.01] == []
    titles = {c.title for c in found}
    assert "sum of the plan angles" in titles
    assert any(title.startswith("second diagonal") for title in titles)
    assert any(title.startswith(("hip", "ridge")) for title in titles)
    walked = any(title.startswith("round the eaves") for title in titles)
    assert walked == (len(network.corners) > 4)


def test_a_first_guess_is_stretched_to_what_was_read_but_not_to_one_slip():
    points = L.start({"AB": 6600, "CD": 2640, "EF": 3960})
    slipped = L.start({"AB": 66_000, "CD": 2640, "EF": 3960})

    assert points["A"][0] == pytest.approx(6600.0)
    assert slipped["A"] == pytest.approx(points["A"])


@EVERY
def test_a_wild_reading_does_not_throw_a_plan_off(name):
    network = PLANS[name]
    good = random_survey(network)
    in_cm = round(good[0].value / 10.0)
    wild = [reading(network.line("AB"), in_cm), *good[1:]]

    found = suspect.find(adjustment.adjust(network, wild))

    assert found.located == "AB"


def test_a_facet_nobody_measured_is_flat_and_a_twist_that_was_measured_is_told():
    readings = nominal.readings(SURVEYS["L wing"])
    flat = adjustment.adjust(L, readings)
    assert any(a.measure is Measure.OFF_PLANE for a in flat.assumptions)
    assert max(t.rock_mm for t in twist.twists(flat)) < 0.01

    points = nominal_points(L)
    points[L.points.index("R"), 2] += 25.0  # the front end of the ridge stands 25 too high
    told = examination.examine(L, random_surveys.survey(L, points, None))

    assert told.adjusted.assumptions == ()
    twisted = {t.facet: t for t in told.twists}
    assert twisted["F1"].rock_mm > twist.SHIM_MM
    assert any("boards will rock" in remark for remark in told.remarks)


def test_levels_of_eaves_are_fitted_level_by_level():
    adjusted = adjustment.adjust(RAISED, nominal.readings(SURVEYS["plan with a raised box gutter"]))
    levels = [reading(RAISED.line(name), 171.0) for name in ("level RA", "level SA")]
    raised = adjustment.adjust(RAISED, [*nominal_but(levels), *levels])

    kinds = [side.kind for side in fitted_footprint.footprint(raised).sides]
    assert kinds == [SideKind.BOX_GUTTER, *[SideKind.EAVES] * 3]
    assert fitted_footprint.footprint(adjusted).sides[0].level_mm == pytest.approx(150.0, abs=0.01)
    assert fitted_footprint.footprint(raised).sides[0].level_mm == pytest.approx(171.0, abs=0.01)


def nominal_but(read):
    names = [one.name for one in read]
    return nominal.readings(SURVEYS["plan with a raised box gutter"], names)


def test_sides_of_own_pitch_keep_it_in_the_fitted_plan():
    survey = SURVEYS["lean-to, both ends hipped"]
    adjusted = adjustment.adjust(networks.of_survey(survey), nominal.readings(survey))

    pitches = [side.pitch_deg for side in fitted_footprint.footprint(adjusted).sides]

    assert pitches[0] is None
    assert pitches[1:] == pytest.approx([30.0, 20.0, 20.0], abs=1e-4)


def test_a_wall_that_does_not_run_along_x_is_turned_so():
    survey = random_surveys.free_plan(
        (0, 4000, "house wall", None), (0, 0, "eaves", 25), (-3500, 0, "eaves", 25),
        (-3500, 4000, "eaves", 25),
    )  # fmt: skip
    network = networks.of_survey(survey)
    adjusted = adjustment.adjust(network, nominal.readings(survey))

    assert adjusted.point("A")[:2] == pytest.approx((4000.0, 0.0), abs=1e-6)
    area = fitted_footprint.footprint(adjusted).roof(eaves_height_mm=0.0).area_m2
    assert area == pytest.approx(to_shape.built(survey).roof.area_m2, abs=1e-5)


def test_the_length_of_one_side_is_only_assumed_from_what_was_typed():
    """Taped 60 wider at the wall: the front follows by its square corners, the depth stays."""
    survey = SURVEYS["lean-to, one end hipped"]
    network = networks.of_survey(survey)
    readings = [reading(network.line("AB"), 4560.0), *nominal.readings(survey, ["AB"])]

    adjusted = adjustment.adjust(network, readings)

    assert adjusted.fits
    assert adjusted.reads(Measure.PLAN_LENGTH, ("A", "B"))[0] == pytest.approx(4560.0, abs=0.5)
    assert adjusted.reads(Measure.PLAN_LENGTH, ("C", "D"))[0] == pytest.approx(4560.0, abs=30.0)
    assert adjusted.reads(Measure.PLAN_LENGTH, ("B", "C"))[0] == pytest.approx(2500.0, abs=1.0)
    assert "BC" in [a.name for a in adjusted.assumptions]


def test_a_plan_of_many_corners_gets_more_letters():
    steps = 8
    front = [
        corner
        for i in range(steps)
        for corner in (
            (1000.0 * i, 2000.0 + 500.0 * (i % 2)),
            (1000.0 * (i + 1), 2000.0 + 500.0 * (i % 2)),
        )
    ]
    loop = [(1000.0 * steps, 0.0), (0.0, 0.0), *front]
    survey = random_surveys.free_plan(
        (*loop[0], "house wall", None), *((x, y, "eaves", 25) for x, y in loop[1:])
    )

    network = networks.of_survey(survey)

    assert len(network.corners) == len(set(network.points[: len(network.corners)])) == 18
    assert "A2" in network.corners
    assert len(set(network.points)) == len(network.points)
    assert adjustment.adjust(network, nominal.readings(survey)).undetermined == ()


def test_values_that_make_no_roof_have_no_sheet_and_no_readings():
    bad = random_surveys.free_plan(
        (4000, 0, "house wall", None), (0, 0, "eaves", None), (0, 3000, "eaves", 25),
        (4000, 3000, "eaves", 25),
    )  # fmt: skip

    with pytest.raises(DimensionError):
        to_shape.shape(bad)
    assert networks.of_survey(bad) is None
