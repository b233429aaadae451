"""Imposed loads and weights."""

import pytest

from roofmodel.foundation.errors import DimensionError
from roofmodel.standards import en_1991_1_1_2002 as en_1991_1_1


def test_a_pitch_no_roof_has_carries_no_imposed_load():
    with pytest.raises(DimensionError, match="not possible"):
        en_1991_1_1.imposed_uk_kn_m2(float("nan"))


def test_a_kilogram_weighs_9_81_newton():
    assert en_1991_1_1.weight_kn(1000.0) == 9.81
