"""The steel square's rafter table against roofs made by plane intersection.

Sources stand beside each row in shared/rafter_table.toml: NAVEDTRA 14044, a US Army engineer
manual and the Cyclopedia of Construction for the printed cells; the full table is arithmetic
rounded to 1/100. A hipped roof 24 wide has a common run of 12, so its lengths are the table's.
Printed cells are held to the rounding of the print, arithmetic ones to half a unit of the last
place.
"""

import math

import pytest

from roofmodel.geometry.joint import jack_side_cut_deg
from roofmodel.shapes.hipped import Hipped
from roofmodel.shapes.polygonal_end import PolygonalEnd
from roofmodel.shapes.roof import LineKind
from tests.worked_examples.published import rows

RUN = 12.0
SCALE = 100.0
"""One inch of the table is 100 mm here, so that lengths lie in the range of real roofs."""


def measured(rise: float) -> dict[str, float]:
    """Return the table's cells for one rise, measured off a roof."""
    pitch = math.degrees(math.atan2(rise, RUN))
    width = 2 * RUN * SCALE
    roof = Hipped(
        width_mm=width,
        projection_mm=1.5 * width,
        left_pitch_deg=pitch,
        front_pitch_deg=pitch,
        right_pitch_deg=pitch,
    ).roof(eaves_height_mm=2000.0)
    hip = roof.lines_of(LineKind.HIP)[0]
    front = roof.facet("F2")
    # A jack is as long as the facet is high at its place along the eaves.
    jack_rise = math.tan(math.radians(front.corner_angles_deg[0]))
    assert hip.joint is not None
    plan = hip.joint.plan_angles_deg[0]
    return {
        "pitch": front.pitch_deg,
        "common": front.slope_length_mm / SCALE,
        "hip": hip.length_mm / SCALE,
        "jack16": 16.0 * jack_rise,
        "jack24": 24.0 * jack_rise,
        "side_jack": 12.0 * math.tan(math.radians(jack_side_cut_deg(pitch, plan))),
        "side_hip": 12.0 * math.cos(math.radians(hip.pitch_deg)),
        "hip_pitch": hip.pitch_deg,
        "backing": hip.joint.backings_deg[0],
    }


@pytest.mark.parametrize("row", rows("rafter_table.toml", "printed"), ids=lambda row: row["id"])
def test_a_roof_has_the_printed_rafter_lengths(row):
    assert measured(row["rise"])[row["what"]] == pytest.approx(row["value"], abs=row["tolerance"])


@pytest.mark.parametrize(
    "row", rows("rafter_table.toml", "row"), ids=lambda r: f"rise {r['rise']:g}"
)
def test_a_roof_has_every_cell_of_the_rafter_table(row):
    found = measured(row["rise"])
    for what, value in row.items():
        if what != "rise":
            places = 0.0051 if what in {"common", "hip", "jack16", "jack24"} else 0.00051
            assert found[what] == pytest.approx(value, abs=places), what


def test_the_run_of_a_hip_is_16_97_for_12_of_common_run():
    """G-03: NAVEDTRA 14044, unit run of a hip with equal pitches."""
    roof = Hipped(
        width_mm=2400.0,
        projection_mm=3000.0,
        left_pitch_deg=30,
        front_pitch_deg=30,
        right_pitch_deg=30,
    ).roof(eaves_height_mm=2000.0)
    assert roof.lines_of(LineKind.HIP)[0].plan_length_mm / 100 == pytest.approx(16.97, abs=0.005)


def test_a_hip_over_15_ft_of_run_rising_10_ft_is_23_45_ft_long():
    """G-04: NAVEDTRA 14044, hip run 21.21 ft, rise 10 ft, line length 23.45 ft."""
    pitch = math.degrees(math.atan2(10, 15))
    roof = Hipped(
        width_mm=3000.0,
        projection_mm=4000.0,
        left_pitch_deg=pitch,
        front_pitch_deg=pitch,
        right_pitch_deg=pitch,
    ).roof(eaves_height_mm=2000.0)
    hip = roof.lines_of(LineKind.HIP)[0]
    assert hip.plan_length_mm / 100 == pytest.approx(21.21, abs=0.005)
    assert hip.length_mm / 100 == pytest.approx(23.45, abs=0.005)


def test_a_rafter_over_8_ft_at_7_in_12_is_9_ft_3_1_8_in_long():
    """G-07: NAVEDTRA 14044, 111 1/8 in to the nearest 1/16 in."""
    assert 8 * measured(7.0)["common"] == pytest.approx(111.125, abs=1 / 16)


def test_the_hip_of_an_octagon_runs_13_and_its_side_5_for_12():
    """G-09, G-10: Cyclopedia of Construction; Griffith, Carpentry: 13 and 5 per 12, rounded.

    A three-facet end is half an octagon: half its side is the tangent, its hip run the radius.
    """
    roof = PolygonalEnd(width_mm=2400.0, projection_mm=2400.0, pitch_deg=30.0, end_facets=3).roof(
        eaves_height_mm=2000.0
    )
    assert roof.lines_of(LineKind.HIP)[0].plan_length_mm / 100 == pytest.approx(12.99, abs=0.005)
    assert roof.facet("F2").outline_mm[1, 0] / 2 / 100 == pytest.approx(4.97, abs=0.005)
