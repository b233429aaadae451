import json
import sys

import pytest

from roofmodel.drawings.sets import folder_swap
from roofmodel.foundation.errors import DrawingError


def fill(target, words):
    with folder_swap.new_folder(target) as folder:
        (folder / "a.txt").write_text(words)
        content = {"made_by": folder_swap.MADE_BY, "files": ["a.txt"]}
        (folder / folder_swap.MANIFEST).write_text(json.dumps(content))


def names_in(folder):
    return sorted(entry.name for entry in folder.iterdir())


def test_a_new_folder_appears_whole_with_all_its_parents(tmp_path):
    fill(tmp_path / "jobs" / "J04", "first")

    assert names_in(tmp_path / "jobs") == ["J04"]
    assert (tmp_path / "jobs" / "J04" / "a.txt").read_text() == "first"


def test_an_earlier_set_is_replaced_and_leaves_nothing_behind(tmp_path):
    fill(tmp_path / "J04", "first")
    fill(tmp_path / "J04", "second")

    assert names_in(tmp_path) == ["J04"]
    assert (tmp_path / "J04" / "a.txt").read_text() == "second"


def test_an_empty_folder_is_filled(tmp_path):
    (tmp_path / "J04").mkdir()
    fill(tmp_path / "J04", "first")

    assert names_in(tmp_path / "J04") == ["a.txt", "plan.json"]


def test_a_failed_run_leaves_the_earlier_set_and_nothing_else(tmp_path):
    fill(tmp_path / "J04", "first")

    def fail():
        with folder_swap.new_folder(tmp_path / "J04") as folder:
            (folder / "a.txt").write_text("half")
            raise DrawingError("the saw is blunt")

    with pytest.raises(DrawingError, match="blunt"):
        fail()
    assert names_in(tmp_path) == ["J04"]
    assert (tmp_path / "J04" / "a.txt").read_text() == "first"


def test_a_full_disk_is_told_in_plain_words(tmp_path):
    def fail():
        with folder_swap.new_folder(tmp_path / "J04"):
            raise OSError(28, "No space left on device")

    with pytest.raises(DrawingError, match=r"J04: No space left on device\. What was there"):
        fail()
    assert names_in(tmp_path) == []


@pytest.mark.parametrize("manifest", [None, "{}", "[1]", "no json", '{"made_by": "somebody"}'])
def test_a_folder_of_somebody_else_is_never_replaced(tmp_path, manifest):
    (tmp_path / "a.txt").write_text("mine")
    if manifest is not None:
        (tmp_path / "plan.json").write_text(manifest)

    with pytest.raises(DrawingError, match=r"a\.txt, which is not one of the cutting papers"):
        fill(tmp_path, "theirs")
    assert (tmp_path / "a.txt").read_text() == "mine"


def test_a_note_added_to_a_set_is_not_thrown_away_with_it(tmp_path):
    fill(tmp_path / "J04", "first")
    (tmp_path / "J04" / "note.txt").write_text("mind the boiler flue")

    with pytest.raises(DrawingError, match=r"note\.txt"):
        fill(tmp_path / "J04", "second")
    assert (tmp_path / "J04" / "a.txt").read_text() == "first"


def test_a_file_in_the_place_of_the_folder_is_refused(tmp_path):
    (tmp_path / "J04").write_text("a file")

    with pytest.raises(DrawingError, match="is a file"):
        fill(tmp_path / "J04", "first")


def test_if_the_last_rename_fails_the_earlier_set_is_put_back(tmp_path, monkeypatch):
    fill(tmp_path / "J04", "first")
    rename = type(tmp_path).rename

    def refuse_new(self, to):
        if self.suffix == ".part":
            raise OSError(13, "Permission denied")
        return rename(self, to)

    monkeypatch.setattr(sys, "platform", "elsewhere")  # where names cannot be exchanged
    monkeypatch.setattr(type(tmp_path), "rename", refuse_new)
    with pytest.raises(DrawingError, match="Permission denied"):
        fill(tmp_path / "J04", "second")
    assert names_in(tmp_path) == ["J04"]
    assert (tmp_path / "J04" / "a.txt").read_text() == "first"
