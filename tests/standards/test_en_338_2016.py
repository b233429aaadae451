"""Strength classes as published."""

import pytest

from roofmodel.foundation.errors import DimensionError
from roofmodel.standards import en_338_2016 as en_338


def test_a_strength_class_nobody_sells_is_refused():
    with pytest.raises(DimensionError, match=r"C99.*C16 or C24"):
        en_338.strength_class("C99")
