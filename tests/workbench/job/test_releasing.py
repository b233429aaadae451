"""Papers are for cutting only while the very revision they show has been released."""

import pytest

from roofmodel.workbench.job import releasing
from tests import acceptance_jobs


def released(revision, shown="A"):
    told = {"revision": revision, "by": "invented surveyor", "on": "2026-11-02"}
    drawn = acceptance_jobs.drawn("J04", revision=shown, released=told)
    return releasing.release(drawn, drawn.option)


def test_the_released_revision_is_for_cutting_and_says_who_released_it():
    found = released("A")

    assert found.reasons == ()
    assert found.allowed
    assert found.approved == "invented surveyor, 2026-11-02"


@pytest.mark.parametrize(("old", "shown"), [("A", "B"), ("B", "A")])
def test_another_revision_than_the_released_one_is_not_for_cutting(old, shown):
    found = released(old, shown=shown)

    assert found.reasons == (f"Revision {old} was released, this is revision {shown}.",)
    assert not found.allowed
    assert found.approved == ""


def test_a_job_nobody_released_is_not_for_cutting():
    drawn = acceptance_jobs.drawn("J04")
    found = releasing.release(drawn, drawn.option)

    assert found.reasons == (
        "Nobody has released revision A: measure the roof a second time, then enter who released "
        "it and when.",
    )
    assert found.approved == ""


def test_a_method_that_is_refused_is_not_for_cutting_with_its_reason():
    drawn = acceptance_jobs.drawn("J02", refit={"method": "build-round"})

    assert drawn.option.refused in releasing.release(drawn, drawn.option).reasons
