"""Numbers as people type them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roofmodel.desktop.kit import number_text
from roofmodel.desktop.kit.number_text import Unreadable


@pytest.mark.parametrize(
    ("typed", "unit", "value"),
    [
        ("3500", "mm", 3500),
        ("3,5", "°", 3.5),
        ("3.5", "°", 3.5),
        (" 17,5 ° ", "°", 17.5),
        ("17.5 deg", "°", 17.5),
        ("3 500", "mm", 3500),
        ("3\u202f500 mm", "mm", 3500),
        ("-4000", "mm", -4000),
        (",5", "mm", 0.5),
        ("12.", "mm", 12),
    ],
)
def test_numbers_are_read(typed, unit, value):
    assert number_text.read(typed, unit=unit) == value


@pytest.mark.parametrize(
    ("typed", "unit", "said"),
    [
        ("", "mm", "This field is empty"),
        ("fifteen", "°", "not a number"),
        ("1.250,5", "mm", "not a number"),
        ("3 5", "mm", "not a number"),
        ("nan", "mm", "not a number"),
        ("1e3", "mm", "not a number"),
        ("20 mm", "°", "not a number"),
    ],
)
def test_what_is_no_number_is_said_with_a_remedy(typed, unit, said):
    found = number_text.read(typed, unit=unit)

    assert isinstance(found, Unreadable)
    assert said in found.text
    assert found.remedy


@pytest.mark.parametrize(
    ("typed", "meant"), [("3.5 m", "3500"), ("350 cm", "3500"), ('100"', "2540"), ("10 ft", "3048")]
)
def test_another_unit_is_asked_about_and_never_converted(typed, meant):
    found = number_text.read(typed, unit="mm")

    assert isinstance(found, Unreadable)
    assert f"Did you mean {meant} mm?" in found.remedy


@given(st.floats(-1e6, 1e6).map(lambda value: round(value, 4)))
def test_what_is_written_into_a_field_is_read_back(value):
    assert number_text.read(number_text.shown(value), unit="mm") == value


@given(st.text(max_size=12))
def test_any_text_is_a_number_or_refused(typed):
    found = number_text.read(typed, unit="mm")

    assert isinstance(found, float | Unreadable)


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("1,500", 1500.0),
        ("1.5 m", 1500.0),
        ("2500", 2500.0),
        ("22,5", 22.5),
        ("one", None),
        ("", None),
    ],
)
def test_a_side_of_a_plan_is_as_long_as_it_is_meant(typed, meant):
    assert number_text.length_mm(typed) == meant
