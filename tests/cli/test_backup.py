"""Back up, lose everything, put it back: by the commands a user types."""

import json
import shutil

from roofmodel.cli.main import run as run_cli
from roofmodel.foundation import resources


def run(*arguments):
    return run_cli([str(argument) for argument in arguments], open_window=lambda _: 0)


def test_a_firm_comes_back(tmp_path, data_folder, capsys):
    data_folder.mkdir()
    (data_folder / "notes.txt").write_text("own")
    jobs = tmp_path / "jobs"
    jobs.mkdir()
    shutil.copy(resources.sample_roofs() / "gable.roofjob.json", jobs)
    assert run("backup", tmp_path / "safe", "--jobs", jobs) == 0
    (file,) = (tmp_path / "safe").iterdir()
    shutil.rmtree(data_folder)
    shutil.rmtree(jobs)

    assert run("restore", file, "--jobs", jobs) == 0
    assert "Nothing was changed. Add --take" in capsys.readouterr().out
    assert not data_folder.exists()
    assert run("restore", file, "--jobs", jobs, "--take", "--json") == 0

    told = json.loads(capsys.readouterr().out)
    assert told["own"] == ["notes.txt"]
    assert told["jobs"] == ["gable.roofjob.json"]
    assert told["restored"]
    assert (data_folder / "notes.txt").read_text() == "own"
    assert run("check", jobs / "gable.roofjob.json") == 0


def test_what_is_no_backup_is_refused_in_words(tmp_path, capsys):
    (tmp_path / "a.zip").write_text("hello")

    assert run("restore", tmp_path / "a.zip", "--take") != 0

    assert "is no backup, or is damaged" in capsys.readouterr().err
