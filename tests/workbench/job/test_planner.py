"""Plans searched for in another process: the same plans, stopped at once, lost without harm."""

import os
import signal
import subprocess
import sys
import threading
from dataclasses import replace

import pytest

from roofmodel.cutting.nesting.nest import Effort
from roofmodel.foundation import plans_folder, resources
from roofmodel.foundation.cancellation import Cancelled
from roofmodel.foundation.errors import CuttingError
from roofmodel.refit.method import Method
from roofmodel.storage import job_file
from roofmodel.workbench.job import reckoning
from roofmodel.workbench.job.planner import Planner
from roofmodel.workbench.job.reckoning import MethodRefusedError


def drawn_of(name):
    return reckoning.reckon(job_file.read(resources.sample_roofs() / f"{name}.roofjob.json"))


@pytest.fixture(scope="module")
def planner():
    # No plan is kept here: what is tested is the search in another process.
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv(plans_folder.VARIABLE, "")
        found = Planner()
        yield found
        found.close()


@pytest.fixture(scope="module")
def lean_to():
    return drawn_of("lean-to")


def test_the_plan_is_the_one_found_in_this_process(planner, lean_to):
    told = []
    first = [lean_to.option.sheets[0].number]

    found = planner.cut(
        lean_to,
        only=first,
        effort=Effort.QUICK,
        progress=lambda good, *counts: told.append((good, counts)),
    )

    assert found == reckoning.cut(lean_to, only=first, effort=Effort.QUICK)
    assert {good.code for good, _ in told} == {plan.material for plan in found.values()}
    assert told[-1][1][0] == list(found.values())[-1].sheets


def test_a_search_that_is_given_up_ends_without_a_plan_and_the_next_one_works(planner, lean_to):
    heard = threading.Event()

    with pytest.raises(Cancelled):
        planner.cut(
            drawn_of("double-hip"),
            effort=Effort.LONG,
            progress=lambda *_: heard.set(),
            cancelled=heard.is_set,
        )

    assert planner.cut(lean_to, only=[], effort=Effort.QUICK) == {}


def test_the_best_so_far_is_a_whole_plan(planner):
    """It is verified as any other, and takes no fewer sheets than the search told of."""
    told = []
    drawn = drawn_of("double-hip")
    number = drawn.option.sheets[0].number

    found = planner.cut(
        drawn,
        only=[number],
        effort=Effort.LONG,
        progress=lambda _, sheets, __: told.append(sheets),
        settled=lambda: bool(told),
    )

    assert 0 < found[number].sheets <= told[0]


def test_what_cannot_be_cut_is_refused_in_the_same_words(planner):
    drawn = drawn_of("three-facet-end")
    flat = reckoning.reckon(replace(drawn.job, survey=replace(drawn.job.survey, pitch_deg=4.0)))
    with pytest.raises(MethodRefusedError) as here:
        reckoning.cut(flat, method=Method.BUILD_ROUND)

    with pytest.raises(MethodRefusedError) as there:
        planner.cut(flat, method=Method.BUILD_ROUND)

    assert str(there.value) == str(here.value)


def test_a_process_that_is_lost_costs_one_plan_and_is_told(lean_to):
    planner = Planner()
    planner.cut(lean_to, only=[], effort=Effort.QUICK)
    lost = planner._all[0]._process

    def kill(*_):
        os.kill(lost.pid, signal.SIGKILL)

    with pytest.raises(CuttingError, match="work the plan out again"):
        planner.cut(drawn_of("double-hip"), effort=Effort.LONG, progress=kill)

    assert planner.cut(lean_to, only=[], effort=Effort.QUICK) == {}
    planner.close()
    assert not lost.is_alive()


@pytest.mark.skipif(not hasattr(os, "getpriority"), reason="priorities as Unix has them")
def test_the_search_waits_for_the_window(planner, lean_to):
    planner.cut(lean_to, only=[], effort=Effort.QUICK)
    process = planner._all[-1]._process

    assert os.getpriority(os.PRIO_PROCESS, process.pid) > os.getpriority(os.PRIO_PROCESS, 0)


def test_a_closed_planner_gives_up_what_is_under_way():
    planner = Planner()
    heard, ended = threading.Event(), []

    def search():
        try:
            planner.cut(drawn_of("double-hip"), effort=Effort.LONG, progress=lambda *_: heard.set())
        except Cancelled:
            ended.append("given up")

    thread = threading.Thread(target=search)
    thread.start()
    assert heard.wait(60.0)
    planner.close()
    thread.join(20.0)

    assert ended == ["given up"]
    with pytest.raises(Cancelled):
        planner.cut(drawn_of("lean-to"))


def test_the_process_that_searches_loads_no_window_and_no_graphics():
    said = subprocess.run(
        [
            sys.executable,
            "-c",
            "import roofmodel.workbench.job.planner, sys; "
            "print([m for m in sys.modules if m.partition('.')[0] in "
            "('PySide6', 'shiboken6', 'vtkmodules', 'pyvista', 'pyvistaqt', 'reportlab')])",
        ],
        capture_output=True,
        text=True,
        check=True,
    )

    assert said.stdout.strip() == "[]"
