"""Programmes of the acceptance jobs, and what every programme keeps."""

from dataclasses import replace
from datetime import date
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from roofmodel.foundation.errors import DimensionError
from roofmodel.programme import calendar_file
from roofmodel.programme.schedule import Crew, schedule
from roofmodel.quantities import drivers, labour
from roofmodel.quantities.labour import Trade
from roofmodel.refit.method import Method
from tests import acceptance_jobs


def tasks(code, method=None):
    job = acceptance_jobs.drawn(code)
    option = job.option if method is None else job.option_of(method)
    found = drivers.of_refit(option.refit, lights=6)
    return labour.hours(option.method, found, glass=False), job.roof


def crew_of(installers, day_h=8.0, productive_h=7.0):
    return Crew(installers=installers, day_h=day_h, productive_h=productive_h, nation="England")


def plan(code, installers, method=None, **hours):
    found, roof = tasks(code, method)
    crew = crew_of(installers, **hours)
    return schedule(found, crew, area_m2=roof.area_m2, facets=len(roof.facets))


def test_j01_takes_two_men_three_days():
    found = plan("J01", 2)

    assert found.gang_days == pytest.approx(2.49, abs=0.01)
    assert found.days == 3
    assert "39.8 man-hours ÷ 2 installers ÷ 8 h = 2.49 days" in found.explained


def test_a_longer_day_of_the_firm_takes_fewer_days_and_is_named():
    found = plan("J01", 2, day_h=10.0, productive_h=9.0)

    # By hand: 39.8 man-hours ÷ 2 men ÷ 10 h.
    assert found.gang_days == pytest.approx(1.99, abs=0.01)
    assert found.days == 2
    assert "÷ 10 h" in found.explained


def test_j04_takes_three_men_three_days_and_two_men_four():
    assert plan("J04", 3).days == 3
    assert plan("J04", 2).days == 4


def test_a_panel_swap_takes_little_more_than_a_day():
    assert plan("J01", 2, Method.PANEL_SWAP).days <= 2


def test_a_roof_larger_than_a_gang_closes_in_a_day_is_opened_in_parts():
    found = plan("J05", 2)

    assert found.parts >= 2
    assert "parts because the team can close" in found.explained


@pytest.mark.parametrize("code", ["J01", "J04", "J07"])
def test_the_gang_neither_waits_for_another_trade_nor_goes_home_early(code):
    """J01 once had two men wait 2.55 h for the electrician on day 1."""
    found = plan(code, 2, Method.BUILD_ROUND)
    gang = [slot for slot in found.slots if slot.task.trade is Trade.INSTALLER]
    idle = [
        (later.day - 1) * 8.0 + later.start_h - (one.day - 1) * 8.0 - one.end_h
        for one, later in pairwise(gang)
    ]

    assert sum(idle) == pytest.approx(found.idle_h)
    assert max(idle) < 1.0
    if found.closes_m2 is None and found.parts > 1:
        assert "so that the gang does not stand idle" in found.explained


@pytest.mark.parametrize("code", ["J01", "J04", "J05", "J07", "J10"])
@pytest.mark.parametrize("installers", [2, 3])
def test_what_is_opened_is_closed_the_same_day(code, installers):
    found = plan(code, installers)

    for part in range(found.parts + 1):
        days = {s.day for s in found.slots if s.task.opens and s.part == part}
        assert len(days) <= 1


@pytest.mark.parametrize("method", list(Method))
def test_nothing_begins_before_what_it_waits_for(method):
    found = plan("J04", 2, method)
    ends, starts = {}, {}
    for slot in found.slots:
        at = (slot.day - 1) * 8.0
        ends[slot.task.id] = max(ends.get(slot.task.id, 0.0), at + slot.end_h)
        starts[slot.task.id] = min(starts.get(slot.task.id, 1e9), at + slot.start_h)
    for slot in found.slots:
        for name in slot.task.after:
            if name in ends and not (slot.task.opens and found.parts > 1):
                assert starts[slot.task.id] >= ends[name] - 1e-6


@given(installers=st.integers(1, 6), code=st.sampled_from(["J01", "J04", "J07"]))
def test_all_hours_are_worked_and_nobody_is_in_two_places(installers, code):
    found_tasks, roof = tasks(code)
    found = schedule(
        found_tasks, crew_of(installers), area_m2=roof.area_m2, facets=len(roof.facets)
    )
    for trade in Trade:
        mine = sorted(
            ((s.day - 1) * 8.0 + s.start_h, (s.day - 1) * 8.0 + s.end_h)
            for s in found.slots
            if s.task.trade is trade
        )
        men = installers if trade is Trade.INSTALLER else 1
        worked = sum(end - start for start, end in mine) * men
        assert worked == pytest.approx(float(labour.total_h(found_tasks, trade)), abs=1e-3)
        if trade is Trade.INSTALLER:
            assert all(a[1] <= b[0] + 1e-6 for a, b in pairwise(mine))
    assert all(0.0 <= s.start_h < s.end_h <= 8.0 + 1e-6 for s in found.slots)


def test_tasks_in_a_ring_are_refused_by_name():
    found, roof = tasks("J01")
    ring = [replace(one, task=replace(one.task, after=("handover",))) for one in found]

    with pytest.raises(DimensionError, match="wait for each other"):
        schedule(ring, crew_of(2), area_m2=roof.area_m2)


def test_a_gang_of_nobody_is_refused():
    with pytest.raises(DimensionError, match="team of 0"):
        crew_of(0)


def test_the_calendar_leaves_out_weekends():
    text = calendar_file.text(
        plan("J01", 2), first_day=date(2026, 11, 27), job_code="J01", title="Invented, demo"
    )

    # 27 November 2026 is a Friday: day 2 is Monday the 30th.
    assert "DTSTART:20261127T080000" in text
    assert "DTSTART:20261130T" in text
    assert "20261128" not in text
    assert "Invented\\, demo" in text
    assert all(len(line.encode()) <= 75 for line in text.split("\r\n"))


def test_a_calendar_keeps_the_programmes_of_one_job_apart_and_names_hold_points():
    found = plan("J01", 2)
    new, round_bars = (
        calendar_file.text(
            found, first_day=date(2026, 11, 27), job_code="J01", title="Dächer, 25°", plan=name
        )
        for name in ("new-roof", "build-round")
    )
    uids = [
        {line for line in text.split("\r\n") if line.startswith("UID")}
        for text in (new, round_bars)
    ]

    assert len(uids[0]) == len(found.slots)
    assert not uids[0] & uids[1]
    assert "Hold point: " in new.replace("\r\n ", "")
    # RFC 5545 (from memory): a line has at most 75 octets, and the stamp is in UTC.
    assert all(len(line.encode()) <= 75 for line in new.split("\r\n"))
    assert all(line.endswith("Z") for line in new.split("\r\n") if line.startswith("DTSTAMP"))
