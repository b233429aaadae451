"""What is written about a job follows from the job alone."""

from pathlib import Path

from roofmodel.cli import main

JOB = "sample_roofs/lean-to.roofjob.json"


def written(folder):
    words = ("cut", JOB, "--out", str(folder), "--effort", "quick", "--json")
    assert main.run(words, open_window=lambda path: 0) == 0
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in Path(folder).rglob("*")
        if path.is_file()
    }


def test_the_same_job_is_written_byte_for_byte_alike(tmp_path, capsys):
    first, again = written(tmp_path / "first"), written(tmp_path / "again")

    assert "plan.json" in {Path(name).name for name in first}
    assert {name for name in first if first[name] != again.get(name)} == set()
    assert sorted(first) == sorted(again)
    assert '"seconds"' in capsys.readouterr().out, "the time taken is told by the command"
