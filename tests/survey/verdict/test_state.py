from dataclasses import replace

import numpy as np
import pytest

from roofmodel.survey.fit.closure import Verdict
from roofmodel.survey.sheets import networks
from roofmodel.survey.taped.findings import Severity
from roofmodel.survey.verdict import examination, state
from roofmodel.survey.verdict.state import Output, permission
from tests.survey import random_surveys, roofs
from tests.survey.fit import test_closure


def state_of(readings, network=roofs.LEAN_TO, **answers):
    return examination.examine(network, readings, answers=answers).state


def may(survey_state, output):
    return permission(survey_state, output)


def test_j08_is_open_and_blocked_and_says_what_to_read_again():
    found = state_of(roofs.out_of_square())

    assert found.open
    assert not found.closed
    assert found.blocked
    (reason,) = found.reasons
    assert "out by 99.6 mm" in reason.text
    assert "BD 5076.4 mm (was 5076 with one digit wrong, keyed as 5176?)" in reason.remedy
    assert "Read middle to C" in reason.remedy, "and what would settle it"


def test_j08_with_the_right_diagonal_agrees_and_is_still_twisted():
    found = examination.examine(roofs.LEAN_TO, roofs.out_of_square(BD=5076))

    assert not found.state.open
    assert not found.state.closed, "nothing checks its four heights"
    assert found.suspicions == ()
    assert found.twists[0].rock_mm == pytest.approx(17.5, abs=0.5)


def test_an_open_survey_gives_a_picture_and_a_rough_price_that_says_so():
    found = state_of(roofs.out_of_square())

    assert may(found, Output.PICTURE).allowed
    assert may(found, Output.ROUGH_PRICE).allowed
    assert may(found, Output.ROUGH_PRICE).mark == "unreconciled"


@pytest.mark.parametrize("output", [Output.CUTTING, Output.ORDER_PRICE])
def test_an_open_survey_gives_nothing_that_binds(output):
    found = may(state_of(roofs.out_of_square()), output)

    assert not found.allowed
    assert "second diagonal BD" in found.reason


@pytest.mark.parametrize("output", list(Output))
def test_a_closed_survey_gives_everything_unmarked(output):
    found = may(state_of(roofs.out_of_square(BD=5076)), output)

    assert found.allowed
    assert found.mark == ""


def test_j09_is_open_for_three_reasons_at_once():
    found = state_of(test_closure.contradicting(), test_closure.END)

    assert {reason.title: reason.verdict for reason in found.reasons} == {
        "sum of the plan angles": Verdict.QUERY,
        "width from the facets": Verdict.BLOCKS,
        "pitch BC to P": Verdict.BLOCKS,
    }


def test_a_query_can_be_answered_and_a_block_cannot():
    answers = {
        "sum of the plan angles": "bevel slipped at E, angle taken from the sides",
        "width from the facets": "never mind",
    }

    found = state_of(test_closure.contradicting(), test_closure.END, **answers)

    assert found.answered == (("sum of the plan angles", answers["sum of the plan angles"]),)
    assert "width from the facets" in [reason.title for reason in found.reasons]


def test_a_closure_over_its_limit_by_chance_is_told_and_opens_nothing():
    """The angles alone: 1.6° over a sum good for ±1.0° is no sign of a slip."""
    angles = {"angle_A": 90.4, "angle_B": 90.4, "angle_C": 90.4, "angle_D": 90.4}

    found = state_of(roofs.out_of_square(BD=5076, **angles))

    assert not found.open
    assert any("within the accuracy of the readings" in note for note in found.notes)


def test_reasons_become_findings_of_the_job():
    found = state_of(test_closure.contradicting(), test_closure.END).findings

    assert {f.severity for f in found} == {Severity.STOP, Severity.QUESTION}
    assert all(f.field.startswith("readings.") for f in found)
    titles = [f.field.removeprefix("readings.") for f in found]
    assert not any(f.text.startswith(title) for f, title in zip(found, titles, strict=True))


def test_missing_readings_keep_a_survey_open():
    found = state_of(roofs.readings(roofs.LEAN_TO, AB=4000, height_C=2100))

    assert "missing readings" in [reason.title for reason in found.reasons]


def test_a_slip_no_closure_shows_is_told_by_the_fit():
    """The middle to C belongs to no closure; only the fit of all readings sees it is out."""
    found = state_of(roofs.out_of_square(BD=5076, middle_to_C=3649))

    (reason,) = found.reasons
    assert reason.title == state.FIT
    assert reason.text == (
        "The readings do not fit together: middle to C is 71 mm out where 4 mm is usual."
    )
    assert "middle to C" in reason.remedy


def test_an_assumption_the_building_contradicts_is_to_be_measured():
    """Three sides of a plan far out of square: right angles do not go with them."""
    readings = roofs.readings(roofs.LEAN_TO, AB=4000, BC=2800, CD=4400, DA=3400, height_C=2100,
                              pitch_CD_to_A=15)  # fmt: skip

    (reason,) = state_of(readings).reasons

    assert reason.title == state.FIT
    assert "Measure this instead of assuming it: angle at" in reason.remedy


def test_readings_nothing_checks_are_named():
    few = state_of(roofs.readings(roofs.LEAN_TO, AB=4000, D_off_AB=2800, height_C=2100,
                                  pitch_CD_to_A=15))  # fmt: skip

    assert not few.open
    assert not few.closed
    assert any("No other reading checks AB, D off AB" in note for note in few.notes)
    assert any("assumed to be 90°" in note for note in few.notes)


def test_what_was_assumed_is_not_told_where_the_tape_knows():
    assert not any("assumed to be" in note for note in state_of(roofs.out_of_square(BD=5076)).notes)


def test_every_shape_can_be_examined_without_a_reading():
    for network in (roofs.LEAN_TO, networks.gable(), networks.polygonal_end(4)):
        assert examination.examine(network, ()).state.open


def test_a_walk_by_bevel_angles_is_no_reason_beside_a_diagonal_that_shows_the_slip():
    network = random_surveys.PLANS["L wing"]
    rng = np.random.default_rng(4)
    points = random_surveys.true_points(network, rng)
    good = random_surveys.survey(network, points, rng)
    place = next(i for i, one in enumerate(good) if one.name == "BF")
    wrong = random_surveys.slipped(good, random_surveys.Slip(place, 30.0))

    found = examination.examine(network, wrong).state

    titles = [reason.title for reason in found.reasons]
    assert "second diagonal BF" in titles
    assert [title for title in titles if title.startswith("round the eaves")] == []
    notes = [note for note in found.notes if note.startswith("round the eaves")]
    assert all(note.endswith("within the accuracy of the readings.") for note in notes)


@pytest.mark.parametrize("claimed", [5.0, 40.0, 100.0, 1000.0])
def test_no_standard_error_a_tape_may_claim_excuses_a_closure_far_over_its_limit(claimed):
    readings = [
        replace(one, standard_error=claimed) if one.name == "BD" else one
        for one in roofs.out_of_square()
    ]
    found = state_of(readings)

    assert found.blocked
    assert not may(found, Output.CUTTING).allowed
