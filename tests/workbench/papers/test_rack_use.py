"""The rack and the plans of jobs: kept for them, noted when cut, and never promised twice."""

from dataclasses import replace
from datetime import date

import pytest

from roofmodel.cutting.nesting.nest import Effort
from roofmodel.cutting.rack.offcut import RackPiece, rectangle
from roofmodel.storage.rack import Rack
from roofmodel.storage.rack_entry import Holder, RackError, RackState
from roofmodel.workbench.job import reckoning
from roofmodel.workbench.papers import jobs_together, rack_use
from roofmodel.workbench.papers.jobs_together import TogetherError
from tests import acceptance_jobs

DAY = date(2026, 11, 2)
SHORT_LEAN_TO = {
    "survey": {
        **acceptance_jobs.JOBS["J10"]["survey"],
        "width_mm": 2400.0,
        "projection_mm": 1710.0,
        "pitch_deg": 20.0,
    },
    "bars": [{"facet": "F1", "width_mm": 60.0, "bays": 4}],
    "lights": [],
}


def drawn(code):
    found = reckoning.reckon(replace(acceptance_jobs.job("J10", **SHORT_LEAN_TO), code=code))
    assert isinstance(found, reckoning.Drawn), found.findings
    return found


@pytest.fixture
def rack(tmp_path):
    rack = Rack(tmp_path)
    rack.add([RackPiece.of_mm("R1", "BRD-OSB18", rectangle(2440, 610), since=DAY)])
    return rack


@pytest.fixture(scope="module")
def one():
    return drawn("J11A")


def planned(rack, *jobs):
    return jobs_together.together(jobs, rack=rack, effort=Effort.QUICK)


def test_a_job_cut_again_after_a_reservation_gets_the_same_offcuts(rack, one):
    found = planned(rack, one)
    plans = [plan.made for plan in found.plans]
    assert rack_use.reserve(rack, found.holder, plans) == ("R1",)
    again = planned(rack, one)
    assert [plan.made.from_rack for plan in again.plans] == [
        plan.made.from_rack for plan in found.plans
    ]
    other = planned(rack, drawn("J12"))
    assert all(plan.made.from_rack == () for plan in other.plans)


def test_what_someone_else_took_meanwhile_is_refused_and_nothing_is_written(rack, one):
    found = planned(rack, one)
    plans = [plan.made for plan in found.plans]
    rack.reserve(["R1"], Holder(job="J12", revision="A"))
    before = rack.entries()
    with pytest.raises(RackError, match="R1 is reserved by J12"):
        rack_use.reserve(rack, found.holder, plans)
    with pytest.raises(RackError, match="R1 is reserved by J12"):
        rack_use.write_back(rack, found.holder, plans, since=DAY)
    assert rack.entries() == before


def test_after_cutting_all_materials_are_written_back_under_labels_of_the_job(rack, one):
    found = planned(rack, one)
    plans = [plan.made for plan in found.plans]
    kept = rack_use.write_back(rack, found.holder, plans, since=DAY, place="bay 3")
    entries = {entry.piece.label: entry for entry in rack.entries()}
    assert entries.pop("R1").state is RackState.USED
    assert {label: entry.piece for label, entry in entries.items()} == {p.label: p for p in kept}
    assert all(label.startswith("J11A-A-") for label in entries)
    assert len(kept) == sum(len(plan.kept) for plan in plans) > 0


def test_jobs_are_kept_offcuts_for_in_whatever_order_they_are_named(one):
    other = drawn("J12")
    both = rack_use.holder([one.job, other.job])
    assert both == rack_use.holder([other.job, one.job])
    assert (both.job, both.revision) == ("J11A+J12", "A+A")


def test_labels_of_several_jobs_stay_short_and_never_meet_those_on_the_rack(rack, one):
    jobs = [one, drawn("J12"), drawn("J13")]
    found = planned(rack, *jobs)
    taken = RackPiece.of_mm("J11A+2-A-OSB18-S1-1", "BRD-OSB18", rectangle(500, 500), since=DAY)
    rack.add([taken])
    plans = [plan.made for plan in found.plans]
    kept = rack_use.write_back(rack, found.holder, plans, since=DAY)
    assert kept
    assert all(piece.label.startswith("J11A+2-A.2-") for piece in kept)


def test_jobs_that_hinder_each_other_are_named(one):
    with pytest.raises(TogetherError, match="Two jobs have the code J11A"):
        planned(None, one, one)
    with pytest.raises(TogetherError, match="at least one job"):
        planned(None)
