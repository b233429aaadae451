"""Heat in two dimensions against the document's own cases and against closed forms."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from roofmodel.foundation.errors import DimensionError
from roofmodel.standards import iso_10211_2017 as iso_10211
from roofmodel.standards.iso_10211_2017 import Face, Rectangle, Section, Side


def part(left, right, low, high, conductivity):
    return Rectangle(
        left_mm=left, right_mm=right, low_mm=low, high_mm=high, conductivity_w_mk=conductivity
    )


def face(side, resistance, temperature):
    return Face(side=side, resistance_m2k_w=resistance, temperature_c=temperature)


def series_c(x, y):
    """Return the temperature in a 2 × 2 column whose top is at 20 °C and the rest at 0: series."""
    total = 0.0
    for n in range(1, 400, 2):
        k = n * math.pi / 2.0
        fall = math.exp(k * (y - 2.0)) * -math.expm1(-2.0 * k * y) / -math.expm1(-4.0 * k)
        total += 80.0 / (n * math.pi) * math.sin(k * x) * fall
    return total


COLUMN_C = (
    (9.7, 13.4, 14.7, 15.1),
    (5.3, 8.6, 10.3, 10.8),
    (3.2, 5.6, 7.0, 7.5),
    (2.0, 3.6, 4.7, 5.0),
    (1.3, 2.3, 3.0, 3.2),
    (0.7, 1.4, 1.8, 1.9),
    (0.3, 0.6, 0.8, 0.9),
)
"""The document's table for case 1, from memory; the series says the same to its last digit."""


def test_half_a_square_column_has_the_temperatures_of_the_document():
    """Annex case 1: half of a square column, 28 points within 0.1 K."""
    column = Section(
        rectangles=(part(0, 1000, 0, 2000, 1.0),),
        faces=(
            face(Side.HIGH, 0.0, 20.0),
            face(Side.LEFT, 0.0, 0.0),
            face(Side.LOW, 0.0, 0.0),
        ),
    )

    field = iso_10211.solve(column)

    for row, temperatures in enumerate(COLUMN_C):
        for place, temperature in enumerate(temperatures):
            x, y = 0.25 * (place + 1), 1.75 - 0.25 * row
            assert series_c(x, y) == pytest.approx(temperature, abs=0.0501)
            assert field.at(1000.0 * x, 1000.0 * y) == pytest.approx(series_c(x, y), abs=0.1)


ROOF_CASE = Section(
    rectangles=(
        part(0, 500, 1.5, 41.5, 0.029),
        part(0, 500, 41.5, 47.5, 1.15),
        part(0, 15, 36.5, 41.5, 0.12),
        part(0, 15, 35.0, 36.5, 230.0),
        part(0, 1.5, 1.5, 35.0, 230.0),
        part(0, 500, 0.0, 1.5, 230.0),
    ),
    faces=(face(Side.HIGH, 0.06, 0.0), face(Side.LOW, 0.11, 20.0)),
)
"""Annex case 2: a slab over aluminium; sizes in mm and values as a public finite element program
carries them in its own test of this case (the document itself was not read here)."""

ROOF_CASE_C = {
    (0, 47.5): 7.1,
    (500, 47.5): 0.8,
    (0, 41.5): 7.9,
    (15, 41.5): 6.3,
    (500, 41.5): 0.8,
    (0, 36.5): 16.4,
    (15, 36.5): 16.3,
    (0, 0): 16.8,
    (500, 0): 18.3,
}


def test_a_slab_over_aluminium_has_the_temperatures_and_the_flow_of_the_document():
    field = iso_10211.solve(ROOF_CASE)

    for (x, y), temperature in ROOF_CASE_C.items():
        assert field.at(x, y) == pytest.approx(temperature, abs=0.1)
    assert field.flow_w_m(ROOF_CASE.faces[1]) == pytest.approx(9.5, abs=0.1)


def test_what_enters_on_one_side_leaves_on_the_other():
    field = iso_10211.solve(ROOF_CASE)

    outside, room = (field.flow_w_m(one) for one in ROOF_CASE.faces)
    assert outside == pytest.approx(-room, rel=1e-6)


@settings(max_examples=12, deadline=None)
@given(
    layers=st.lists(
        st.tuples(st.floats(2.0, 200.0), st.floats(0.02, 200.0)), min_size=1, max_size=5
    ),
    inside=st.floats(0.05, 0.25),
)
def test_layers_side_to_side_pass_what_their_resistances_say(layers, inside):
    low, parts = 0.0, []
    for thickness, conductivity in layers:
        parts.append(part(0, 300, low, low + thickness, conductivity))
        low += thickness
    room, outside = face(Side.LOW, inside, 20.0), face(Side.HIGH, 0.04, -5.0)

    field = iso_10211.solve(Section(rectangles=tuple(parts), faces=(room, outside)))

    total = inside + 0.04 + sum(t / 1000.0 / c for t, c in layers)
    assert field.flow_w_m(room) == pytest.approx(25.0 * 0.3 / total, rel=1e-6)


@settings(max_examples=12, deadline=None)
@given(wide=st.floats(2.0, 80.0), more=st.floats(1.0, 40.0), metal=st.floats(1.0, 200.0))
def test_more_metal_never_passes_less_heat(wide, more, metal):
    """Rayleigh's law of monotony: a better conductor anywhere never lowers the flow."""

    def flow(width):
        room = face(Side.LOW, 0.10, 20.0)
        parts = (
            part(0, 300, 0, 12.5, 0.25),
            part(0, 300, 12.5, 112.5, 0.022),
            part(0, width, 12.5, 112.5, metal),
        )
        outside = face(Side.HIGH, 0.04, 0.0)
        found = iso_10211.solve(Section(rectangles=parts, faces=(room, outside)))
        return found.flow_w_m(room)

    assert flow(wide + more) >= flow(wide) * (1.0 - 2.0 * iso_10211.FINEST_SHARE)


def test_a_section_with_a_hole_is_refused():
    holed = Section(
        rectangles=(part(0, 100, 0, 50, 1.0), part(0, 50, 50, 100, 1.0)),
        faces=(face(Side.LOW, 0.1, 20.0),),
    )

    with pytest.raises(DimensionError, match="leave a hole"):
        iso_10211.solve(holed)
