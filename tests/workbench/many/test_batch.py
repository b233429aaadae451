"""A folder of jobs planned anew: a bad one stops no other, and workers change nothing."""

import json
import os
import signal
import subprocess
import sys
import time
from contextlib import suppress
from pathlib import Path

import psutil
import pytest

from roofmodel.buildups import catalogue
from roofmodel.cutting.nesting.nest import Effort
from roofmodel.foundation.errors import JobFileError
from roofmodel.refit.method import Method
from roofmodel.storage import job_file
from roofmodel.workbench.firm import firm
from roofmodel.workbench.job import reckoning
from roofmodel.workbench.many import batch, batch_cluster, batch_pool
from roofmodel.workbench.many.batch_pool import BatchError
from roofmodel.workbench.offer import bills
from tests import acceptance_jobs
from tests.workbench import batch_work

CHECKOUT = Path(__file__).parents[3]


def write(path, code, **changes):
    fields = {"schema_version": 2, "code": code, **acceptance_jobs.JOBS["J10"], **changes}
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(json.dumps(fields), encoding="utf-8")


@pytest.fixture
def folder(tmp_path):
    """Good jobs, one of them in a folder further down, and one of each bad kind."""
    there = tmp_path / "jobs"
    write(there / "a.roofjob.json", "A1")
    write(there / "older" / "b.roofjob.json", "B1", refit={"method": "panel-swap"})
    write(there / "no-roof.roofjob.json", "N1", survey={"shape": "lean-to", "width_mm": -5.0})
    write(there / "refused.roofjob.json", "R1", bars=[], refit={"method": "panel-swap"})
    (there / "letter.roofjob.json").write_text("Dear sir,", encoding="utf-8")
    (there / "picture.roofjob.json").write_bytes(b"\x89PNG\xff\xfe\x00")
    (there / "a.roofjob.previous.json").write_text("{}", encoding="utf-8")
    return there


def outcomes(folder, *, workers=None, method=None, work=batch.done):
    """Return what becomes of every job by its file's name, and the order they came in."""
    tasks, unread = batch.tasks(
        folder,
        batch.job_files(folder),
        method=method,
        effort=Effort.QUICK,
        catalogue=catalogue.shipped(),
        firm=firm.load(None),
    )
    told = []
    if workers is None:
        found = [work(task) for task in tasks]
    else:
        found = batch_pool.run(tasks, workers=workers, tell=told.append, work=work)
        assert sorted(one.name for one in told) == sorted(one.name for one in found)
    return {one.name: one for one in (*found, *unread)}


def test_every_job_file_is_found_but_no_version_from_before_a_save(folder):
    names = [path.relative_to(folder).as_posix() for path in batch.job_files(folder)]
    assert names == sorted(names)
    assert len(names) == 6
    assert "older/b.roofjob.json" in names


def test_a_folder_without_jobs_is_refused(tmp_path):
    with pytest.raises(JobFileError, match="There is no job file"):
        batch.job_files(tmp_path)
    with pytest.raises(JobFileError, match="no folder"):
        batch.job_files(tmp_path / "nowhere")


def test_a_bad_job_is_reported_with_its_reason_and_stops_no_other(folder):
    found = outcomes(folder)
    assert [name for name, one in found.items() if one.done] == [
        "a.roofjob.json",
        "older/b.roofjob.json",
    ]
    assert "damaged at line 1" in found["letter.roofjob.json"].reason
    assert "not a text file" in found["picture.roofjob.json"].reason
    assert "width_mm" in found["no-roof.roofjob.json"].reason or (
        "missing" in found["no-roof.roofjob.json"].reason
    )
    assert "Panel swap cannot be used on this roof" in found["refused.roofjob.json"].reason


def test_figures_are_those_of_the_job_opened_by_itself(folder):
    found = outcomes(folder)["a.roofjob.json"]
    drawn = reckoning.reckon(job_file.read(folder / "a.roofjob.json"))
    plans = reckoning.cut(drawn, effort=Effort.QUICK)
    total = bills.priced(drawn, drawn.option, plans).costed.total()
    assert (found.code, found.revision, found.method) == ("A1", "A", drawn.option.method.value)
    assert [one.sheets for one in found.sheets] == [plan.sheets for plan in plans.values()]
    assert found.total_sheets == sum(plan.sheets for plan in plans.values())
    assert found.materials_and_preliminaries_gbp == (None if total is None else str(total))
    assert found.area_m2 == round(drawn.roof.area_m2, 4)


def test_the_method_asked_for_is_taken_for_every_job(folder):
    (folder / "older" / "b.roofjob.json").unlink()
    found = outcomes(folder, method=Method.NEW_ROOF)
    assert {one.method for one in found.values() if one.done} == {"new-roof"}


def test_one_worker_two_workers_and_none_give_the_same(folder):
    alone = outcomes(folder)
    assert outcomes(folder, workers=1) == alone == outcomes(folder, workers=2)


def test_a_fault_of_our_own_in_one_job_is_reported(monkeypatch, folder):
    monkeypatch.setattr(bills, "priced", lambda *_: 1 / 0)
    found = outcomes(folder)["a.roofjob.json"]
    assert "a program error: ZeroDivisionError" in found.reason


def test_a_job_that_ends_its_process_is_named_and_the_others_are_done(folder):
    for name in ("letter", "picture", "no-roof", "refused"):
        (folder / f"{name}.roofjob.json").unlink()
    alone = outcomes(folder)
    write(folder / "killer.roofjob.json", "K1")
    found = outcomes(folder, workers=1, work=batch_work.done_unless_told_to_die)
    assert "Its process was stopped" in found.pop("killer.roofjob.json").reason
    assert found == alone


def test_breaking_off_ends_every_process_at_once(folder, tmp_path, monkeypatch):
    tasks, _ = batch.tasks(
        folder,
        batch.job_files(folder),
        method=None,
        effort=Effort.QUICK,
        catalogue=catalogue.shipped(),
        firm=firm.load(None),
    )

    class BrokenOffError(Exception):
        pass

    def break_off(outcome):
        raise BrokenOffError

    waited = tmp_path / "waited"
    monkeypatch.setenv(batch_work.WAITED, str(waited))
    with pytest.raises(BrokenOffError):
        # The first job is done at once and breaks the batch off; the second would take a minute.
        batch_pool.run(
            [tasks[0], tasks[1]],
            workers=2,
            tell=break_off,
            work=batch_work.slow_unless_first,
        )
    assert not waited.exists()


@pytest.fixture
def started(folder):
    """A long batch as a process of its own, begun for certain: its worker works, or still loads."""
    for number in range(200):
        write(folder / f"more-{number:02}.roofjob.json", f"M{number}")
    # A program inherits that Ctrl-C is ignored, as it is where a shell runs the tests behind it.
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    program = subprocess.Popen(
        [sys.executable, "-m", "roofmodel", "batch", str(folder), "--workers", "1"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        cwd=CHECKOUT,
        start_new_session=True,
    )
    signal.signal(signal.SIGINT, before)
    children = psutil.Process(program.pid).children
    for _ in range(300):
        if any(child.cpu_times().user > 0.5 for child in children()):
            break
        time.sleep(0.1)
    yield program
    with suppress(ProcessLookupError):
        os.killpg(program.pid, signal.SIGKILL)
    program.communicate()  # or the next test is blamed for its open pipes


@pytest.mark.skipif(os.name == "nt", reason="Ctrl-C is sent as a signal Windows lacks")
def test_ctrl_c_stops_cleanly_and_says_how_many_were_not_done(started):
    os.killpg(started.pid, signal.SIGINT)
    said, told = started.communicate(timeout=30)
    assert started.returncode == 130, told
    assert "jobs were not processed" in told
    assert "Traceback" not in told + said


@pytest.mark.skipif(os.name == "nt", reason="processes are ended by a signal Windows lacks")
def test_the_workers_of_a_batch_that_is_killed_do_not_go_on(started):
    workers = psutil.Process(started.pid).children(recursive=True)
    started.kill()
    _, alive = psutil.wait_procs(workers, timeout=20)

    assert workers
    assert not alive


@pytest.mark.parametrize("workers", [0, -1, 65])
def test_a_number_of_workers_that_makes_no_sense_is_refused(workers):
    with pytest.raises(BatchError, match="Enter 1 to 64"):
        batch_pool.run([], workers=workers, tell=print)


def test_a_cluster_without_the_extra_is_refused_by_its_name(monkeypatch):
    monkeypatch.setitem(sys.modules, "distributed", None)
    with pytest.raises(BatchError, match=r"pip install 'roofmodel\[cluster\]'"):
        batch_cluster.run([], scheduler="tcp://127.0.0.1:1", tell=print)


def test_a_cluster_gives_the_same_as_this_machine(folder):
    distributed = pytest.importorskip("distributed", reason="the extra “cluster” is not installed")
    tasks, _ = batch.tasks(
        folder,
        batch.job_files(folder),
        method=None,
        effort=Effort.QUICK,
        catalogue=catalogue.shipped(),
        firm=firm.load(None),
    )
    told = []
    with distributed.LocalCluster(
        n_workers=1, threads_per_worker=1, processes=False, dashboard_address=None
    ) as cluster:
        found = batch_cluster.run(tasks, scheduler=cluster.scheduler_address, tell=told.append)
    assert {one.name for one in told} == {task.name for task in tasks}
    assert list(found) == [batch.done(task) for task in tasks]


def test_a_scheduler_that_does_not_answer_is_refused_in_words(monkeypatch):
    pytest.importorskip("distributed", reason="the extra “cluster” is not installed")
    monkeypatch.setattr(batch_cluster, "_CONNECT_S", 0.2)
    with pytest.raises(BatchError, match="does not answer"):
        batch_cluster.run([], scheduler="tcp://127.0.0.1:1", tell=print)
