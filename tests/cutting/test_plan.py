"""Whole plans of the acceptance jobs: verified, not below the bound, said with their rules."""

from dataclasses import replace

import pytest
from hypothesis import given, settings

from roofmodel.cutting import plan as planning
from roofmodel.cutting.plan import plan
from roofmodel.cutting.verify import faults, faults_on_roof
from roofmodel.foundation.errors import CuttingError
from tests import strategies
from tests.cutting import made

# Lower bounds by area are of the acceptance jobs: ceil(area on the datum surface / sheet).
JOBS = [
    ("J01", "BRD-OSB18", 4, 5),
    ("J01", "BRD-PB12", 5, 5),
    ("J04", "BRD-OSB18", 5, 7),
    ("J04", "BRD-PB12", 5, 7),
    ("J06", "BRD-OSB18", 4, 5),
    ("J06", "INS-PIR75", 4, 5),
    ("J07", "BRD-OSB18", 7, 8),
    ("J07", "BRD-PB12", 7, 8),
]


@pytest.mark.parametrize(("job", "code", "least", "expected"), JOBS)
def test_acceptance_jobs(job, code, least, expected):
    roof, good = made.roof(job), made.good(code)
    found = plan(roof, good, job_code=job)

    assert least <= found.area_bound <= found.bound.sheets <= found.sheets == expected
    assert least == -(-roof.area_m2 // good.sheet_area_m2)
    assert found.proved == (found.sheets == found.bound.sheets)
    assert found.notes == ()
    assert faults(found.problem, found.layout) == []
    assert faults_on_roof(roof.facets, found.problem.parts, gap_mm=good.board_gap_mm) == []


@pytest.mark.parametrize("job", ["J01", "J04", "J07"])
def test_deck_counts_that_cannot_be_beaten_with_these_pieces_are_proved(job):
    assert plan(made.roof(job), made.good(), job_code=job, effort="quick").proved


def test_the_sentence_names_sheets_bound_and_rules():
    found = plan(made.roof("J06"), made.good(), job_code="J06")

    assert found.sentence == (
        "OSB/3 18 mm, square edge: 5 sheets of 2440 × 1220 mm; these 10 pieces need at least 4 "
        "(by area). Rules: whole rows from the eaves, long edge across the bars, joints free (on "
        "noggings or bearers), 3 mm between boards, no piece under 250 mm, joints staggered "
        "400 mm."
    )


def test_figures_agree_with_each_other():
    roof, good = made.roof("J07"), made.good()
    found = plan(roof, good, job_code="J07", effort="quick")

    assert found.material == "BRD-OSB18"
    assert found.sheet_mm == (2440.0, 1220.0)
    assert found.pieces == len(found.layout.placed) == 8
    assert found.net_area_m2 == roof.area_m2
    # Two facets, each with one gap along it and one joint in each of two courses.
    gaps_m2 = 2 * (4.2 * 0.003 + 2.1909 * 0.003)
    assert found.pieces_area_m2 == pytest.approx(roof.area_m2 - gaps_m2, abs=0.001)
    assert found.utilisation == pytest.approx(found.pieces_area_m2 / (8 * 2.9768))


def test_two_plans_of_one_job_are_equal_whatever_time_they_took():
    first, second = (plan(made.roof("J04"), made.good(), job_code="J04") for _ in range(2))

    assert first == second


@settings(max_examples=15, deadline=None)
@given(shape=strategies.shapes)
def test_every_roof_gets_a_verified_plan(shape):
    roof = shape.roof(eaves_height_mm=2100.0)
    for code in ("BRD-OSB18", "INS-PIR75"):
        found = plan(roof, made.good(code), job_code="T", effort="quick")
        assert found.bound.sheets <= found.sheets
        assert 0 < found.utilisation <= 1
        assert found.pieces_area_m2 <= roof.area_m2 + 1e-3 * found.pieces


@settings(max_examples=10, deadline=None)
@given(shape=strategies.shapes)
def test_more_kerf_never_needs_fewer_sheets_than_the_bound(shape):
    roof = shape.roof(eaves_height_mm=2100.0)
    thin = plan(roof, made.good(kerf_mm=2.0), job_code="T", effort="quick")
    thick = plan(roof, made.good(kerf_mm=8.0), job_code="T", effort="quick")

    assert thick.sheets >= thin.bound.sheets


def test_a_plan_with_a_fault_is_never_shown(monkeypatch):
    def careless(problem, *, effort, bound, watch):
        good = real(problem, effort=effort, bound=bound, watch=watch)
        first, *others = good.placed
        return replace(good, placed=(replace(first, x_mm=first.x_mm + 1.0), *others))

    real = planning.nest
    monkeypatch.setattr(planning, "nest", careless)

    with pytest.raises(CuttingError, match="BRD-OSB18: the plan failed its check and is not shown"):
        plan(made.roof("J01"), made.good(), job_code="J01", effort="quick")


def test_notes_come_with_the_plan():
    tight = made.good(minimum_piece_mm=900.0, stagger_mm=1200.0)
    found = plan(made.roof("J06"), tight, job_code="J06", effort="quick")

    assert found.notes
    assert all(note.startswith(("F1, course", "F2, course", "F3, course")) for note in found.notes)
