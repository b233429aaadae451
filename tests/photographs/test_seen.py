"""What a photograph sees of the roof's sizes, and when it asks about the survey."""

from dataclasses import replace

import numpy as np
import pytest

from roofmodel.photographs import corners, seen
from roofmodel.photographs.entry import KnownLength
from roofmodel.survey.taped.findings import Severity
from roofmodel.workbench.job import reckoning
from tests.photographs import taken


def entered_at(drawn, pitch_deg):
    """Return the job with another pitch typed in."""
    survey = replace(drawn.job.survey, left_pitch_deg=pitch_deg, right_pitch_deg=pitch_deg)
    return reckoning.reckon(replace(drawn.job, survey=survey))


@pytest.fixture(scope="module")
def gable():
    """A gable of 30° as it stands, photographed."""
    drawn = taken.roof_of("gable")
    return taken.taken(drawn, turned_deg=20.0, away_mm=9_000.0, focal_px=3_100.0)


def test_a_pitch_entered_wrong_is_a_question_that_names_both(gable):
    rng = np.random.default_rng(1)
    truth = gable.drawn.roof.facets[0].pitch_deg
    wrong = entered_at(gable.drawn, truth - 4.0)
    job = replace(wrong.job, photos=(gable.entry(rng=rng),))
    asked = [one for one in reckoning.reckon(job).findings if one.field == "photos.0"]

    assert [one.severity for one in asked] == [Severity.QUESTION]
    assert "the photograph porch.jpg sees" in asked[0].text


def test_a_survey_that_is_right_is_not_asked_about(gable):
    job = replace(gable.drawn.job, photos=(gable.entry(rng=np.random.default_rng(1)),))
    found = reckoning.reckon(job).findings

    assert [one for one in found if one.field.startswith("photos")] == []


def test_one_known_length_gives_a_first_model(gable):
    truth = gable.drawn.roof.facets[0].pitch_deg
    guessed = entered_at(gable.drawn, truth + 6.0)
    known = corners.of_footprint(guessed.footprint, eaves_height_mm=guessed.roof.eaves_height_mm)
    at = {one.name: np.array(one.at_mm) for one in gable.corners}
    width = float(np.linalg.norm(at["C"] - at["D"]))
    entry = gable.entry(
        rng=np.random.default_rng(4), known=KnownLength(start="C", end="D", length_mm=width)
    )
    sizes = {one.label: one for one in seen.sizes(entry, known, guessed.roof)}
    pitch = next(one for label, one in sizes.items() if label.startswith("Pitch"))

    assert abs(pitch.seen - truth) < 2.0 * 1.96 * pitch.error < 8.0
    assert sizes["Width"].seen == pytest.approx(width, rel=0.01)
    assert "±" in pitch.words


def test_clicks_that_do_not_settle_a_camera_are_a_note(gable):
    job = replace(gable.drawn.job, photos=(gable.entry(names=["A", "B"]),))
    found = [one for one in reckoning.reckon(job).findings if one.field == "photos.0"]

    assert [one.severity for one in found] == [Severity.NOTE]


@pytest.mark.slow
def test_the_stated_interval_of_a_pitch_holds_it_in_93_of_100_photographs():
    """60 photographs, clicks 3 px off; the pitch is said to lie within 95 %."""
    rng = np.random.default_rng(93)
    within = []
    for shape in taken.SHAPES:
        drawn = taken.roof_of(shape)
        for _ in range(10):
            photo = taken.at_random(drawn, rng)
            for one in seen.sizes(photo.entry(rng=rng), photo.corners, drawn.roof):
                if one.label.startswith("Pitch"):
                    within.append(abs(one.seen - one.entered) <= 1.96 * one.error)
                    break

    assert len(within) == 60
    assert np.mean(within) >= 0.93
