"""Snow against published worked examples; each row of shared/snow_cases.toml names its source.

READ rows were seen printed: Steel Buildings in Europe SSB03 Appendix A (L-04 to L-07) and the
verification tests of a Eurocode program (L-08); tolerances are the rounding of the print. L-01 is
the formula of the UK annex by arithmetic, with the correction of its sign; L-02 and L-03 were read
in public programs only.
"""

import pytest

from roofmodel.standards import en_1991_1_3_2003 as en_1991_1_3
from tests.worked_examples.published import rows


def published(table):
    return rows("snow_cases.toml", table)


@pytest.mark.parametrize(
    ("zone", "altitude_m", "ground"), published("ground")[0]["rows"], ids=lambda x: f"{x:g}"
)
def test_the_ground_carries_the_snow_of_its_zone_and_altitude(zone, altitude_m, ground):
    found = en_1991_1_3.ground_uk_kn_m2(zone, altitude_m)
    assert found == pytest.approx(ground, abs=5e-5)


@pytest.mark.parametrize(("pitch_deg", "coefficient"), published("shape")[0]["rows"])
def test_snow_slides_off_as_the_roof_gets_steeper(pitch_deg, coefficient):
    assert en_1991_1_3.shape_coefficient(pitch_deg) == pytest.approx(coefficient)


@pytest.mark.parametrize(("pitch_deg", "coefficient"), published("drifted")[0]["rows"])
def test_wind_loads_one_side_of_a_ridge_more(pitch_deg, coefficient):
    assert en_1991_1_3.drifted_uk(pitch_deg) == pytest.approx(coefficient, abs=5e-5)


@pytest.mark.parametrize("row", published("even"), ids=lambda row: row["id"])
def test_even_snow_is_the_printed_load(row):
    coefficient = en_1991_1_3.shape_coefficient(row["pitch_deg"])
    found = en_1991_1_3.on_roof_kn_m2(coefficient, row["ground_kn_m2"])
    assert found == pytest.approx(row["roof_kn_m2"], abs=0.005)


@pytest.mark.parametrize("row", published("taller"), ids=lambda row: row["id"])
def test_the_drift_against_a_taller_building_is_the_printed_one(row):
    found = en_1991_1_3.drift_at_taller(
        height_m=row["height_m"],
        lower_m=row["lower_m"],
        upper_m=row["upper_m"],
        ground_kn_m2=row["ground_kn_m2"],
    )
    assert found.sliding == 0.0
    assert found.blown == pytest.approx(row["blown"], abs=0.005)
    assert found.length_m == pytest.approx(row["length_m"], abs=0.05)
    assert found.coefficient * row["ground_kn_m2"] == pytest.approx(row["roof_kn_m2"], abs=0.005)


@pytest.mark.parametrize("row", published("parapet"), ids=lambda row: row["id"])
def test_the_drift_behind_a_parapet_is_the_printed_one(row):
    found = en_1991_1_3.exceptional_at_parapet(
        height_m=row["height_m"],
        length_roof_m=row["length_roof_m"],
        width_m=row["width_m"],
        ground_kn_m2=row["ground_kn_m2"],
    )
    assert found.length_m == pytest.approx(row["length_m"])
    assert found.coefficient == pytest.approx(row["coefficient"], abs=0.005)
    # The print multiplies the coefficient as it printed it, to two figures.
    printed = round(found.coefficient, 2) * row["ground_kn_m2"]
    assert printed == pytest.approx(row["roof_kn_m2"], abs=0.005)


@pytest.mark.parametrize(
    ("height_m", "coefficient", "snow"), published("abutting")[0]["rows"], ids=lambda x: f"{x:g}"
)
def test_the_exceptional_drift_against_a_taller_structure_is_the_printed_one(
    height_m, coefficient, snow
):
    ground = published("abutting")[0]["ground_kn_m2"]
    found = en_1991_1_3.exceptional_at_taller(height_m=height_m, lower_m=3.0, ground_kn_m2=ground)
    assert found.coefficient == pytest.approx(coefficient, abs=0.005)
    assert found.coefficient * ground == pytest.approx(snow, abs=0.005)


@pytest.mark.parametrize("row", published("abutting_limit"), ids=lambda row: row["id"])
def test_an_exceptional_drift_is_no_longer_than_the_roof_it_lies_on(row):
    by_this_roof, by_the_larger = en_1991_1_3.exceptional_readings_at_taller(
        height_m=row["height_m"],
        lower_m=row["lower_m"],
        upper_m=row["upper_m"],
        ground_kn_m2=row["ground_kn_m2"],
    )
    assert by_this_roof.length_m == row["length_m"]
    assert by_this_roof.coefficient == pytest.approx(row["coefficient"], abs=0.005)
    limit = en_1991_1_3.exceptional_width_limit(
        by_this_roof.length_m, row["lower_m"], row["upper_m"]
    )
    assert limit == pytest.approx(row["limit"])
    # Limited by the larger width the same drift would reach 15 m over a roof of 2.
    assert by_the_larger.length_m == 15.0
