"""A folder takes another's place whole, or that one stays."""

import sys

import pytest

from roofmodel.foundation import disk


def folder(path, word):
    path.mkdir()
    (path / "a").write_text(word)
    return path


@pytest.fixture(params=["in one step", "stepping aside"])
def way(request, monkeypatch):
    if request.param == "stepping aside":
        monkeypatch.setattr(sys, "platform", "elsewhere")


@pytest.mark.usefixtures("way")
def test_a_folder_takes_the_place_of_another_and_nothing_is_left_over(tmp_path):
    target = folder(tmp_path / "papers", "old")

    disk.put_folder(folder(tmp_path / ".new", "new"), target)

    assert (target / "a").read_text() == "new"
    assert list(tmp_path.iterdir()) == [target]


@pytest.mark.usefixtures("way")
def test_a_folder_is_put_where_there_was_none(tmp_path):
    disk.put_folder(folder(tmp_path / ".new", "new"), tmp_path / "papers")

    assert (tmp_path / "papers" / "a").read_text() == "new"


def test_a_folder_that_stood_aside_when_the_machine_stopped_is_put_back(tmp_path):
    folder(tmp_path / ".papers.x7.old", "old")
    (tmp_path / ".papers.x8.old").mkdir()

    disk.restore_folder(tmp_path / "papers")

    assert (tmp_path / "papers" / "a").read_text() == "old"


def test_a_folder_that_is_there_is_not_put_back_over(tmp_path):
    folder(tmp_path / ".papers.x7.old", "old")
    folder(tmp_path / "papers", "new")

    disk.restore_folder(tmp_path / "papers")

    assert (tmp_path / "papers" / "a").read_text() == "new"
