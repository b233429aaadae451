"""Counts that are more than a sum."""

from roofmodel.quantities.counts import lap_m


def test_laps_are_longer_on_flatter_slopes():
    assert [lap_m(pitch) for pitch in (14.0, 15.0, 34.9, 35.0)] == [0.225, 0.15, 0.15, 0.10]
