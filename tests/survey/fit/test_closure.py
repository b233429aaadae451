import math
from dataclasses import replace

import numpy as np
import pytest

from roofmodel.survey.fit import closure
from roofmodel.survey.fit.closure import Verdict
from roofmodel.survey.sheets import networks, nominal
from roofmodel.survey.taped.survey import PolygonalEndSurvey
from tests.survey import random_surveys, roofs

END = networks.polygonal_end(3)


def contradicting(**changed):
    """Return the polygonal end of J09, with what is entered for the whole roof."""
    angles = dict(zip("BCDEFA", (90, 135, 135, 137, 135, 90), strict=True))
    values = {
        "CD": 1450, "DE": 1450, "EF": 1450, "CF": 3600,
        **{f"angle_{corner}": angle for corner, angle in angles.items()},
        "height_C": 2100, "height_P": 2920, "P_off_BC": 1750, "pitch_BC_to_P": 28.0,
        **changed,
    }  # fmt: skip
    taped = roofs.readings(END, **values)
    entered = PolygonalEndSurvey(
        width_mm=3600, projection_mm=3600, eaves_height_mm=2100, end_facets=3, ridge_height_mm=2920
    )
    return (*taped, *nominal.readings(entered, [r.name for r in taped]))


def only(closures):
    return {c.title: c for c in closures if c.verdict is not Verdict.HOLDS}


def test_the_second_diagonal_of_j08_is_out_by_99_6_and_blocks():
    (found,) = only(closure.table(roofs.LEAN_TO, roofs.out_of_square())).values()

    assert found.title == "second diagonal BD"
    assert found.expected == pytest.approx(5076.4, abs=0.05)
    assert found.misclosure == pytest.approx(99.6, abs=0.05)
    assert found.verdict is Verdict.BLOCKS
    assert found.beyond_chance


def test_every_reading_of_j08_has_the_value_it_would_have_to_be():
    (found,) = only(closure.table(roofs.LEAN_TO, roofs.out_of_square())).values()

    assert {way.line: round(way.would_be) for way in found.explanations} == {
        "BD": 5076, "AC": 4978, "AB": 4321, "BC": 3047, "CD": 4352, "DA": 2978,
    }  # fmt: skip


def test_the_second_run_of_j08_closes_to_0_4():
    found = closure.table(roofs.LEAN_TO, roofs.out_of_square(BD=5076))
    diagonal = next(c for c in found if c.title == "second diagonal BD")

    assert abs(diagonal.misclosure) == pytest.approx(0.4, abs=0.05)
    assert diagonal.verdict is Verdict.HOLDS
    assert diagonal.explanations == ()


def test_diagonals_over_5_m_may_be_out_by_a_fifth_of_a_percent():
    table = closure.table(roofs.LEAN_TO, roofs.out_of_square(BD=5076))

    assert next(c for c in table if "BD" in c.title).limit == pytest.approx(10.152)


def test_j09_has_three_findings_at_once_and_averages_nothing():
    found = only(closure.table(END, contradicting()))
    width, angles, pitch = (
        found[title]
        for title in ("width from the facets", "sum of the plan angles", "pitch BC to P")
    )

    assert len(found) == 3
    assert width.expected == pytest.approx(3500.6, abs=0.05)
    assert width.misclosure == pytest.approx(99.4, abs=0.05)
    assert angles.measured == 722.0
    assert angles.misclosure == pytest.approx(2.0)
    assert pitch.expected == pytest.approx(25.11, abs=0.005)
    assert pitch.misclosure == pytest.approx(2.9, abs=0.02)


def test_the_rise_of_j09_would_have_to_be_930_5():
    pitch = only(closure.table(END, contradicting()))["pitch BC to P"]
    ways = {way.line: way.would_be for way in pitch.explanations}

    assert ways["height P"] - 2100 == pytest.approx(930.5, abs=0.05)
    assert ways["P off BC"] == pytest.approx(1542.2, abs=0.05)


def test_3500_is_offered_where_3600_was_keyed():
    width = only(closure.table(END, contradicting()))["width from the facets"]
    (way,) = [way for way in width.explanations if way.line == "CF"]

    assert "3500 with one digit wrong, keyed as 3600?" in way.slips


def test_j09_put_right_has_no_finding():
    mended = contradicting(CF=3500, angle_E=135, pitch_BC_to_P=25.1)

    assert only(closure.table(END, mended)) == {}


@pytest.mark.parametrize("name", random_surveys.SHAPES)
def test_closures_of_a_true_square_and_level_roof_all_close(name):
    network = random_surveys.SHAPES[name]
    values = {"AB": 3600.0, "height C": 2100.0}
    fronts = [line.name for line in network.lines if line.name[1:] == " off AB" and line.times]
    values |= dict.fromkeys(fronts, 4800.0)
    values |= {line.name: 22.0 for line in network.lines if line.name.startswith("pitch")}
    guess = network.start(values)
    points = np.array([guess[p] for p in network.points])

    found = closure.table(network, random_surveys.survey(network, points, None))

    assert [c.title for c in found if abs(c.misclosure) > 0.01] == []
    assert len(found) > 5


def test_a_line_read_four_times_is_twice_as_sharp_in_its_closure():
    """By hand: the inside is the outside less twice the frame, so errors add as their squares."""
    once = roofs.readings(roofs.LEAN_TO, CD=4000, frame=70, inside_CD=3861)
    outside, frame, inside = (reading.standard_error for reading in once)

    def error_of(taken):
        table = closure.table(roofs.LEAN_TO, taken)
        return next(one for one in table if one.title == "inside of CD").standard_error

    assert error_of(once) == pytest.approx(math.hypot(outside, 2 * frame, inside), rel=1e-6)
    four = (*once, *(replace(once[0], value=value) for value in (3999, 4001, 4000)))
    assert error_of(four) == pytest.approx(math.hypot(outside / 2, 2 * frame, inside), rel=1e-6)
    # A blunt reading among sharp ones makes the mean blunter again.
    blunt = (*once, replace(once[0], standard_error=7 * outside))
    mean = math.hypot(outside, 7 * outside) / 2
    assert error_of(blunt) == pytest.approx(math.hypot(mean, 2 * frame, inside), rel=1e-6)


def test_what_cannot_be_checked_is_listed_with_what_is_missing():
    missing = dict(closure.unchecked(roofs.LEAN_TO, roofs.out_of_square(BD=None)))

    assert missing["second diagonal BD"] == ("BD",)
    assert missing["pitch CD to A"] == ("pitch CD to A",), "DA was taped, D off AB need not be"


def test_inside_and_outside_differ_by_twice_the_frame():
    right = roofs.readings(roofs.LEAN_TO, CD=4000, frame=70, inside_CD=3861)
    wrong = roofs.readings(roofs.LEAN_TO, CD=4000, frame=70, inside_CD=3930)

    assert only(closure.table(roofs.LEAN_TO, right)) == {}
    assert only(closure.table(roofs.LEAN_TO, wrong))["inside of CD"].misclosure == 70.0
