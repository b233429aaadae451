"""How firm a roof is: told with the errors its own figures carry, and never with others."""

import math

import pytest

from roofmodel.foundation import resources
from roofmodel.storage import job_file
from roofmodel.survey.verdict import sensitivity
from roofmodel.workbench.facts import fact_figures, facts, firmness_facts
from roofmodel.workbench.job import reckoning
from tests import acceptance_jobs


@pytest.mark.parametrize("name", ["lean-to", "three-facet-end", "notch", "surveyed-lean-to"])
def test_rise_and_area_have_one_error_each(name):
    path = resources.sample_roofs() / f"{name}{job_file.SUFFIX}"
    drawn = reckoning.reckon(job_file.read(path))
    told = firmness_facts.of_roof(drawn, sensitivity.of(drawn.footprint))
    figures = fact_figures.of_facts(drawn, drawn.option, facts.of_roof(drawn.roof))

    assert told["rise_error_mm"] == round(figures["rise_mm"].error, 1)
    assert told["area_error_m2"] == round(figures["area_m2"].error, 4)
    assert f"area ±{figures['area_m2'].error:.3f} m²" in told["text"]


def test_the_errors_of_a_lean_to_are_those_of_its_closed_forms():
    """J01, by hand: rise = projection × tan 15°, area = width × projection / cos 15°."""
    rise_mm, area_m2 = firmness_facts.errors(acceptance_jobs.drawn("J01"))
    slope, turned = math.radians(15.0), math.radians(0.2)
    tan, cos = math.tan(slope), math.cos(slope)

    assert rise_mm == pytest.approx(math.hypot(3.0 * tan, 2_800.0 * turned / cos**2), rel=2e-3)
    by = (0.003 * 2.8 / cos, 0.003 * 4.0 / cos, 4.0 * 2.8 * turned * tan / cos)
    assert area_m2 == pytest.approx(math.hypot(*by), rel=2e-3)
