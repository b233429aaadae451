"""The man-hours of a method on the open job: where boards are cut decides who is charged."""

import pytest

from roofmodel.cutting.nesting.nest import Effort
from roofmodel.pricing import material_cost, rates
from roofmodel.pricing.price import price
from roofmodel.programme.schedule import Crew, schedule
from roofmodel.quantities.labour import Trade
from roofmodel.workbench.offer import bills, work
from tests import acceptance_jobs


def made(**estimate):
    drawn = acceptance_jobs.drawn("J01", estimate=estimate)
    plans, _ = bills.plans_that_can_be(drawn, drawn.option, effort=Effort.QUICK)
    return drawn, plans, work.hours(drawn, drawn.option, plans)


@pytest.fixture(scope="module")
def workshop():
    return made(boards_cut="workshop")


def hours_of(tasks, trade):
    return sum(one.hours for one in tasks if one.task.trade is trade)


def test_boards_cut_in_the_workshop_are_charged_piece_by_piece(workshop):
    """The invented norms: 0.05 h a square piece, 0.09 raked, 0.14 bevelled.

    On J01 the six boards between the bars are bevelled to stand against the house wall.
    """
    _, plans, tasks = workshop
    pieces = sum(plan.pieces for plan in plans.values())

    assert hours_of(tasks, Trade.WORKSHOP) == pytest.approx(0.05 * (pieces - 6) + 0.14 * 6)


def test_the_workshop_costs_its_hours_and_takes_no_day_on_site(workshop):
    drawn, plans, tasks = workshop
    costed = material_cost.cost(bills.priced(drawn, drawn.option, plans).bill)
    found = price(costed, tasks, rates.shipped(), area_m2=drawn.roof.area_m2)
    crew = Crew(installers=2, day_h=8.0, productive_h=7.0, nation="England")
    days = schedule(tasks, crew, area_m2=drawn.roof.area_m2)

    assert Trade.WORKSHOP in {line.trade for line in found.labour}
    assert "workshop" not in {slot.task.id for slot in days.slots}


def test_nobody_in_the_workshop_is_charged_until_that_is_chosen():
    _, _, tasks = made()

    assert hours_of(tasks, Trade.WORKSHOP) == 0.0
    # The worked estimate of J01: 39.84 h.
    assert hours_of(tasks, Trade.INSTALLER) == pytest.approx(39.84, abs=0.005)


def test_boards_cut_on_site_take_the_site_s_hours(workshop):
    _, _, site = made(boards_cut="site")

    assert hours_of(site, Trade.WORKSHOP) == 0.0
    assert hours_of(site, Trade.INSTALLER) > hours_of(workshop[2], Trade.INSTALLER)
