"""Plans kept on disk: the same when they come back, never half of one, never more than so many."""

import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from roofmodel.cutting.plan import plan
from roofmodel.storage import plan_cache
from roofmodel.storage.plan_cache import PlanCache
from tests.cutting import made

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="module")
def found():
    return plan(made.roof("J01").facets, made.good(), job_code="J01", effort="quick")


def test_a_plan_comes_back_as_it_was(found, tmp_path):
    kept = PlanCache(tmp_path / "plans")
    kept.put("one", found)

    assert kept.get("one") == found
    assert kept.get("another") is None


def test_half_a_file_counts_as_not_kept(found, tmp_path):
    kept = PlanCache(tmp_path)
    kept.put("one", found)
    (file,) = tmp_path.iterdir()
    file.write_bytes(file.read_bytes()[:-500])

    assert kept.get("one") is None


def test_a_part_no_saw_can_cut_counts_as_not_kept(found, tmp_path):
    kept = PlanCache(tmp_path)
    kept.put("one", found)
    (file,) = tmp_path.iterdir()
    file.write_text(file.read_text().replace('"may_turn_deg":[0', '"may_turn_deg":[45', 1))

    assert kept.get("one") is None


def test_the_folder_holds_so_much_and_no_more_and_drops_what_nobody_asked_for(found, tmp_path):
    PlanCache(tmp_path).put("size", found)
    size = sum(file.stat().st_size for file in tmp_path.iterdir())
    kept = PlanCache(tmp_path, most_bytes=3 * size)
    for age, name in enumerate(("size", "old", "asked for")):
        kept.put(name, found)
        os.utime(tmp_path / f"{name}.plan.json", (1000 + age, 1000 + age))
    kept.get("size")
    kept.put("new", found)

    left = {file.name.partition(".")[0] for file in tmp_path.iterdir()}
    assert left == {"size", "asked for", "new"}


def test_a_folder_that_cannot_be_written_keeps_nothing_and_hurts_nobody(found, tmp_path):
    (tmp_path / "plans").write_text("a file, no folder")
    kept = PlanCache(tmp_path / "plans")
    kept.put("one", found)

    assert kept.get("one") is None


def test_what_a_plan_follows_from_gives_its_name():
    good, facets = made.good(), made.roof("J01").facets

    same = plan_cache.name_of(tuple(facets), good)
    assert plan_cache.name_of(tuple(made.roof("J01").facets), made.good()) == same
    assert plan_cache.name_of(tuple(facets), replace(good, kerf_mm=good.kerf_mm + 0.1)) != same
    assert plan_cache.name_of(tuple(made.roof("J07").facets), good) != same


TWO_AT_ONCE = """
import sys
from pathlib import Path
from roofmodel.cutting.plan import plan
from roofmodel.storage.plan_cache import PlanCache
from tests.cutting import made
found = plan(made.roof("J01").facets, made.good(), job_code="J01", effort="quick")
kept = PlanCache(Path(sys.argv[1]), most_bytes=40_000)
seen = 0
for number in range(60):
    kept.put(f"{number % 5}", found)
    other = kept.get(f"{(number + 2) % 5}")
    assert other is None or other == found
    seen += other is not None
print(seen)
"""


def test_two_programs_share_the_folder(tmp_path):
    words = [sys.executable, "-c", TWO_AT_ONCE, str(tmp_path)]
    both = [subprocess.Popen(words, cwd=ROOT, stdout=subprocess.PIPE, text=True) for _ in range(2)]
    told = [one.communicate()[0] for one in both]

    assert [one.returncode for one in both] == [0, 0]
    assert all(int(seen) > 0 for seen in told)
