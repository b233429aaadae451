import pytest

from roofmodel.survey.readings.network import reading
from roofmodel.survey.sheets import carried, networks
from roofmodel.survey.taped.survey import GableSurvey, HippedSurvey, LeanToSurvey
from tests.survey import random_surveys

SIZES = {"width_mm": 4000.0, "projection_mm": 3500.0, "eaves_height_mm": 2100.0}
LEAN_TO = LeanToSurvey(pitch_deg=15.0, **SIZES)
GABLE = GableSurvey(left_pitch_deg=25.0, right_pitch_deg=25.0, **SIZES)
HIPPED = HippedSurvey(left_pitch_deg=25.0, right_pitch_deg=25.0, front_pitch_deg=30.0, **SIZES)


def readings(survey, **values):
    network = networks.of_survey(survey)
    return [reading(network.line(name.replace("_", " ")), v) for name, v in values.items()]


def names_after(before, after, **values):
    found = carried.carried(readings(before, **values), carried.sheet(before), carried.sheet(after))
    return [one.name for one in found.readings], [one.name for one in found.without_line]


def test_what_is_read_between_the_same_points_stands_on_the_new_sheet():
    kept, waiting = names_after(
        GABLE, HIPPED, AB=4000, C_off_AB=3500, height_P=3030, pitch_BC_to_Q=25, bar_DA_to_P=2200
    )

    assert kept == ["AB", "C off AB", "height P", "pitch BC to Q", "bar DA to P"]
    assert waiting == []


def test_what_the_new_shape_has_not_got_waits_under_its_own_name():
    assert names_after(LEAN_TO, HIPPED, AB=4000, pitch_CD_to_A=15) == (["AB"], ["pitch CD to A"])


def test_a_level_read_from_the_other_end_changes_its_sign():
    taken = readings(LEAN_TO, level_AB=4)

    moved = carried.carried(taken, carried.sheet(LEAN_TO), carried.sheet(HIPPED))

    assert [(one.name, one.value) for one in moved.readings] == [("level BA", -4.0)]


def plan_of(*corners):
    kinds = {0: ("house wall", None)}
    return random_surveys.free_plan(
        *((x, y, *kinds.get(i, ("eaves", 25.0))) for i, (x, y) in enumerate(corners))
    )


def test_a_corner_added_to_a_plan_moves_the_letters_of_those_behind_it():
    four = plan_of((4000, 0), (0, 0), (0, 5000), (4000, 5000))
    five = plan_of((4000, 0), (0, 0), (0, 5000), (2500, 5600), (4000, 5000))

    kept, waiting = names_after(four, five, AB=4000, DA=5000, height_D=2100, CD=4000)

    assert kept == ["AB", "EA", "height E", "CE"]
    assert waiting == []


@pytest.mark.parametrize("name", random_surveys.SURVEYS)
def test_a_plan_that_stays_as_it_is_keeps_every_reading_where_it_is(name):
    survey = random_surveys.SURVEYS[name]
    network = networks.of_survey(survey)
    taken = [reading(line, 10.0) for line in network.lines]

    found = carried.carried(taken, carried.sheet(survey), carried.sheet(survey))

    assert list(found.readings) == taken
    assert not found.relettered


def test_two_letterings_of_one_plan_are_two_sheets():
    """Deep, the ridge runs out from the wall; broad, two hips run back to the wall."""
    deep = plan_of((4000, 0), (0, 0), (0, 5000), (4000, 5000))
    broad = plan_of((4000, 0), (0, 0), (0, 1500), (4000, 1500))

    assert carried.sheet(deep).name == ("plan of 4 sides; P over BC, CD, DA; Q over AB, BC, DA")
    assert carried.sheet(broad).name == ("plan of 4 sides; P over AB, CD, DA; Q over AB, BC, CD")
    assert names_after(deep, broad, AB=4000, height_P=2900) == (["AB"], ["height P"])
