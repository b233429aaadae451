"""A file is replaced whole, after its content has reached the disk, or it stays as it was."""

import os
from pathlib import Path

import pytest

from roofmodel.foundation.errors import JobFileError
from roofmodel.storage import safe_write


@pytest.fixture
def steps(monkeypatch):
    """What was done to the disk, in its order."""
    done = []
    true_sync, true_replace = os.fsync, Path.replace

    def sync(handle):
        done.append("folder" if Path(f"/proc/self/fd/{handle}").resolve().is_dir() else "content")
        true_sync(handle)

    def replace(self, target):
        done.append(f"rename to {Path(target).name}")
        return true_replace(self, target)

    monkeypatch.setattr(os, "fsync", sync)
    monkeypatch.setattr(Path, "replace", replace)
    return done


@pytest.mark.skipif(not Path("/proc/self/fd").exists(), reason="asks /proc what a handle is")
def test_content_reaches_the_disk_before_the_name_and_the_name_after_it(tmp_path, steps):
    """Otherwise a power cut leaves an empty file under the old name."""
    path = tmp_path / "job"
    path.write_text("before")
    safe_write.replace_text(path, "after", keep=tmp_path / "kept")

    one_file = ["content", "rename to kept", "folder"]
    assert steps == ["content", *one_file, "rename to job", "folder"]
    assert (path.read_text(), (tmp_path / "kept").read_text()) == ("after", "before")


def test_a_write_that_fails_leaves_the_old_file_and_nothing_beside_it(tmp_path, monkeypatch):
    path = tmp_path / "job"
    path.write_text("before")

    def fail(self, target):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", fail)
    with pytest.raises(JobFileError, match=r"No space left.*Nothing was changed"):
        safe_write.replace_text(path, "after")

    assert path.read_text() == "before"
    assert list(tmp_path.iterdir()) == [path]


def test_a_folder_that_is_not_there_is_said(tmp_path):
    with pytest.raises(JobFileError, match="Nothing was changed"):
        safe_write.replace_bytes(tmp_path / "no" / "job", b"")


@pytest.mark.skipif(os.name != "posix", reason="modes are POSIX")
def test_a_file_keeps_its_mode_and_a_new_one_gets_the_usual_one(tmp_path):
    path = tmp_path / "job"
    path.write_text("before")
    path.chmod(0o640)
    safe_write.replace_text(path, "after")
    plain = tmp_path / "plain"
    plain.write_text("x")
    safe_write.replace_text(tmp_path / "new", "x")

    assert path.stat().st_mode & 0o777 == 0o640
    assert (tmp_path / "new").stat().st_mode == plain.stat().st_mode
