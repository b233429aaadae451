"""A fault of the program becomes words, and the work is kept."""

import pytest

from roofmodel.desktop.guard import Guard

pytestmark = pytest.mark.desktop


def test_a_fault_of_the_program_becomes_words_and_the_work_is_kept(tmp_path):
    kept, said = [], []
    guard = Guard(keep=lambda: kept.append(True), say=said.append, into=tmp_path)

    fault = KeyError("inside")

    guard.answer(KeyError, fault, None)

    assert kept == [True]
    assert len(said) == 1
    assert "Traceback" not in said[0]
    assert "KeyError: 'inside'" in (tmp_path / "last-fault.txt").read_text(encoding="utf-8")


def test_a_second_fault_while_the_first_is_told_opens_no_second_message(tmp_path):
    said = []

    def say(text):
        said.append(text)
        guard.answer(ValueError, ValueError("again"), None)

    guard = Guard(keep=lambda: None, say=say, into=tmp_path)
    guard.answer(ValueError, ValueError("first"), None)

    assert len(said) == 1
