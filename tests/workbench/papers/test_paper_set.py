import hashlib
import json
import shutil
from dataclasses import dataclass
from pathlib import Path

import pytest

from roofmodel.cutting.nesting.nest import Effort
from roofmodel.drawings.lists import labels_of
from roofmodel.foundation.errors import DrawingError, JobFileError
from roofmodel.pricing import rates
from roofmodel.workbench.job import reckoning, releasing
from roofmodel.workbench.papers import paper_set, revisions
from roofmodel.workbench.papers.revisions import CutRevision
from tests import acceptance_jobs


def gathered(code, **changes):
    job = acceptance_jobs.drawn(code, **changes)
    return paper_set.gather(job, job.option, reckoning.cut(job, effort=Effort.QUICK))


def cut(code, **changes):
    job = acceptance_jobs.drawn(code, **changes)
    return CutRevision(
        rates=rates.shipped(),
        drawn=job,
        option=job.option,
        plans=reckoning.cut(job, effort=Effort.QUICK),
    )


@dataclass
class Written:
    """A set of papers as it was written: its folder, its files, and what was told meanwhile."""

    folder: Path
    files: tuple
    told: list


@pytest.fixture(scope="module")
def j01(tmp_path_factory):
    folder, told = tmp_path_factory.mktemp("papers") / "out", []
    files = paper_set.write(gathered("J01"), folder, progress=lambda *at: told.append(at))
    return Written(folder, files, told)


def test_the_manifest_names_every_file_with_its_hash(j01):
    files = j01.files
    manifest = json.loads((j01.folder / "plan.json").read_text(encoding="utf-8"))

    assert {path.relative_to(j01.folder).as_posix() for path in files} == {
        *manifest["files"],
        "plan.json",
    }
    for name, told in manifest["sha256"].items():
        content = (j01.folder / name).read_bytes()
        assert hashlib.sha256(content).hexdigest() == told
    assert manifest["status"] == "NOT FOR CUTTING"


def test_a_second_run_gives_the_same_files(j01, tmp_path):
    paper_set.write(gathered("J01"), tmp_path / "two")

    folders = j01.folder, tmp_path / "two"
    one, two = (json.loads((folder / "plan.json").read_text()) for folder in folders)
    assert one["sha256"] == two["sha256"]


def test_a_run_that_fails_leaves_the_set_before(j01, tmp_path, monkeypatch):
    out = tmp_path / "out"
    shutil.copytree(j01.folder, out)
    before = {path: path.read_bytes() for path in out.rglob("*.*")}

    def fail(_):
        raise DrawingError("the disk is full")

    monkeypatch.setattr(labels_of, "pages", fail)
    with pytest.raises(DrawingError, match="disk is full"):
        paper_set.write(gathered("J01", revision="B"), out)

    assert {path: path.read_bytes() for path in out.rglob("*.*")} == before
    assert [path.name for path in tmp_path.iterdir()] == ["out"]


def test_progress_is_told_to_the_end(j01):
    told = j01.told

    assert told[-1][0] == told[-1][1]
    assert [done for done, _ in told] == list(range(1, len(told) + 1))


def test_a_survey_without_bars_is_not_for_cutting():
    job = acceptance_jobs.released("J05")

    assert "No bars have been entered" in releasing.release(job, job.option).reason


def test_a_new_revision_names_parts_money_and_labels_to_bin():
    survey = {**acceptance_jobs.JOBS["J01"]["survey"], "projection_mm": 2900.0}
    found = revisions.change(cut("J01"), cut("J01", revision="B", survey=survey))

    assert "J01-F1-B1P1-PIR75-N" not in found.altered  # full 2400 long in both
    assert "J01-F1-B1P2-PIR75-N" in found.altered  # 498.8 before, 602.3 now
    assert set(found.altered) <= set(found.labels_to_bin)
    assert found.entries == {"survey.projection_mm": (2800.0, 2900.0)}
    assert "J01-F1-B1P1-PIR75-N" in found.may_stay
    assert found.sizes["J01-F1-B1P2-PIR75-N"][0].startswith("596.7")
    assert all(before != now for before, now in found.lengths.values())
    assert found.lengths
    assert found.materials > 0
    ex_vat, with_vat = found.price
    # The review: 2.09 of materials where the price moves by 40. Labour, overhead and profit too.
    assert ex_vat > 1.12 * 1.18 * float(found.materials)
    assert with_vat == found.new.price.total - found.old.price.total


def test_two_files_of_one_revision_that_differ_are_refused():
    survey = {**acceptance_jobs.JOBS["J01"]["survey"], "projection_mm": 2900.0}

    with pytest.raises(JobFileError, match="Both files are revision A"):
        revisions.change(cut("J01"), cut("J01", survey=survey))
    with pytest.raises(JobFileError, match="different jobs"):
        revisions.change(cut("J01"), cut("J10"))
