"""Boardings nested on sheets too large, squeezed onto true ones."""

from dataclasses import replace

import pytest

from roofmodel.cutting.laying.from_facets import boardings, parts_of
from roofmodel.cutting.laying.part_of_board import problem_of
from roofmodel.cutting.laying.rule import rules_for
from roofmodel.cutting.nesting import verify
from roofmodel.cutting.nesting.one_nest import glance
from roofmodel.cutting.parts.layout import Layout, Placed
from roofmodel.cutting.search.squeeze import squeezed
from tests.cutting import made


def two_facets(short_mm):
    """Return two facets one row high, as boarded: one jointed 603 mm from its right end."""
    facets = [
        made.FlatFacet("F1", ((0, 0), (3000, 0), (3000, 1220), (0, 1220))),
        made.FlatFacet("F2", ((0, 0), (short_mm, 0), (short_mm, 1220), (0, 1220))),
    ]
    good = made.good()
    found = boardings(facets, good, rules_for(good), job_code="R")
    course = replace(found[0].bare((0.0, 1220.0)), joints=((2398.5,),))
    state = (found[0].row(course, 1),), found[1].fewest(found[1].divisions[0])
    return facets, good, found, state


def laid(problem, apart_mm=3.0):
    """Return the long piece alone on a sheet, the two others side by side on another."""
    long, short, other = problem.parts
    at = [(long, 1, 0.0), (short, 2, 0.0), (other, 2, short.length_tenths / 10 + apart_mm)]
    return Layout(
        placed=tuple(
            Placed(part=p, sheet_no=no, x_mm=x, y_mm=0.0, turned_deg=0, turned_over=False)
            for p, no, x in at
        )
    )


def test_what_is_too_much_on_one_sheet_goes_to_the_neighbour_on_another():
    # By hand: 600 + 3 + 1,860 mm is 23 mm more than a sheet is long. The joint moves on so far and
    # a little; the long piece has 43 mm to spare on its own sheet.
    facets, good, found, state = two_facets(1860.0)
    problem = problem_of(parts_of(state, facets), good)
    assert verify.faults(problem, laid(problem)) != []

    got = squeezed(found, state, problem, laid(problem))

    assert got.state is not None
    assert got.layout is not None
    long, short, other = (part.length_tenths / 10 for part in parts_of(got.state, facets))
    assert short <= 577.0
    assert long <= 2440.0
    assert long + short == pytest.approx(2997.0, abs=0.2)
    assert other == 1860.0
    after = problem_of(parts_of(got.state, facets), good)
    assert verify.faults(after, got.layout) == []
    assert verify.faults_on_roof(facets, after.parts, gap_mm=3.0) == []


def test_what_cannot_go_anywhere_is_told():
    # By hand: the long piece can take 43 mm, so 557 + 3 + 1,900 mm are left for 2,440: 20 mm too
    # much, half of it over either end. The pieces are kept a little further apart than the saw cut.
    facets, good, found, state = two_facets(1900.0)
    problem = problem_of(parts_of(state, facets), good)

    got = squeezed(found, state, problem, laid(problem))

    assert got.state is None
    assert got.too_much_mm == pytest.approx(20.0 / 2, abs=0.2)


def test_a_lay_out_that_fits_stays_as_it_is():
    facets, good, found, state = two_facets(1700.0)
    problem = problem_of(parts_of(state, facets), good)

    got = squeezed(found, state, problem, laid(problem, apart_mm=5.0))

    assert got.state is not None
    assert got.rounds == 0
    assert [p.corners for p in parts_of(got.state, facets)] == [p.corners for p in problem.parts]


@pytest.mark.parametrize("job", ["J01", "J04", "J06", "J07"])
@pytest.mark.parametrize("code", ["BRD-OSB18", "INS-PIR75"])
def test_whatever_is_squeezed_can_be_cut_and_covers_the_roof(job, code):
    # The verifier has seen neither the solver nor the squeezing; areas by shapely.
    facets, good = made.roof(job).facets, made.good(code)
    rules = rules_for(good)
    found = boardings(facets, good, rules, job_code=job)
    state = tuple(way.fewest(way.divisions[0]) for way in found)
    problem = problem_of(parts_of(state, facets), good)
    larger = replace(
        problem,
        sheet_length=round(1.01 * problem.sheet_length),
        sheet_width=round(1.01 * problem.sheet_width),
    )
    layout = glance(larger, 1)
    assert layout is not None

    got = squeezed(found, state, problem, layout)

    if got.state is None or got.layout is None:
        assert got.too_much_mm > 0
        return
    after = problem_of(parts_of(got.state, facets), good)
    assert verify.faults(after, got.layout) == []
    assert verify.faults_on_roof(facets, after.parts, gap_mm=rules.gap_mm) == []
