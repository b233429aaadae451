"""One mark, one shape: sets that differ in what is cut share no mark, code or name of a file."""

from itertools import combinations

import pytest

from roofmodel.cutting.nesting.nest import Effort
from roofmodel.drawings.lists import labels_of
from roofmodel.drawings.sets import dxf_set
from roofmodel.refit.method import Method
from roofmodel.workbench.job import reckoning
from roofmodel.workbench.papers import paper_set
from tests import acceptance_jobs


def gathered(code, method=None, **changes):
    drawn = acceptance_jobs.drawn(code, **changes)
    option = drawn.option if method is None else drawn.option_of(method)
    plans = reckoning.cut(drawn, method=option.method, effort=Effort.QUICK)
    return paper_set.gather(drawn, option, plans)


def marks(whole):
    """Every mark of a piece or a length, and every code and name of a file."""
    pieces = {part.mark for plan in whole.plans for part in plan.parts}
    runs = {
        part.mark
        for job in whole.jobs
        for cut in job.lengths
        for bar in cut.plan.bars
        for part in bar.parts
    }
    codes = {one.code for one in labels_of.labels(whole)}
    files = {name for name, _ in dxf_set.files(whole)}
    return pieces | runs | codes | files


@pytest.fixture(scope="module")
def of_methods():
    return {method: gathered("J04", method) for method in Method}


def test_no_two_methods_share_a_mark_a_code_or_a_file(of_methods):
    for one, other in combinations(of_methods.values(), 2):
        assert len(marks(one)) > 50
        assert not marks(one) & marks(other)


def test_the_identity_begins_with_the_method_and_ends_every_mark(of_methods):
    for method, letter in zip(Method, "NBP", strict=True):
        whole = of_methods[method]
        assert whole.heading.set_id[0] == letter
        ends = [part.mark.split("-")[-1] for plan in whole.plans for part in plan.parts]
        assert {(end[0], len(end)) for end in ends} == {(letter, 5)}
        told = {cut.frees for plan in whole.plans for stock in plan.stocks for cut in stock.cuts}
        assert told - {""} <= {part.mark for plan in whole.plans for part in plan.parts}


def test_another_width_makes_another_set_and_the_same_job_the_same():
    survey = acceptance_jobs.JOBS["J01"]["survey"]
    one, again = gathered("J01"), gathered("J01")
    wider = gathered("J01", survey={**survey, "width_mm": survey["width_mm"] + 1.0})

    assert one.heading.set_id == again.heading.set_id
    assert one.heading.set_id != wider.heading.set_id
    assert {c.code for c in labels_of.labels(one)}.isdisjoint(
        c.code for c in labels_of.labels(wider)
    )


def test_a_piece_of_one_mark_has_one_shape_whatever_set_it_is_in():
    # Only the projection grows: boards that stay as they are keep their marks, no other does.
    survey = acceptance_jobs.JOBS["J01"]["survey"]
    longer = gathered("J01", survey={**survey, "projection_mm": survey["projection_mm"] + 40.0})
    before, after = (
        {
            part.mark: (plan.good.code, part.corners, part.bevels_deg)
            for plan in whole.plans
            for part in plan.parts
        }
        for whole in (gathered("J01"), longer)
    )
    both = before.keys() & after.keys()

    assert 0 < len(both) < len(before)
    assert all(before[mark] == after[mark] for mark in both)
    bare = {mark.rsplit("-", 1)[0] for mark in after}
    assert all(mark.rsplit("-", 1)[0] in bare for mark in before.keys() - both)


def test_offcuts_of_two_sets_of_one_job_carry_other_labels(of_methods):
    labels = [
        {kept.label for plan in whole.plans for stock in plan.stocks for kept in stock.kept}
        for whole in of_methods.values()
    ]
    assert all(not one & other for one, other in combinations(labels, 2))
