"""What is cut from lengths, with offcuts of the rack among them."""

from decimal import Decimal

import pytest

from roofmodel.cutting.lengths.problem import RackLength
from roofmodel.quantities import lengths, take_off
from roofmodel.refit.method import Method
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


def test_rafters_come_from_every_length_that_is_sold_mixed_freely():
    """J10, a new roof: nine of 2.63 m; by hand four of 5.4 m hold two each, 3.0 m the ninth."""
    job = acceptance_jobs.drawn("J10")
    cut = lengths.cuts(job.option_of(Method.NEW_ROOF).refit, job.catalogue)["rafters"]

    assert cut.plan.bought == ((54_000, 4), (30_000, 1))
    assert "4 × 5.4 m + 1 × 3 m (no less under the rules)" in cut.words
    line = take_off.take_off(job.option_of(Method.NEW_ROOF).refit, job.catalogue).line(
        "TIM-C24-150"
    )
    # 24.6 m at 19.50 for 4.8 m.
    assert line.packs * line.price.amount == Decimal("99.9375")


def test_no_fewer_is_said_only_of_every_way_to_join_under_the_rules(job):
    """J01: seven battens of 2.90 m, one to a length of 4.8 m; level ones fill what they leave."""
    cut = cuts(job)["battens along the bars"]

    assert (cut.plan.lengths, cut.least) == (7, 7)
    assert "7 × 4.8 m (no fewer under the rules)" in cut.words
    assert "level battens joined on the bars" in cut.words


def test_what_joining_every_batten_would_save_is_said(job):
    """J01: nine rows of 4.00 m on bars at 666.7: 54 bays, seven to a length of 4.8 m, so eight."""
    cut = cuts(job)["rows across the bars"]

    assert cut.plan.lengths == 9
    assert cut.near_miss.startswith("1 length less if battens shorter than the stock are joined")
    assert cuts(job)["rafters"].near_miss == ""
