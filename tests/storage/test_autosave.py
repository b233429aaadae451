import json

from roofmodel.storage import autosave, job_file
from roofmodel.storage.job import Job
from roofmodel.survey.taped.survey import LeanToSurvey

JOB = Job(
    code="T1",
    survey=LeanToSurvey(width_mm=4000, projection_mm=2800, eaves_height_mm=2100, pitch_deg=15),
)


def test_work_left_behind_is_found_again(tmp_path):
    autosave.write(JOB, of=tmp_path / "a.roofjob.json", into=tmp_path / "kept", token="w1")
    (found,) = autosave.pending(tmp_path / "kept")

    assert found.job == JOB
    assert found.of == tmp_path / "a.roofjob.json"


def test_a_window_keeps_only_its_newest_work(tmp_path):
    autosave.write(JOB, of=None, into=tmp_path, token="w1")
    autosave.write(Job(code="T2", survey=JOB.survey), of=None, into=tmp_path, token="w1")

    assert [found.job.code for found in autosave.pending(tmp_path)] == ["T2"]


def test_work_of_a_running_window_is_not_offered(tmp_path):
    autosave.write(JOB, of=None, into=tmp_path, token="w1")
    (file,) = tmp_path.iterdir()
    content = json.loads(file.read_text())
    file.write_text(json.dumps({**content, "process": 1}))

    assert autosave.pending(tmp_path) == ()


def test_rests_that_cannot_be_read_are_passed_over(tmp_path):
    (tmp_path / "w1.autosave.json").write_text("{")
    (tmp_path / "w2.autosave.json").write_text('{"of": null, "process": 0, "job": "{}"}')

    assert autosave.pending(tmp_path) == ()


def test_discarded_work_is_gone(tmp_path):
    autosave.write(JOB, of=None, into=tmp_path, token="w1")
    (found,) = autosave.pending(tmp_path)
    autosave.discard(found.file)

    assert autosave.pending(tmp_path) == ()


def test_work_left_behind_knows_that_its_file_was_saved_by_somebody_else(tmp_path):
    path = tmp_path / "a.roofjob.json"
    job_file.write(JOB, path)
    mine = Job(code="MINE", survey=JOB.survey)
    autosave.write(mine, of=path, base=JOB, into=tmp_path, token="w1")
    assert not autosave.pending(tmp_path)[0].overtaken

    job_file.write(Job(code="THEIRS", survey=JOB.survey), path)

    (left,) = autosave.pending(tmp_path)
    assert left.overtaken
    assert left.base == JOB
