"""Corrections for gaps and fixings, and when they may be left out."""

import pytest

from roofmodel.standards import iso_6946_2017_corrections as corrections
from roofmodel.standards.iso_6946_2017_corrections import GapLevel


def test_gaps_of_the_usual_level_add_the_published_correction():
    """A public program's tests: 2.857 of 3.877 m²K/W, level 1, 0.00543, left out at U 0.258."""
    more = corrections.gaps_w_m2k(GapLevel.THROUGH, 2.857, 3.877)

    assert more == pytest.approx(0.00543, abs=5e-6)
    found = corrections.corrected(0.258, gaps_w_m2k=more, fixings_w_m2k=0.0)
    assert not found.counted
    assert found.u_w_m2k == 0.258


def test_fixings_add_what_each_of_them_loses():
    """A public program's tests: 0.004 W/K, 5 in every m²."""
    more = corrections.fixings_w_m2k(0.004, 5.0)

    assert more == pytest.approx(0.02)
    found = corrections.corrected(0.258, gaps_w_m2k=0.0, fixings_w_m2k=more)
    assert found.counted
    assert found.u_w_m2k == pytest.approx(0.278)


def test_corrections_small_one_by_one_count_when_they_are_not_together():
    found = corrections.corrected(0.2, gaps_w_m2k=0.004, fixings_w_m2k=0.004)

    assert found.u_w_m2k == pytest.approx(0.208)
