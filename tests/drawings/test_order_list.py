"""The order lists leave nothing out that has to be delivered."""

from roofmodel.cutting.nest import Effort
from roofmodel.drawings import order_list
from roofmodel.refit.method import Method
from roofmodel.workbench import bills
from tests import acceptance_jobs


def priced(code, method):
    drawn = acceptance_jobs.drawn(code)
    option = drawn.option_of(method)
    plans, _ = bills.plans_that_can_be(drawn, option, effort=Effort.QUICK)
    return bills.priced(drawn, option, plans).costed


def test_everything_with_packs_is_ordered_or_said_not_to_be():
    for method in Method:
        costed = priced("J01", method)
        expected = {
            one.line.code
            for one in costed.lines
            if one.line.packs and one.line.group not in ("preliminaries", "shown apart")
        }
        rows = list(order_list.rows(costed))
        assert {row[1] for row in rows} == expected
        assert all(row[0] != "supplier not entered" for row in rows)


def test_a_group_nobody_entered_is_listed_all_the_same(monkeypatch):
    known = order_list.shipped()
    bare = order_list.Suppliers(not_ordered=known.not_ordered, group={}, category={})
    monkeypatch.setattr(order_list, "shipped", lambda: bare)

    rows = list(order_list.rows(priced("J01", Method.PANEL_SWAP)))
    assert rows
    assert {row[0] for row in rows} == {"supplier not entered"}
