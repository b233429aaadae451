"""Whatever the disk refuses, and wherever the machine stops: the old is whole, or the new is."""

import json
import os
import sys
from itertools import count

import pytest

from roofmodel.drawings.sets import folder_swap
from roofmodel.foundation import disk
from roofmodel.foundation.errors import RoofModelError
from roofmodel.storage import autosave, job_file
from tests.storage import faulty_disk
from tests.storage.mutated import SAMPLES

OLD, NEW = (job_file.read(path) for path in SAMPLES[:2])
posix = pytest.mark.skipif(os.name != "posix", reason="a process is forked to be stopped")


def save_a_job(folder):
    return lambda: job_file.write(NEW, folder / "a.roofjob.json")


def saved_job_is_whole(folder):
    assert job_file.read(folder / "a.roofjob.json") in (OLD, NEW)


def keep_a_job(folder):
    return lambda: autosave.write(NEW, of=None, into=folder, token="w")


def kept_job_is_whole(folder):
    content = json.loads((folder / "w.autosave.json").read_text())
    assert job_file.loads(content["job"]) in (OLD, NEW)


def fill(folder, word):
    with folder_swap.new_folder(folder / "papers") as beside:
        for name in ("a.dxf", "b.dxf"):
            (beside / name).write_text(word)
        manifest = {"made_by": folder_swap.MADE_BY, "files": ["a.dxf", "b.dxf"]}
        (beside / folder_swap.MANIFEST).write_text(json.dumps(manifest))


def write_papers(folder):
    return lambda: fill(folder, "new")


def papers_are_one_set(folder):
    words = {(folder / "papers" / name).read_text() for name in ("a.dxf", "b.dxf")}
    assert words in ({"old"}, {"new"})
    assert (folder / "papers" / folder_swap.MANIFEST).exists()


def start(folder):
    job_file.write(OLD, folder / "a.roofjob.json")
    autosave.write(OLD, of=None, into=folder, token="w")
    fill(folder, "old")


WRITES = [
    pytest.param(save_a_job, saved_job_is_whole, id="job"),
    pytest.param(keep_a_job, kept_job_is_whole, id="autosave"),
    pytest.param(write_papers, papers_are_one_set, id="papers"),
]


def said_by(work):
    """Return what a refusal says; None where nothing was refused."""
    try:
        work()
    except RoofModelError as error:
        return str(error)
    return None


@pytest.mark.parametrize(("write", "is_whole"), WRITES)
@pytest.mark.parametrize("number", faulty_disk.ERRORS, ids=os.strerror)
def test_a_disk_that_refuses_anything_leaves_old_or_new_whole(tmp_path, write, is_whole, number):
    for n in count(1):
        folder = tmp_path / f"{n}"
        folder.mkdir()
        start(folder)
        work = write(folder)
        with faulty_disk.refusing(n, number) as disk:
            said = said_by(work)
        assert said is None or os.strerror(number) in said
        is_whole(folder)
        if disk.asked < n:
            break
    assert n > 4


def test_a_save_that_only_the_disk_did_not_confirm_says_so(tmp_path, monkeypatch):
    keep = keep_a_job(tmp_path)
    keep()

    def fail(folder):
        raise OSError(5, "Input/output error")

    monkeypatch.setattr(disk, "sync_folder", fail)
    with pytest.raises(RoofModelError, match=r"is saved in .* did not confirm it"):
        keep()
    kept_job_is_whole(tmp_path)


@posix
def test_papers_that_stood_aside_when_the_machine_stopped_come_back(tmp_path, monkeypatch):
    monkeypatch.setattr(sys, "platform", "elsewhere")
    for n in count(1):
        folder = tmp_path / f"{n}"
        folder.mkdir()
        start(folder)
        stopped = faulty_disk.stopped(n, write_papers(folder))
        disk.restore_folder(folder / "papers")
        papers_are_one_set(folder)
        if not stopped:
            break


@posix
@pytest.mark.parametrize(("write", "is_whole"), WRITES)
def test_a_machine_that_stops_anywhere_leaves_old_or_new_whole(tmp_path, write, is_whole):
    for n in count(1):
        folder = tmp_path / f"{n}"
        folder.mkdir()
        start(folder)
        stopped = faulty_disk.stopped(n, write(folder))
        is_whole(folder)
        if not stopped:
            break
    assert n > 4
