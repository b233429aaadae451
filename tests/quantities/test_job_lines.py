"""Lines of one job: what they do to a take-off and its hours, and what is refused."""

from decimal import Decimal

import pytest

from roofmodel.buildups import catalogue
from roofmodel.foundation.errors import DimensionError
from roofmodel.pricing import material_cost
from roofmodel.quantities import job_lines, take_off
from roofmodel.quantities.job_lines import JobEstimate, JobLine, LineKind
from roofmodel.quantities.labour import Trade
from roofmodel.refit.method import Method
from tests import acceptance_jobs

GOODS = catalogue.shipped()


@pytest.fixture(scope="module")
def bill():
    return take_off.take_off(acceptance_jobs.drawn("J01").option.refit, GOODS)


def amounts(made):
    return {one.line.code: one.amount for one in material_cost.cost(made).lines}


def test_an_extra_of_the_catalogue_is_added_at_its_price(bill):
    """Four blinds' worth of removals at 60.00."""
    line = JobLine(kind=LineKind.EXTRA, material="WIN-ROOF", quantity=1.0, text="over the door")
    made = job_lines.applied(bill, [line], GOODS)
    added = made.lines[-1]

    assert (added.code, added.group) == ("WIN-ROOF", "job lines")
    assert added.note == "extra: over the door"
    assert material_cost.cost(made).lines[-1].amount == GOODS.material("WIN-ROOF").price.amount


def test_a_text_with_a_rate_and_hours_is_both_money_and_work(bill):
    """2.5 × 84.50 = 211.25."""
    line = JobLine(
        kind=LineKind.EXTRA,
        text="Move the aerial",
        quantity=2.5,
        rate_gbp=Decimal("84.50"),
        hours=1.5,
        trade=Trade.ELECTRICIAN,
    )
    made = job_lines.applied(bill, [line], GOODS)
    (task,) = job_lines.hours([line], Method.BUILD_ROUND)

    assert amounts(made)["JOB-1"] == Decimal("211.25")
    assert (task.hours, task.task.trade) == (1.5, Trade.ELECTRICIAN)
    assert task.task.name == "Move the aerial"


def test_an_override_keeps_what_was_counted_and_why(bill):
    line = JobLine(kind=LineKind.OVERRIDE, material="TIL-ST", quantity=9.0, reason="broken packs")
    changed = job_lines.applied(bill, [line], GOODS).line("TIL-ST")

    assert changed.packs == 9
    assert changed.note == "overridden: broken packs; was 4.20 each"


def test_a_choice_switches_on_a_line_that_stands_at_zero(bill):
    line = JobLine(kind=LineKind.CHOSEN, material="CAV-TRY", quantity=4.0)

    assert bill.line("CAV-TRY").quantity == 0.0
    assert amounts(job_lines.applied(bill, [line], GOODS))["CAV-TRY"] == Decimal("56.00")


def test_an_alternative_takes_the_other_material_in_the_same_quantity(bill):
    """4.28 m of lead at 17.35 becomes lead-free flashing from rolls of 5 m."""
    line = JobLine(kind=LineKind.ALTERNATIVE, instead_of="FLS-LEAD4", material="FLS-ALT")
    made = job_lines.applied(bill, [line], GOODS)

    assert "FLS-LEAD4" not in {one.code for one in made.lines if one.applies}
    assert made.line("FLS-ALT").quantity == pytest.approx(4.28)
    assert made.line("FLS-ALT").note == "instead of FLS-LEAD4"


def test_an_alternative_in_another_unit_leaves_no_total(bill):
    line = JobLine(kind=LineKind.ALTERNATIVE, instead_of="FLS-LEAD4", material="TIL-ST")
    made = job_lines.applied(bill, [line], GOODS)

    assert any("TIL-ST is counted in each" in one.lacks for one in made.lines)
    assert material_cost.cost(made).total() is None


def test_a_provisional_sum_is_shown_apart(bill):
    line = JobLine(kind=LineKind.PROVISIONAL, text="Drain, if it is found", rate_gbp=Decimal(350))
    priced = material_cost.cost(job_lines.applied(bill, [line], GOODS)).lines[-1]

    assert priced.apart
    assert priced.amount == Decimal("350.00")


def test_a_line_of_another_method_is_left_out(bill):
    line = JobLine(
        kind=LineKind.CHOSEN, material="CAV-TRY", quantity=4.0, methods=(Method.NEW_ROOF,)
    )

    assert job_lines.applied(bill, [line], GOODS) == bill
    assert job_lines.hours([line], Method.BUILD_ROUND) == ()


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"kind": LineKind.OVERRIDE, "material": "X", "quantity": 1.0}, "without a reason"),
        ({"kind": LineKind.CHOSEN, "material": "X"}, "which line, or how much"),
        ({"kind": LineKind.ALTERNATIVE, "material": "X"}, "what replaces what"),
        ({"kind": LineKind.PROVISIONAL, "text": "X"}, "no provisional sum"),
        ({"kind": LineKind.EXTRA, "text": "X", "quantity": 1.0}, "what is added"),
        (
            {"kind": LineKind.EXTRA, "text": "X", "quantity": 1.0, "rate_gbp": Decimal(-5)},
            "rate_gbp",
        ),
    ],
)
def test_what_is_no_line_is_refused(fields, said):
    with pytest.raises(DimensionError) as refused:
        JobLine(**fields)

    assert said in str(refused.value) + str([one.field for one in refused.value.faults])


def test_a_discount_beyond_half_is_refused():
    with pytest.raises(DimensionError):
        JobEstimate(discount_percent=Decimal(60))
