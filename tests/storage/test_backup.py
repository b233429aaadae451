"""Everything of a user comes back from one file, or nothing is touched."""

import json
import zipfile
from datetime import date
from pathlib import Path

import pytest

from roofmodel.cutting.rack.offcut import RackPiece
from roofmodel.foundation import disk
from roofmodel.foundation.errors import JobFileError
from roofmodel.storage import backup
from roofmodel.storage.rack import Rack

TODAY = date(2026, 11, 30)


def tree(folder):
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file()
    }


@pytest.fixture
def own(tmp_path):
    folder = tmp_path / "data" / "roofmodel"
    (folder / "firm" / "templates").mkdir(parents=True)
    (folder / "firm" / "rates.toml").write_text("gang_hour_pounds = 55\n")
    (folder / "firm" / "templates" / "usual.json").write_text("{}")
    (folder / "catalogue.toml").write_text("# own prices, £\n", encoding="utf-8")
    return folder


@pytest.fixture
def jobs(tmp_path):
    folder = tmp_path / "jobs"
    (folder / "2026").mkdir(parents=True)
    (folder / "2026" / "a.roofjob.json").write_text('{"a": 1}')
    (folder / "b.roofjob.json").write_text('{"b": 1}')
    (folder / "holiday.jpg").write_bytes(b"not ours")
    return folder


def saved(tmp_path, own, jobs=None):
    return backup.save(tmp_path / "safe", own=own, jobs=jobs, today=TODAY)


def test_everything_comes_back_byte_for_byte(tmp_path, own, jobs):
    before = tree(own)
    kept = backup.read(saved(tmp_path, own, jobs))
    new = tmp_path / "new machine" / "roofmodel"

    replaced = backup.restore(kept, own=new, jobs=tmp_path / "my jobs", today=TODAY)

    assert replaced is None
    assert tree(new) == before
    assert tree(tmp_path / "my jobs") == {
        "2026/a.roofjob.json": b'{"a": 1}',
        "b.roofjob.json": b'{"b": 1}',
    }


def test_the_rack_is_taken_whole_and_opens_again(tmp_path, own):
    rack = Rack(own)
    rack.add([RackPiece.of_length_mm("batten", "TIM-B25", 3100.0, since=TODAY)])
    kept = backup.read(saved(tmp_path, own))

    backup.restore(kept, own=tmp_path / "new", jobs=None, today=TODAY)

    assert Rack(tmp_path / "new").entries() == rack.entries() != ()


def test_what_stood_there_is_kept_and_goes_with_what_is_not_in_the_backup(tmp_path, own):
    kept = backup.read(saved(tmp_path, own))
    (own / "catalogue.toml").write_text("# changed since\n")
    (own / "newer.toml").write_text("")
    changed = tree(own)

    before = backup.restore(kept, own=own, jobs=None, today=TODAY)

    assert not (own / "newer.toml").exists()
    assert backup.read(before).own == changed


def test_a_second_backup_of_a_day_replaces_nothing(tmp_path, own):
    first, second = saved(tmp_path, own), saved(tmp_path, own)

    assert first != second
    assert first.read_bytes() == second.read_bytes()


def test_a_job_that_is_replaced_stays_beside_it(tmp_path, own, jobs):
    kept = backup.read(saved(tmp_path, own, jobs))
    (jobs / "b.roofjob.json").write_text('{"b": 2}')

    backup.restore(kept, own=own, jobs=jobs, today=TODAY)

    assert (jobs / "b.roofjob.json").read_text() == '{"b": 1}'
    assert (jobs / "b.roofjob.previous.json").read_text() == '{"b": 2}'
    assert (jobs / "holiday.jpg").exists()


def altered(path, change):
    """Write a backup anew with its files and list changed by a function."""
    with zipfile.ZipFile(path) as packed:
        files = {name: packed.read(name) for name in packed.namelist()}
    told = json.loads(files.pop("list.json"))
    change(told, files)
    other = path.with_name("other.roofbackup.zip")
    with zipfile.ZipFile(other, "w") as packed:
        packed.writestr("list.json", json.dumps(told))
        for name, content in files.items():
            packed.writestr(name, content)
    return other


def _one_byte(told, files):
    files["own/catalogue.toml"] = files["own/catalogue.toml"][:-1]


def _newer(told, files):
    told["version"] += 1


def _more(told, files):
    files["own/more.toml"] = b""


def _less(told, files):
    del files["own/catalogue.toml"]


def _stranger(told, files):
    told["format"] = "something else"


def _renamed(name):
    def change(told, files):
        files[name] = files.pop("own/catalogue.toml")
        told["files"][name] = told["files"].pop("own/catalogue.toml")

    return change


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (_one_byte, "is not as it was saved"),
        (_newer, "newer program"),
        (_more, "does not hold the files it lists"),
        (_less, "does not hold the files it lists"),
        (_stranger, "is no backup"),
        (_renamed("own/../../evil.toml"), "which no backup of ours does"),
        (_renamed("/etc/evil"), "which no backup of ours does"),
        (_renamed("own/c:evil"), "which no backup of ours does"),
        (_renamed("own\\..\\evil"), "which no backup of ours does"),
    ],
)
def test_what_is_no_backup_of_ours_is_refused(tmp_path, own, change, words):
    path = altered(saved(tmp_path, own), change)

    with pytest.raises(JobFileError, match=words):
        backup.read(path)


@pytest.mark.parametrize("content", [b"", b"PK\x03\x04", b"hello"])
def test_a_file_that_is_none(tmp_path, content):
    (tmp_path / "a.zip").write_bytes(content)

    with pytest.raises(JobFileError, match="no backup, or is damaged"):
        backup.read(tmp_path / "a.zip")


def test_a_backup_cut_short_anywhere_is_refused(tmp_path, own):
    path = saved(tmp_path, own)
    whole = path.read_bytes()
    for end in range(0, len(whole), 7):
        path.write_bytes(whole[:end])
        with pytest.raises(JobFileError):
            backup.read(path)


def test_a_file_that_unpacks_to_too_much_is_not_unpacked(tmp_path, own, monkeypatch):
    path = saved(tmp_path, own)
    monkeypatch.setattr(backup, "_MOST_BYTES", 10)
    monkeypatch.setattr(zipfile.ZipFile, "read", lambda *_: pytest.fail("it was unpacked"))

    with pytest.raises(JobFileError, match="more than a backup holds"):
        backup.read(path)


def test_a_disk_that_refuses_leaves_the_folder_as_it_was(tmp_path, own, monkeypatch):
    kept = backup.read(saved(tmp_path, own))
    (own / "catalogue.toml").write_text("# changed since\n")
    before = tree(own)

    def refuse(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(disk, "put_folder", refuse)
    with pytest.raises(JobFileError, match="It is as it was"):
        backup.restore(kept, own=own, jobs=None, today=TODAY)

    assert tree(own) == before
    assert [one.name for one in own.parent.iterdir() if one.is_dir()] == [own.name]


def test_a_folder_of_jobs_that_is_not_there(tmp_path, own):
    with pytest.raises(JobFileError, match="There is no folder"):
        saved(tmp_path, own, Path("nowhere"))

    assert not (tmp_path / "safe").exists()
