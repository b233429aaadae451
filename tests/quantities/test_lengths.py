"""What is cut from lengths, with offcuts of the rack among them."""

import pytest

from roofmodel.cutting.lengths.problem import RackLength
from roofmodel.quantities import lengths
from tests import acceptance_jobs

GUTTER, BATTEN = "GUT-112", "TIM-B25"


@pytest.fixture(scope="module")
def job():
    return acceptance_jobs.drawn("J01")


def cuts(job, **rack):
    offered = {code.replace("_", "-"): tuple(found) for code, found in rack.items()}
    return lengths.cuts(job.option.refit, job.catalogue, rack=offered)


def test_an_offcut_long_enough_saves_a_length(job):
    plain = cuts(job)["gutter"]
    (longest,) = (max(part.length for part in plain.plan.parts),)
    found = cuts(job, GUT_112=[RackLength(label="G1", length=longest)])["gutter"]

    assert found.plan.from_rack == ("G1",)
    assert found.plan.lengths < plain.plan.lengths
    assert found.metres < plain.metres


def test_an_offcut_that_saves_nothing_stays_on_the_rack(job):
    found = cuts(job, GUT_112=[RackLength(label="G1", length=3000)])["gutter"]

    assert found.plan.from_rack == ()
    assert found.plan.lengths == cuts(job)["gutter"].plan.lengths


def test_kinds_of_one_material_never_take_the_same_offcut(job):
    rack = [RackLength(label=f"L{n}", length=48_000) for n in range(3)]
    found = lengths.cuts(
        job.option.refit, job.catalogue, rack=dict.fromkeys(lengths.materials(), rack)
    )
    for code in lengths.materials():
        taken = [
            label
            for cut in found.values()
            if cut.plan is not None and cut.plan.material == code
            for label in cut.plan.from_rack
        ]
        assert len(taken) == len(set(taken))
    assert BATTEN in lengths.materials()
