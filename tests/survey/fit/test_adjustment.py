from dataclasses import replace

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy import optimize

from roofmodel.foundation.errors import DimensionError
from roofmodel.survey.fit import adjustment, suspect
from roofmodel.survey.readings.measure import Measure
from roofmodel.survey.readings.network import Assumption, Network, SheetLine, reading
from roofmodel.survey.readings.reading import Reading, Tool, Unit
from roofmodel.survey.sheets import networks
from tests.survey import random_surveys, roofs

seeds = st.integers(0, 10_000)
shapes = st.sampled_from(list(random_surveys.SHAPES.values()))
symmetric = st.sampled_from([n for n in random_surveys.SHAPES.values() if n.plan is None])


def clean_survey(network, seed):
    rng = np.random.default_rng(seed)
    return random_surveys.survey(network, random_surveys.true_points(network, rng), rng)


@pytest.mark.parametrize("network", random_surveys.SHAPES.values(), ids=random_surveys.SHAPES)
def test_readings_free_of_error_give_the_roof_they_were_taken_from(network):
    rng = np.random.default_rng(7)
    points = random_surveys.true_points(network, rng)

    found = adjustment.adjust(network, random_surveys.survey(network, points, None))

    assert np.abs(found.points_mm - points).max() < 0.001
    assert found.chi_square < 1e-6
    assert found.undetermined == ()
    assert found.assumptions == ()


def test_redundancies_add_up_to_the_readings_less_the_unknowns():
    network = networks.polygonal_end(3)
    found = adjustment.adjust(network, clean_survey(network, 1))

    assert sum(r.redundancy for r in found.residuals) == pytest.approx(found.freedom)
    assert found.freedom == len(found.readings) - len(network.free)


def test_one_reading_too_many_leaves_one_redundancy():
    assert adjustment.adjust(roofs.LEAN_TO, roofs.out_of_square()).freedom == 1


def test_a_survey_of_nothing_says_which_points_are_open():
    found = adjustment.adjust(roofs.LEAN_TO, ())

    assert found.undetermined == ("A", "B", "C", "D")


def test_a_reading_in_the_wrong_unit_is_refused_by_its_name():
    wrong = Reading(name="AB", value=4000, unit=Unit.DEG, standard_error=3)

    with pytest.raises(DimensionError, match="Enter it in mm"):
        adjustment.adjust(roofs.LEAN_TO, [wrong])


def test_readings_no_roof_has_are_refused_all_at_once():
    wrong = roofs.readings(
        roofs.LEAN_TO, AB=-4000, DA=0, pitch_CD_to_A=95, angle_A=180, level_DC=-12
    )

    with pytest.raises(DimensionError) as error:
        adjustment.adjust(roofs.LEAN_TO, wrong)

    assert [f.field for f in error.value.faults] == ["AB", "DA", "pitch CD to A", "angle A"]


def test_four_unequal_sides_alone_are_not_made_a_rectangle_of():
    found = adjustment.adjust(roofs.LEAN_TO, roofs.out_of_square(AC=None, BD=None))

    assert [a.name for a in found.assumptions if a.name.startswith("angle")]
    angles = [found.reads(Measure.CORNER_ANGLE, c)[0] for c in ("DAB", "ABC", "BCD", "CDA")]
    assert max(abs(angle - 90.0) for angle in angles) > 0.3
    assert [found.reads(Measure.PLAN_LENGTH, side)[0] for side in ("AB", "BC", "CD", "DA")] == (
        pytest.approx([4200, 2865, 4230, 2800], abs=1.0)
    )


def test_an_assumption_gives_way_as_soon_as_the_tape_knows_better():
    """Five taped lengths fix the plan: nothing is taken for square, and nothing is off by it."""
    found = adjustment.adjust(roofs.LEAN_TO, roofs.out_of_square(BD=None))

    assert found.assumptions == ()
    assert found.reads(Measure.PLAN_LENGTH, "BD")[0] == pytest.approx(5076.4, abs=0.05)


@pytest.mark.parametrize(
    ("read_to_mm", "joins"), [(4.9, False), (5.0, False), (5.1, True), (10.0, True)]
)
def test_an_assumption_joins_in_where_the_reading_is_less_sharp_than_it_and_not_otherwise(
    read_to_mm, joins
):
    """Two stations taken for level to ±5, and one reading of the step between them, 20 mm.

    By hand: where both count, the step is the mean by their weights.
    """
    level = Assumption(
        name="level", label="level", measure=Measure.ABOVE, points=("2", "1"), value=0.0,
        standard_error=5.0,
    )  # fmt: skip
    stations = levelling_network({"1": 0.0, "2": 0.0}, [("step", "1", "2")])
    read = Reading(name="step", value=20.0, unit=Unit.MM, standard_error=read_to_mm)
    found = adjustment.adjust(replace(stations, assumptions=(level,)), [read])

    step_mm, error_mm = found.reads(Measure.ABOVE, ("2", "1"))
    own, other = read_to_mm**-2, 5.0**-2 if joins else 0.0
    assert found.assumptions == ((level,) if joins else ())
    assert step_mm == pytest.approx(20.0 * own / (own + other), abs=1e-3)
    assert error_mm == pytest.approx((own + other) ** -0.5, abs=1e-3)


def test_a_wild_reading_does_not_throw_the_fit_off():
    network = roofs.LEAN_TO
    good = clean_survey(network, 3)
    in_cm = round(good[0].value / 10.0)
    wild = [reading(network.line("AB"), in_cm), *(r for r in good if r.name != "AB")]

    found = suspect.find(adjustment.adjust(network, wild))

    assert found.located == "AB"
    assert "entered in cm" in found.suspects[0].slips[0]


@settings(deadline=None, max_examples=40)
@given(network=shapes, seed=seeds, data=st.data())
def test_adding_a_consistent_reading_never_opens_a_survey(network, seed, data):
    readings = clean_survey(network, seed)
    keep = data.draw(st.integers(1, len(readings)))
    chosen = data.draw(st.permutations(readings))[:keep]
    before = adjustment.adjust(network, chosen)
    lines = [line for line in network.lines if line.measure is not None]
    line = data.draw(st.sampled_from(lines))

    added = reading(line, before.reads_line(line)[0])
    assume(not network.faults(added))  # so few readings that the roof is anywhere
    after = adjustment.adjust(network, [*chosen, added])

    assert after.fits or not before.fits


@settings(deadline=None, max_examples=25)
@given(network=shapes, seed=seeds, data=st.data())
def test_the_order_of_readings_changes_nothing(network, seed, data):
    rng = np.random.default_rng(seed)
    readings, _ = random_surveys.plant(clean_survey(network, seed), rng)
    turned = data.draw(st.permutations(readings))

    one, other = (adjustment.adjust(network, order) for order in (readings, turned))

    assert np.abs(one.points_mm - other.points_mm).max() < 1e-3
    assert one.fits == other.fits
    assert suspect.find(one).located == suspect.find(other).located


@settings(deadline=None, max_examples=25)
@given(network=symmetric, seed=seeds)
def test_a_mirrored_survey_gives_the_mirrored_roof(network, seed):
    pairs = mirrored(network, clean_survey(network, seed))
    one = adjustment.adjust(network, [reading for reading, _ in pairs])
    other = adjustment.adjust(network, [reading for _, reading in pairs])
    width = one.point("A")[0]

    for name in network.points:
        x, y, z = one.point(name)
        assert other.point(mirror_point(network, name)) == pytest.approx(
            (width - x, y, z), abs=1e-3
        )
    assert one.chi_square == pytest.approx(other.chi_square, abs=1e-4)


def mirror_point(network, name):
    """A and B change places, C and the last corner, and so on; the ridge stays."""
    if name not in network.corners:
        return name
    order = [*network.corners[1::-1], *network.corners[:1:-1]]
    return order[network.corners.index(name)]


def mirrored(network, readings):
    """Return each reading with its mirror image, leaving out those that have none on the sheet."""
    pairs = []
    for read in readings:
        line = network.line(read.name)
        points = tuple(mirror_point(network, point) for point in line.points)
        for other in network.lines:
            if other.measure is line.measure and same(line.measure, points, other.points):
                back = line.measure is Measure.ABOVE and points != other.points
                pairs.append((read, reading(other, -read.value if back else read.value)))
                break
    return pairs


def same(what, points, others):
    one_way = {Measure.SQUARE_OFF, Measure.BAR_LENGTH, Measure.PITCH}
    if what in one_way:
        return points[0] == others[0] and set(points) == set(others)
    if what in {Measure.CORNER_ANGLE, Measure.MIDDLE_LENGTH}:
        place = 1 if what is Measure.CORNER_ANGLE else 2
        return points[place] == others[place] and set(points) == set(others)
    return set(points) == set(others)


def levelling_network(heights, runs):
    """Return stations of which only the height is looked for, and lines from one to another."""
    lines = tuple(
        SheetLine(name=name, label=name, tool=Tool.LEVEL, measure=Measure.ABOVE, points=(to, at))
        for name, at, to in runs
    )
    held = {(point, axis) for point in heights for axis in (0, 1)} | {(next(iter(heights)), 2)}
    return Network(
        shape="levelling", corners=(), sides=(), points=tuple(heights),
        held=frozenset(held), lines=lines, assumptions=(), facets=(), closures=(),
        start=lambda _: {p: (0.0, 0.0, z) for p, z in heights.items()},
    )  # fmt: skip


def test_a_published_levelling_loop_comes_out_as_published():
    """Four legs levelled there and back, each ±5 mm, from a mark at 1000 m.

    Source: "Adjustment of local geodetic network, sample 1D vertical least square adjustment",
    printed output at www.vrmapper.com/gama/1doutput.html: heights, their standard deviations,
    redundancy 5, sum of squares 146.625 mm² and the largest normalised residual 1.68 at the sixth
    run. By hand: a leg run twice is good for 5/√2, so the two neighbours of the mark are good for
    √(12.5 × 37.5 / 50) = 3.06 and the far one for √(25 × 25 / 50) = 3.54.
    """
    metres = [-1.22500, -0.84800, 1.34200, 0.72000, -0.72400, -1.33500, 0.84200, 1.23100]
    legs = ["1a 4", "4 3", "3 2", "2 1a", "1a 2", "2 3", "3 4", "4 1a"]
    runs = [(str(i), *leg.split()) for i, leg in enumerate(legs)]
    rough = {"1a": 1_000_000.0, "2": 999_000.0, "3": 998_000.0, "4": 999_000.0}
    network = levelling_network(rough, runs)
    readings = [
        Reading(name=str(i), value=1000.0 * value, unit=Unit.MM, standard_error=5.0)
        for i, value in enumerate(metres)
    ]

    found = adjustment.adjust(network, readings)

    assert found.freedom == 5
    assert found.chi_square * 25.0 == pytest.approx(146.625, abs=0.001)
    for name, height_mm, error_mm in (
        ("4", 998_775.13, 3.1), ("3", 997_933.25, 3.5), ("2", 999_274.87, 3.1)
    ):  # fmt: skip
        height, error = found.reads(Measure.HEIGHT, (name,))
        assert height == pytest.approx(height_mm, abs=0.006)
        assert error == pytest.approx(error_mm, abs=0.05)
    sizes = [abs(r.normalised) for r in found.residuals]
    assert max(sizes) == pytest.approx(1.68, abs=0.005)
    assert sizes.index(max(sizes)) == 5


def test_heights_agree_with_the_textbook_solution_by_matrices():
    """The same loop by numpy's linear least squares: another route through the same sums."""
    differences = np.array([-1225.0, -848.0, 1342.0, 720.0, -724.0, -1335.0, 842.0, 1231.0])
    design = np.array(
        [[0, 0, 1], [0, 1, -1], [1, -1, 0], [-1, 0, 0], [1, 0, 0], [-1, 1, 0], [0, -1, 1],
         [0, 0, -1]], dtype=float,
    )  # fmt: skip
    expected = np.linalg.lstsq(design, differences, rcond=None)[0]

    assert expected + 1_000_000.0 == pytest.approx([999_274.87, 997_933.25, 998_775.13], abs=0.006)


def test_plan_and_sharpness_agree_with_a_general_curve_fitter():
    """J08 with BD 5076: coordinates and covariance by scipy.optimize.curve_fit."""
    readings = [r for r in roofs.out_of_square(BD=5076) if r.unit is Unit.MM and len(r.name) == 2]

    def lengths(_, ax, cx, cy, dx, dy):
        at = {"A": (ax, 0.0), "B": (0.0, 0.0), "C": (cx, cy), "D": (dx, dy)}
        return np.array([np.hypot(*np.subtract(at[r.name[0]], at[r.name[1]])) for r in readings])

    values, covariance = optimize.curve_fit(
        lengths,
        np.zeros(len(readings)),
        np.array([r.value for r in readings]),
        p0=[4000.0, 10.0, 2800.0, 4000.0, 2800.0],
        sigma=np.array([r.standard_error for r in readings]),
        absolute_sigma=True,
        xtol=1e-12,
    )
    found = adjustment.adjust(roofs.LEAN_TO, roofs.out_of_square(BD=5076))

    (ax, *_), (cx, cy, _), (dx, dy, _) = (found.point(name) for name in "ACD")
    assert (ax, cx, cy, dx, dy) == pytest.approx(tuple(values), abs=1e-3)
    plan = [i for i, place in enumerate(found.network.free) if place % 3 < 2]
    own = found.solution.cofactor[np.ix_(plan, plan)]
    assert own == pytest.approx(covariance, rel=1e-3, abs=1e-3)
