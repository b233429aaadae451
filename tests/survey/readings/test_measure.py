import numpy as np
import pytest

from roofmodel.survey.readings import measure
from roofmodel.survey.readings.measure import Measure

# A house wall 4000 long, its eaves corners 3000 out, a ridge end 1000 up: sums one can do in the
# head. A is the left-hand end of the wall.
POINTS = {
    "A": (4000.0, 0.0, 0.0),
    "B": (0.0, 0.0, 0.0),
    "C": (0.0, 3000.0, 0.0),
    "D": (4000.0, 3000.0, 400.0),
    "P": (1000.0, 1000.0, 1000.0),
}
NAMES = list(POINTS)


def read(what, points):
    row = measure.instrument([(what, tuple(NAMES.index(p) for p in points))])
    return row.values(np.array(list(POINTS.values())))[0]


@pytest.mark.parametrize(
    ("what", "points", "value"),
    [
        (Measure.PLAN_LENGTH, "AC", 5000.0),
        (Measure.PLAN_LENGTH, "BD", 5000.0),
        (Measure.MIDDLE_LENGTH, "ABC", np.hypot(2000.0, 3000.0)),
        (Measure.SQUARE_OFF, "PAB", 1000.0),
        (Measure.SQUARE_OFF, "PBC", 1000.0),
        (Measure.SQUARE_OFF, "PCD", 2000.0),
        (Measure.SQUARE_OFF, "PDA", 3000.0),
        (Measure.CORNER_ANGLE, "ABC", 90.0),
        (Measure.CORNER_ANGLE, "BCA", np.degrees(np.arctan2(4.0, 3.0))),
        (Measure.HEIGHT, "P", 1000.0),
        (Measure.MIDDLE_HEIGHT, "CD", 200.0),
        (Measure.ABOVE, "DP", -600.0),
        (Measure.SLOPE_LENGTH, "AD", np.hypot(3000.0, 400.0)),
        # Square off CD the eaves have risen by a quarter of 400.
        (Measure.BAR_LENGTH, "PCD", np.hypot(2000.0, 900.0)),
        (Measure.PITCH, "PCD", np.degrees(np.arctan(900.0 / 2000.0))),
        (Measure.PITCH, "PBC", 45.0),
        (Measure.LENGTH_DIFFERENCE, "ABBC", 1000.0),
        (Measure.OFF_DIFFERENCE, "PBCDA", -2000.0),
        (Measure.PITCH_DIFFERENCE, "PBCAB", 0.0),
    ],
)
def test_every_measure_reads_what_one_reckons_in_the_head(what, points, value):
    assert read(what, points) == pytest.approx(value, abs=1e-9)


@pytest.mark.parametrize("what", list(Measure))
def test_slopes_agree_with_small_steps(what):
    points = "PCDBC"
    count = {
        Measure.HEIGHT: 1, Measure.PLAN_LENGTH: 2, Measure.MIDDLE_HEIGHT: 2, Measure.ABOVE: 2,
        Measure.SLOPE_LENGTH: 2, Measure.LENGTH_DIFFERENCE: 4, Measure.OFF_DIFFERENCE: 5,
        Measure.PITCH_DIFFERENCE: 5, Measure.OFF_PLANE: 4,
    }.get(what, 3)  # fmt: skip
    row = measure.instrument([(what, tuple(NAMES.index(p) for p in points[:count]))])
    at = np.array(list(POINTS.values()))
    exact = row.slopes(at)[0]

    for i in range(at.size):
        step = np.zeros(at.size)
        step[i] = 0.01
        step = step.reshape(at.shape)
        small = (row.values(at + step)[0] - row.values(at - step)[0]) / 0.02
        assert exact[i] == pytest.approx(small, abs=1e-7)


def test_rows_of_different_measures_keep_their_order():
    wanted = [(Measure.HEIGHT, (4,)), (Measure.PLAN_LENGTH, (0, 2)), (Measure.HEIGHT, (3,))]

    found = measure.instrument(wanted).values(np.array(list(POINTS.values())))

    assert list(found) == [1000.0, 5000.0, 400.0]
