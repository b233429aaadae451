"""What is no job file is refused in words before anything is computed; what opens can be saved."""

import json

import numpy as np
import pytest

from roofmodel.foundation.errors import RoofModelError
from roofmodel.storage import door, job_file
from roofmodel.storage.job_file import JobFileFaultError
from tests.storage import mutated

PLAIN = json.loads(mutated.SAMPLES[0].read_text(encoding="utf-8"))


def only(text):
    with pytest.raises(JobFileFaultError) as error:
        job_file.loads(text)
    (finding,) = error.value.findings
    return finding


def changed(**fields):
    return json.dumps({**PLAIN, **fields})


@pytest.mark.parametrize("depth", [30, 150, 5_000, 200_000])
def test_a_file_nested_too_deep_is_refused_and_not_crashed_by(depth):
    nested = "[" * depth + "]" * depth

    finding = only(changed(note=0).replace('"note": 0', f'"note": {nested}'))

    assert "nested in one another" in finding.text
    assert finding.field.startswith(("note.0", "line 1"))


def test_the_line_of_brackets_too_deep_is_named():
    assert only("{\n\n" + '"a": [' + "[" * 300).field == "line 3"


def test_brackets_in_a_text_are_no_nesting():
    assert door.nesting_fault(json.dumps({"note": '"[' * 500})) is None


@pytest.mark.parametrize("digits", [16, 5_000])
def test_a_number_of_too_many_digits_is_refused_by_the_path_of_its_field(digits):
    survey = json.dumps({**PLAIN["survey"], "width_mm": 0}).replace(
        '"width_mm": 0', f'"width_mm": {"9" * digits}'
    )

    finding = only(json.dumps({**PLAIN, "survey": 0}).replace('"survey": 0', f'"survey": {survey}'))

    assert finding.field == "survey.width_mm"
    assert f"{digits} digits" in finding.text


@pytest.mark.parametrize("letter", ["\\ud800", "\\udfff", "A\\udc41"])
def test_a_letter_that_could_never_be_saved_is_refused(letter):
    text = changed(title="TITLE").replace("TITLE", letter)

    assert only(text).field == "title"


def test_a_damaged_field_name_is_refused_too():
    assert "damaged" in only(changed(NAME=1).replace("NAME", "\\ud800")).text


@pytest.mark.parametrize(
    ("field", "value"),
    [("note", "a" * 20_001), ("bars", [{}] * 2_001), ("readings", [[0] * 60] * 1_999)],
)
def test_more_than_any_job_holds_is_refused(field, value):
    assert "at most" in (found := only(changed(**{field: value}))).text or "more than" in found.text


def test_a_file_larger_than_any_job_is_not_even_read(tmp_path):
    path = tmp_path / "large.roofjob.json"
    path.write_bytes(b" " * (door.MOST_BYTES + 1))

    with pytest.raises(JobFileFaultError, match="MB"):
        job_file.read(path)


def unopened_or_saved(text):
    """Open a text and save it; a refusal in words is as good."""
    try:
        job = job_file.loads(text)
    except RoofModelError:
        return False
    again = job_file.dumps(job)
    again.encode("utf-8")
    assert job_file.loads(again) == job
    return True


@pytest.mark.parametrize("count", [400, pytest.param(40_000, marks=pytest.mark.slow)])
def test_what_opens_can_be_saved_and_all_else_is_refused_in_words(count):
    random = np.random.default_rng(24)

    opened = sum(unopened_or_saved(mutated.mutated(random)) for _ in range(count))

    assert 0.1 * count < opened < 0.9 * count
