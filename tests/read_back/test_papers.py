"""Whole sets of papers, read back by code of its own: nothing is cut wrong, twice or through."""

from itertools import combinations
from pathlib import Path

import numpy as np
import pytest

from roofmodel.cutting.nesting.nest import Effort
from roofmodel.foundation.errors import RoofModelError
from roofmodel.refit.method import Method
from roofmodel.storage import job_file
from roofmodel.workbench.job import reckoning
from roofmodel.workbench.job.reckoning import Drawn
from roofmodel.workbench.papers import paper_set
from tests import acceptance_jobs
from tests.read_back import papers

SAMPLES = sorted((Path(__file__).parents[2] / "sample_roofs").glob("*.roofjob.json"))
KINDS = ("J01", "J04", "J06", "J07", "J10")


def random_job(number):
    """Return one of the acceptance jobs in other sizes; the same number is the same roof."""
    draw = np.random.default_rng([20261130, number])
    code = KINDS[number % len(KINDS)]
    survey = dict(acceptance_jobs.JOBS[code]["survey"])
    for name, value in survey.items():
        if name.endswith("_deg"):
            survey[name] = float(round(value + draw.uniform(-4.0, 9.0), 1))
        elif name.endswith("_mm") and name != "eaves_height_mm":
            survey[name] = float(round(value * draw.uniform(0.9, 1.2)))
    return acceptance_jobs.drawn(code, survey=survey)


def read_back(drawn, folder):
    """Return the papers of every method that can be cut, by the method."""
    found = {}
    for method in Method:
        option = drawn.option_of(method)
        try:
            plans = reckoning.cut(drawn, method=method, effort=Effort.QUICK)
        except RoofModelError:
            continue  # A refused method, or a panel longer than its stock, has no papers.
        whole = paper_set.gather(drawn, option, plans)
        paper_set.write(whole, folder / method.value, cutting_only=True)
        found[method] = papers.read(folder / method.value)
    return found


def is_sound(found):
    for read in found.values():
        assert papers.faults(read) == []
    for one, other in combinations(found.values(), 2):
        assert not {row.mark for row in one.rows} & {row.mark for row in other.rows}


def test_the_papers_of_a_roof_are_sound(tmp_path):
    found = read_back(acceptance_jobs.drawn("J10"), tmp_path)

    assert set(found) >= {Method.NEW_ROOF, Method.BUILD_ROUND}
    is_sound(found)


def test_a_cut_through_an_offcut_a_piece_moved_and_a_hand_exchanged_are_seen(tmp_path):
    found = read_back(acceptance_jobs.drawn("J10"), tmp_path)[Method.BUILD_ROUND]
    key, sheet = next((k, s) for k, s in found.sheets.items() if s.kept and s.cuts)
    label, kept = next(iter(sheet.kept.items()))

    sheet.kept[label] = kept.buffer(40.0)
    assert any("into the offcut" in fault for fault in papers.faults(found))
    sheet.kept[label] = kept
    row = next(row for row in found.rows if row.sheet == key)
    row.outline = papers.affinity.translate(row.outline, 5.0, 0.0)
    assert any("is drawn 5.0" in fault for fault in papers.faults(found))


@pytest.mark.slow
@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.name.split(".")[0])
def test_the_papers_of_every_sample_are_sound(path, tmp_path):
    drawn = reckoning.reckon(job_file.read(path))

    assert isinstance(drawn, Drawn)
    is_sound(read_back(drawn, tmp_path))


@pytest.mark.slow
@pytest.mark.parametrize("number", range(20))
def test_the_papers_of_random_roofs_are_sound(number, tmp_path):
    drawn = random_job(number)

    assert isinstance(drawn, Drawn)
    is_sound(read_back(drawn, tmp_path))
