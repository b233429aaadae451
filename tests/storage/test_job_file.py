import json
import multiprocessing
from dataclasses import replace
from pathlib import Path

import jsonschema
import pytest

from roofmodel.buildups.board_choice import BoardChoice
from roofmodel.foundation.errors import JobFileError
from roofmodel.storage import job_file
from roofmodel.storage.job import SCHEMA_VERSION, Job
from roofmodel.storage.job_file import JobChangedError, JobFileFaultError
from roofmodel.survey.taped.survey import HippedSurvey, LeanToSurvey

JOB = Job(
    code="T1",
    title="Lean-to",
    survey=LeanToSurvey(width_mm=4000, projection_mm=2800, eaves_height_mm=2100, pitch_deg=15),
    boards=(BoardChoice(material="BRD-OSB18", kerf_mm=4.0),),
)


def fields(**survey):
    data = json.loads(job_file.dumps(JOB))
    data["survey"].update(survey)
    return data


def findings(data):
    with pytest.raises(JobFileFaultError) as error:
        job_file.loads(data if isinstance(data, str) else json.dumps(data))
    return error.value.findings


def only(data):
    (finding,) = findings(data)
    return finding


def test_a_saved_job_is_read_back_the_same(tmp_path):
    job = Job(
        code="T2",
        revision="B",
        note="Höhe 2 °, ×",
        survey=HippedSurvey(
            width_mm=3000,
            projection_mm=3400,
            eaves_height_mm=2100,
            left_pitch_deg=25,
            front_pitch_deg=35,
            right_pitch_deg=25.5,
        ),
    )
    job_file.write(job, tmp_path / "a.roofjob.json")

    assert job_file.read(tmp_path / "a.roofjob.json") == job


def test_a_file_holds_only_what_was_entered():
    assert set(json.loads(job_file.dumps(JOB))["survey"]) == {
        "shape",
        "width_mm",
        "projection_mm",
        "eaves_height_mm",
        "pitch_deg",
        "left_end",
        "right_end",
    }


def test_every_saved_job_keeps_the_published_schema():
    schema = job_file.schema()

    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(json.loads(job_file.dumps(JOB)), schema)
    for survey in ({"width_mm": -1}, {"width_mm": "4000"}, {"widht_mm": 1}):
        with pytest.raises(jsonschema.ValidationError):
            jsonschema.validate(fields(**survey), schema)


@pytest.mark.parametrize("path", sorted(Path("sample_roofs").glob("*.json")), ids=lambda p: p.stem)
def test_sample_roofs_keep_the_published_schema(path):
    jsonschema.validate(json.loads(path.read_text(encoding="utf-8")), job_file.schema())


@pytest.mark.parametrize(
    ("survey", "field", "words"),
    [
        ({"width_mm": -4000}, "survey.width_mm", "is not possible"),
        ({"projection_mm": 0}, "survey.projection_mm", "more than 0"),
        ({"pitch_deg": 95}, "survey.pitch_deg", "95°"),
        ({"pitch_deg": "fifteen"}, "survey.pitch_deg", "“fifteen” is not a number"),
        ({"pitch_deg": "3,5"}, "survey.pitch_deg", "Did you mean 3.5?"),
        ({"pitch_deg": float("nan")}, "survey.pitch_deg", "“NaN” is not a number"),
        ({"width_mm": True}, "survey.width_mm", "not a number"),
        ({"widht_mm": 4000}, "survey.widht_mm", "Did you mean “width_mm”?"),
        ({"shape": "lean to"}, "survey.shape", "Did you mean lean-to?"),
        ({"shape": 7}, "survey.shape", "not a shape"),
        ({"eaves_height_mm": None}, "survey.eaves_height_mm", "not a number"),
    ],
    ids=lambda value: str(value) if isinstance(value, dict) else None,
)
def test_a_bad_field_is_refused_with_its_path_and_a_remedy(survey, field, words):
    finding = only(fields(**survey))

    assert finding.field == field
    assert words in str(finding)
    assert finding.remedy


def test_a_facet_count_of_two_and_a_half_is_not_a_whole_number():
    data = fields(shape="polygonal-end", end_facets=2.5)
    del data["survey"]["left_end"], data["survey"]["right_end"]
    finding = only(data)

    assert finding.field == "survey.end_facets"
    assert "2.5 is not a whole number" in finding.text


def test_a_missing_field_is_named():
    data = fields()
    del data["survey"]["width_mm"]

    assert only(data).field == "survey.width_mm"
    assert "missing" in only(data).text


def test_faults_in_several_places_are_all_named():
    data = fields(width_mm=-1, pitch_deg=99)
    data["colour"] = "red"
    data["boards"][0]["kerf_mm"] = 400

    assert [finding.field for finding in findings(data)] == [
        "survey.width_mm",
        "survey.pitch_deg",
        "boards.0.kerf_mm",
        "colour",
    ]


@pytest.mark.parametrize(
    ("name", "value"), [("code", "a job"), ("code", "../x"), ("revision", "b2")]
)
def test_codes_that_would_spoil_marks_and_file_names_are_refused(name, value):
    assert only({**fields(), name: value}).field == name


def test_a_field_written_twice_is_refused():
    text = job_file.dumps(JOB).replace('"width_mm": 4000', '"width_mm": 3000, "width_mm": 4000')

    assert only(text).text == "“width_mm” is entered twice."


def test_a_truncated_file_says_what_could_still_be_read():
    text = job_file.dumps(JOB)
    finding = only(text[: text.index('"eaves_height_mm"')])

    assert "cut short" in finding.text
    assert "survey.projection_mm = 2800" in finding.text
    assert ".previous.json" in finding.remedy


@pytest.mark.parametrize("text", ["", "  \n", "[]", "3", "no json", "{"])
def test_a_file_that_is_no_job_is_refused_politely(text):
    assert only(text).field == "file"


@pytest.mark.parametrize("version", [None, 0, "1", True])
def test_a_file_without_a_version_is_refused(version):
    assert only({**fields(), "schema_version": version}).field == "schema_version"


def test_a_newer_file_is_refused_politely():
    finding = only({**fields(), "schema_version": SCHEMA_VERSION + 1})

    assert "newer program" in finding.text
    assert "update" in finding.remedy


def test_saving_keeps_the_version_before(tmp_path):
    path = tmp_path / "a.roofjob.json"
    job_file.write(JOB, path)
    job_file.write(Job(code="T3", survey=JOB.survey), path)

    assert job_file.read(path).code == "T3"
    assert job_file.read(tmp_path / "a.roofjob.previous.json") == JOB
    assert len(list(tmp_path.iterdir())) == 2


def test_a_failed_save_leaves_the_file_as_it_was(tmp_path, monkeypatch):
    path = tmp_path / "a.roofjob.json"
    job_file.write(JOB, path)
    before = path.read_bytes()

    def no_room(self, target):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", no_room)
    with pytest.raises(JobFileError, match=r"Nothing was changed.*another folder"):
        job_file.write(Job(code="T3", survey=JOB.survey), path)

    assert path.read_bytes() == before
    assert [file.name for file in tmp_path.iterdir()] == [path.name]


def test_a_folder_that_cannot_be_written_is_refused_with_a_remedy(tmp_path):
    no_folder = tmp_path / "file"
    no_folder.write_text("not a folder")
    with pytest.raises(JobFileError, match="could not be saved"):
        job_file.write(JOB, no_folder / "a.roofjob.json")


def test_a_file_that_is_not_there_is_named(tmp_path):
    with pytest.raises(JobFileError, match=r"gone\.roofjob\.json"):
        job_file.read(tmp_path / "gone.roofjob.json")


def test_a_file_that_is_no_text_is_refused(tmp_path):
    path = tmp_path / "a.roofjob.json"
    path.write_bytes(b"\xff\xfe\x00\xd8")
    with pytest.raises(JobFileError, match="not a text file"):
        job_file.read(path)


def test_what_somebody_else_saved_is_not_replaced(tmp_path):
    path = tmp_path / "shared.roofjob.json"
    job_file.write(JOB, path)
    theirs, mine = replace(JOB, code="THEIRS"), replace(JOB, code="MINE")
    job_file.write(theirs, path, over=JOB)

    with pytest.raises(JobChangedError, match="another window or program"):
        job_file.write(mine, path, over=JOB)

    assert job_file.read(path) == theirs
    assert sorted(one.name for one in tmp_path.iterdir()) == [
        "shared.roofjob.json",
        "shared.roofjob.previous.json",
    ]


def test_a_file_saved_by_an_older_program_counts_as_unchanged(tmp_path):
    path = tmp_path / "old.roofjob.json"
    path.write_text(json.dumps(fields()))  # other spaces than ours, the same job

    job_file.write(replace(JOB, code="NEXT"), path, over=JOB)

    assert job_file.read(path).code == "NEXT"


def test_a_file_that_is_gone_or_broken(tmp_path):
    path = tmp_path / "a.roofjob.json"
    job_file.write(JOB, path, over=JOB)
    path.write_text("{")

    with pytest.raises(JobChangedError):
        job_file.write(JOB, path, over=JOB)

    assert path.read_text() == "{"


def _add_a_line(path, number):
    """Add to the note of a job what nobody else adds, and try again where others were first."""
    while True:
        known = job_file.read(path)
        try:
            job_file.write(replace(known, note=f"{known.note}{number} "), path, over=known)
        except JobChangedError:
            continue
        return


def test_of_many_programs_that_change_one_job_none_loses_what_another_saved(tmp_path):
    path = tmp_path / "shared.roofjob.json"
    job_file.write(JOB, path)
    spawn = multiprocessing.get_context("fork")
    hands = [spawn.Process(target=_add_a_line, args=(path, number)) for number in range(12)]
    for hand in hands:
        hand.start()
    for hand in hands:
        hand.join()

    assert sorted(job_file.read(path).note.split(), key=int) == [str(n) for n in range(12)]
