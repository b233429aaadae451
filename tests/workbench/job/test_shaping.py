"""Dragging a place moves the value a designer would type, by as much as it takes."""

from pathlib import Path

import numpy as np
import pytest

from roofmodel.foundation.errors import DimensionError
from roofmodel.storage import job_file
from roofmodel.survey.taped import to_shape
from roofmodel.workbench.job import shaping
from roofmodel.workbench.job.shaping import Grip

FROM_ABOVE = np.array([[1.0, 0.0, 0.0], [0.0, 1.0, 0.0]])
FROM_THE_FRONT = np.array([[1.0, 0.0, 0.0], [0.0, 0.0, 1.0]])


def job_of(name):
    return job_file.read(Path(f"sample_roofs/{name}.roofjob.json"))


def roof_of(job):
    return to_shape.built(job.survey).roof


def grip_at(job, found):
    """Return the one grip whose place is what a test looks for."""
    (grip,) = [grip for grip, at in shaping.grips(roof_of(job)) if found(at)]
    return grip


def meant(job, grip, drag, view):
    ways = shaping.ways(job, grip)
    return shaping.follow(ways, [view @ way.per_unit for way in ways], np.array(drag))


def middle_of_the_eaves(job):
    roof = roof_of(job)
    number = next(i for i, line in enumerate(roof.lines) if line.kind == "eaves")
    return Grip(None, number)


def test_every_place_is_there_once_and_is_found_again_on_the_roof():
    roof = roof_of(job_of("hipped"))
    known = shaping.grips(roof)
    places = {tuple(np.round(at, 3)) for _, at in known}

    assert len(places) == len(known)
    for grip, at in known:
        assert grip.on(roof) == pytest.approx(at)


def test_the_eaves_of_a_lean_to_pulled_outwards_make_it_deeper():
    job = job_of("lean-to")
    way, change = meant(job, middle_of_the_eaves(job), (0.0, 240.0), FROM_ABOVE)

    assert way.value.path == ("survey", "projection_mm")
    assert change == pytest.approx(240.0, rel=1e-6)


def test_the_head_of_a_lean_to_pulled_upwards_makes_it_steeper():
    job = job_of("lean-to")
    top = roof_of(job).rise_mm
    grip = grip_at(job, lambda at: at[2] == pytest.approx(top) and 1000 < at[0] < 3000)
    way, change = meant(job, grip, (0.0, 50.0), FROM_THE_FRONT)
    shaped, roof = shaping.shaped(job, way, way.value.value + change)

    assert way.value.unit == "°"
    assert shaped.survey.pitch_deg > job.survey.pitch_deg
    # First order in the pitch: the second is worth 0.5 mm here.
    assert roof.rise_mm - top == pytest.approx(50.0, abs=1.0)


@pytest.mark.parametrize("name", ["gable", "hipped", "three-facet-end", "wing", "double-hip"])
def test_every_corner_of_every_shape_moves_with_something_that_was_entered(name):
    job = job_of(name)
    still = [at for grip, at in shaping.grips(roof_of(job)) if not shaping.ways(job, grip)]

    # What lies at the origin, where the house wall begins, is where the roof is measured from.
    assert all(abs(at[1]) < 1.0 and at[2] < 1.0 for at in still)


def test_a_drag_across_everything_a_place_can_do_moves_nothing():
    job = job_of("lean-to")
    along_the_eaves = meant(job, middle_of_the_eaves(job), (0.0, 0.0), FROM_ABOVE)

    assert along_the_eaves is None


def test_readings_stand_for_a_measured_roof():
    job = job_of("surveyed-lean-to")
    grip, _ = shaping.grips(roof_of(job))[0]

    assert job.readings
    assert shaping.ways(job, grip) == ()


def test_what_cannot_be_is_refused_in_words():
    job = job_of("lean-to")
    way, _ = meant(job, middle_of_the_eaves(job), (0.0, 10.0), FROM_ABOVE)

    with pytest.raises(DimensionError, match="mm"):
        shaping.shaped(job, way, -100.0)


@pytest.mark.parametrize(
    ("value", "unit", "finest", "expected"),
    [
        (3217.0, "mm", 3.0, 3215.0),
        (3217.0, "mm", 7.0, 3220.0),
        (3217.0, "mm", 22.0, 3200.0),
        (22.3, "°", 0.2, 22.5),
        (22.3, "°", 0.7, 22.0),
    ],
)
def test_values_snap_to_steps_that_the_pointer_can_hit(value, unit, finest, expected):
    assert shaping.snapped(value, unit, finest=finest) == pytest.approx(expected)
