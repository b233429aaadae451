"""Sheet layers of a job: every size that is sold is tried and priced, and near misses are told."""

from dataclasses import replace
from decimal import Decimal

import pytest

from roofmodel.buildups import catalogue
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.pricing import material_cost
from roofmodel.quantities import take_off
from roofmodel.refit.method import Method
from roofmodel.workbench.job import reckoning
from tests import acceptance_jobs

QUICK = {"job_code": "J01", "effort": Effort.QUICK}


def layer(method, code, **changes):
    drawn = acceptance_jobs.drawn("J01", **changes)
    option = drawn.option_of(method)
    return drawn, option, next(one for one in option.sheets if one.code == code)


@pytest.fixture(scope="module")
def panels():
    drawn, option, one = layer(Method.PANEL_SWAP, "PNL-ALU32")
    return drawn, option, one.cut(**QUICK)


def test_the_cheaper_panel_stock_is_cut(panels):
    """By hand: 2 × 630.7 + 3 fit 1300, not 1200; 3 × 185 = 555 against 6 × 165 = 990."""
    _, _, made = panels

    assert (made.sheets, made.sheet_mm) == (3, (3000.0, 1300.0))


def test_panels_are_counted_and_paid_for_in_the_size_that_is_cut(panels):
    """Three of 3.0 × 1.3 m are 11.70 m², not three packs of 3.60."""
    drawn, option, made = panels
    plans = {one.number: made for one in option.sheets}
    bill = take_off.take_off(option.refit, drawn.catalogue, plans)
    line = bill.line("PNL-ALU32")
    (priced,) = material_cost.cost(replace(bill, lines=(line,))).lines

    assert line.quantity == pytest.approx(11.70)
    assert line.packs == 3
    assert priced.amount == Decimal("555.00")


def test_the_usual_size_stays_where_the_other_is_dearer():
    goods = catalogue.shipped()
    panel = goods.material("PNL-ALU32")
    sizes = panel.sheet.sizes
    dear = replace(sizes[1], price=replace(sizes[1].price, amount=Decimal(400)))
    goods = goods.with_material(replace(panel, sheet=replace(panel.sheet, sizes=(sizes[0], dear))))
    drawn = reckoning.reckon(acceptance_jobs.job("J01"), catalogue=goods)
    (one,) = drawn.option_of(Method.PANEL_SWAP).sheets

    assert one.cut(**QUICK).sheet_mm == (3000.0, 1200.0)


def test_a_size_the_job_gives_is_cut_and_the_other_is_told_as_a_near_miss():
    boards = [{"material": "PNL-ALU32", "length_mm": 3000.0, "width_mm": 1200.0}]
    _, _, one = layer(Method.PANEL_SWAP, "PNL-ALU32", boards=boards)
    made = one.cut(job_code="J01", effort=Effort.USUAL)

    assert made.sheets == 6
    assert one.cut(**QUICK).near_misses == ()  # a first price does not wait for them
    assert made.near_misses[0] == (
        "3 sheets instead of 6 with 3000 × 1300 mm stock instead of 3000 × 1200 mm, "
        "£435.00 saved before VAT."
    )


def test_the_way_of_laying_a_job_chooses_is_the_one_its_deck_is_laid_by():
    boards = [{"material": "BRD-OSB22", "laying": "LAY-BARS-2"}]
    _, _, one = layer(Method.BUILD_ROUND, "BRD-OSB22", boards=boards)

    assert "every piece over at least 2 bays" in one.cut(**QUICK).claim


def test_a_deck_keeps_the_trades_gap_to_walls_unless_the_job_leaves_another():
    _, _, usual = layer(Method.BUILD_ROUND, "BRD-OSB22")
    boards = [{"material": "BRD-OSB22", "wall_gap_mm": 5.0}]
    _, _, own = layer(Method.BUILD_ROUND, "BRD-OSB22", boards=boards)

    # Measured on its outside face, 22 mm of it lie nearer to the upright wall underneath.
    assert (usual.laying_rules.abutment_gap_mm, usual.laying_rules.reach_mm) == (10.0, (22.0, 0.0))
    assert "5 mm along walls" in own.laying_rules.claim
    # A lining is measured where the wall is nearest.
    _, _, lining = layer(Method.BUILD_ROUND, "BRD-PB12")
    assert lining.laying_rules.reach_mm == (0.0, 12.5)


def test_a_way_of_laying_there_is_not_is_refused_with_those_there_are():
    boards = [{"material": "BRD-OSB22", "laying": "LAY-NOT"}]
    (finding,) = acceptance_jobs.drawn("J01", boards=boards).findings

    assert finding.field == "boards.0.laying"
    assert "LAY-BARS-1" in finding.remedy
