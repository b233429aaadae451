"""One name for one tape: the same on every sheet that has it, and nothing else under it."""

from itertools import combinations

import pytest

from roofmodel.survey.readings.measure import Measure
from roofmodel.survey.sheets import networks, plan_network
from roofmodel.survey.taped import to_shape
from tests.survey import random_surveys
from tests.survey.sheets.test_nominal import ENTERED

NETWORKS = list(random_surveys.SHAPES.values())
ALIKE = list(combinations([one for one in NETWORKS if len(one.corners) == 4], 2))
"""Sheets with the same corners; beyond them a letter is another point, see `carried`."""


def tied(line):
    """Return what a line reads between which letters, whichever way a side is named."""
    if line.measure in (Measure.PITCH, Measure.BAR_LENGTH, Measure.SQUARE_OFF):
        return line.measure, line.points[0], frozenset(line.points[1:])
    if line.measure in (Measure.PLAN_LENGTH, Measure.SLOPE_LENGTH, Measure.MIDDLE_HEIGHT):
        return line.measure, frozenset(line.points)
    return line.measure, line.points


@pytest.mark.parametrize(("one", "other"), ALIKE, ids=lambda network: network.shape)
def test_two_sheets_never_call_one_tape_by_two_names_nor_two_by_one(one, other):
    names = {tied(line): line.name for line in one.lines if line.measure}
    for line in other.lines:
        known = names.get(tied(line)) if line.measure else None
        assert known in (None, line.name)
        if line.name in names.values():
            assert known == line.name, "the same name, the same points"


@pytest.mark.parametrize("name", ENTERED)
def test_a_shape_of_its_own_sheet_has_just_the_lines_of_the_same_roof_as_a_free_plan(name):
    survey = ENTERED[name]
    shape = to_shape.shape(survey)
    footprint = shape if not hasattr(shape, "footprint") else shape.footprint()
    plan = plan_network.network(footprint, "plan", eaves_height_mm=2100.0)
    own = networks.of_survey(survey)

    lines = {line.name: (line.measure, line.points) for line in plan.lines}
    assert {line.name: (line.measure, line.points) for line in own.lines} == lines
    assert own.facets == plan.facets
    assert own.held == plan.held


def test_no_line_of_a_sheet_shares_its_name_with_another():
    for network in NETWORKS:
        names = [line.name for line in network.lines]
        assert len(set(names)) == len(names)
