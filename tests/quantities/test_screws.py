"""Screws by rates, and post by post."""

import pytest

from roofmodel.quantities import screws
from tests import acceptance_jobs


def test_a_fence_has_a_post_more_than_it_has_gaps():
    assert screws.posts([600.0], 300.0) == 3
    assert screws.posts([601.0], 300.0) == 4
    assert screws.posts([600.0, 300.0], 300.0) == 5


def test_screws_can_be_counted_post_by_post():
    by_rate = acceptance_jobs.drawn("J01")
    by_posts = acceptance_jobs.drawn("J01", refit={"counting": "fence posts"})

    def count(job):
        from roofmodel.workbench.offer import bills

        made = bills.priced(job, job.option, {})
        return made.bill.line("SCR-CB").counted

    assert count(by_rate) == pytest.approx(7.5 * 11.595, abs=0.01)
    # Nine rows cross five bars and two starters: 63 crossings, two screws in each.
    assert count(by_posts) == 126
