"""Air layers of ISO 6946, between faces of any brightness."""

import pytest

from roofmodel.foundation.errors import DimensionError
from roofmodel.standards import iso_6946_2017_air as air
from roofmodel.standards.iso_6946_2017 import Flow


def test_an_emissivity_above_one_is_refused():
    with pytest.raises(DimensionError, match="emissivity"):
        air.between_m2k_w(25.0, Flow.UPWARD, (1.2, 0.9))


def test_foil_as_it_ages_gives_the_values_a_convention_prints():
    """BR 443 (2019) 4.7.2 as a public program quotes it."""
    for way, printed in ((Flow.UPWARD, 0.34), (Flow.HORIZONTAL, 0.44)):
        found = air.between_m2k_w(50.0, way, (0.2, air.ORDINARY_EMISSIVITY))
        assert found == pytest.approx(printed, abs=0.005)
