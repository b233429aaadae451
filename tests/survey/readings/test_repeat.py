from roofmodel.survey.readings import repeat
from roofmodel.survey.readings.network import reading
from tests.survey import roofs


def read(name, *values):
    return [reading(roofs.LEAN_TO.line(name), value) for value in values]


def test_two_readings_more_than_5_apart_ask_for_a_third():
    (found,) = repeat.third_readings(roofs.LEAN_TO, read("AB", 4200, 4206) + read("CD", 4230, 4235))

    assert found.line == "AB"
    assert "4200.0 mm and 4206.0 mm: take a third reading" in found.text


def test_a_third_reading_settles_it_and_one_asks_nothing():
    readings = read("AB", 4200, 4206, 4201) + read("BC", 2865)

    assert repeat.third_readings(roofs.LEAN_TO, readings) == ()
