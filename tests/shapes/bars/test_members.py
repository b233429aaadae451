"""What was made on a facet that stays the same is taken over; the whole comes out alike."""

import dataclasses

from roofmodel.refit.method import Method
from roofmodel.shapes.bars import members
from roofmodel.shapes.bars.members import Before
from tests import acceptance_jobs


def made():
    drawn = acceptance_jobs.drawn("J06")
    return drawn, drawn.option_of(Method.NEW_ROOF).refit.members


def test_members_made_anew_and_taken_over_are_the_same():
    drawn, found = made()
    before = Before(drawn.roof, found)
    again = members.of_layouts(
        drawn.roof, found.facet_bars, found.fit, job_code="other", before=before
    )
    assert again.bars == found.bars
    assert again.bays == found.bays


def test_a_facet_whose_bars_are_others_is_made_anew():
    drawn, found = made()
    first, *rest = found.facet_bars
    wider = dataclasses.replace(
        first, widths=dataclasses.replace(first.widths, rafter_mm=first.widths.rafter_mm + 3.0)
    )
    before = Before(drawn.roof, found)
    again = members.of_layouts(
        drawn.roof, (wider, *rest), found.fit, job_code=drawn.job.code, before=before
    )
    plain = members.of_layouts(drawn.roof, (wider, *rest), found.fit, job_code=drawn.job.code)
    assert [bay.corners_mm for bay in again.bays] == [bay.corners_mm for bay in plain.bays]
    assert found.on("no such facet") is None
