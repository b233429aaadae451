"""What jobs sell for once they are cut together, by hand beside the program."""

from dataclasses import replace
from decimal import Decimal

import pytest

from roofmodel.cutting.nesting.nest import Effort
from roofmodel.pricing import rates
from roofmodel.workbench.job import reckoning
from roofmodel.workbench.papers import jobs_together, together_prices
from tests import acceptance_jobs

J11 = {
    "survey": {
        **acceptance_jobs.JOBS["J10"]["survey"],
        "width_mm": 2400.0,
        "projection_mm": 1710.0,
        "pitch_deg": 20.0,
    },
    "bars": [{"facet": "F1", "width_mm": 60.0, "bays": 4}],
}


@pytest.fixture(scope="module")
def planned():
    job = acceptance_jobs.job("J10", **J11)
    jobs = [reckoning.reckon(replace(job, code=code)) for code in ("A", "B", "C")]
    return jobs_together.together(jobs, effort=Effort.QUICK), jobs


def test_each_job_pays_its_share_of_the_sheets_all_take(planned):
    """J11: three like jobs of 2 boards each take 5 together; a third of one board less for each."""
    found, jobs = planned
    less = Decimal(0)
    for plan in found.plans:
        price = jobs[0].catalogue.material(plan.made.good.code).price.amount
        less += price * (plan.separately - plan.sheets) / 3

    prices = together_prices.of_jobs(found, jobs, rates.shipped())

    assert [one.job_code for one in prices] == ["A", "B", "C"]
    assert less > 0
    for one in prices:
        assert one.incomplete == ""
        assert one.alone.materials - one.together.materials == pytest.approx(
            less, abs=Decimal("0.02")
        )
        more = less * Decimal("1.12") * Decimal("1.18") * Decimal("1.2")
        assert one.alone.total - one.together.total == pytest.approx(more, abs=Decimal("0.06"))


def test_a_job_without_a_price_says_what_is_missing(planned):
    found, jobs = planned
    goods = jobs[0].catalogue
    bare = goods.with_material(replace(goods.material("TIL-LW"), price=None))
    other = reckoning.reckon(jobs[0].job, catalogue=bare)

    (one,) = together_prices.of_jobs(found, [other], rates.shipped())

    assert (one.alone, one.together) == (None, None)
    assert one.incomplete == "incomplete: 1 item (TIL-LW)"
