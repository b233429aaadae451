import pytest

from roofmodel.foundation.errors import DimensionError
from roofmodel.survey.taped import typed_reading
from roofmodel.survey.taped.typed_reading import parse_angle, parse_length


@pytest.mark.parametrize(
    ("text", "value_mm"),
    [
        ("4200", 4200.0),
        ("4200 mm", 4200.0),
        ("4200,5", 4200.5),
        ("4 200", 4200.0),
        ("420cm", 4200.0),
        ("420,5 cm", 4205.0),
        ("4.2m", 4200.0),
        ("3,5 m", 3500.0),
        (" 3.5 M ", 3500.0),
        ("3.5 metres", 3500.0),
    ],
)
def test_a_length_is_understood_with_its_unit_comma_or_point(text, value_mm):
    typed = parse_length(text)

    assert typed.value == pytest.approx(value_mm)
    assert not typed.doubtful


@pytest.mark.parametrize(
    ("text", "kept", "question", "meant"),
    [
        ("350", 350.0, "350: did you mean 3500 mm (350 cm)?", (3500.0,)),
        ("3,5", 3.5, "3,5: did you mean 3500 mm (3.5 m)?", (3500.0,)),
        ("3.500", 3.5, "3.500: did you mean 3500 mm (3.5 m)?", (3500.0,)),
        ("3500 cm", 35_000.0, "3500 cm: did you mean 3500 mm?", (3500.0,)),
        ("35 m", 35_000.0, "35 m is very long for a plan size. Is it right?", ()),
        ("60", 60.0, "60 is very short for a plan size. Is it right?", ()),
    ],
)
def test_a_doubtful_length_is_kept_and_asked_about(text, kept, question, meant):
    typed = parse_length(text)

    assert typed.value == kept
    assert typed.question == question
    assert typed.meant == meant


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("", "not a length"),
        ("fifteen", "not a length"),
        ("-4000", "more than 0"),
        ("0", "more than 0"),
        ("3 m 50", "more than one number"),
        ("12'6\"", "more than one number"),
        ("12 ft", "not a unit"),
        ("4,200.5", "decimals"),
        ("1.234.567", "decimals"),
        ("nan", "not a length"),
        ("1e3", "more than one number"),
    ],
)
def test_what_is_no_length_is_refused_with_the_way_to_write_it(text, why):
    with pytest.raises(DimensionError, match=why) as error:
        parse_length(text, field="width_mm")
    (fault,) = error.value.faults
    assert fault.field == "width_mm"
    assert "3500, 350 cm or 3.5 m" in fault.remedy


def test_what_is_ordinary_depends_on_what_is_measured():
    assert not parse_length("2100", plausible=typed_reading.HEIGHT).doubtful
    assert not parse_length("60", plausible=typed_reading.PART).doubtful
    assert parse_length("210", plausible=typed_reading.HEIGHT).meant == (2100.0,)


@pytest.mark.parametrize("text", ["14,5", "14.5°", "14.5 deg", "14.5 degrees"])
def test_an_angle_is_understood(text):
    assert parse_angle(text).value == 14.5


@pytest.mark.parametrize("text", ["fifteen", "0", "95", "-3", "1:4"])
def test_what_is_no_pitch_is_refused(text):
    with pytest.raises(DimensionError) as error:
        parse_angle(text, field="pitch_deg", most_deg=75.0)
    assert "degrees" in error.value.faults[0].remedy
