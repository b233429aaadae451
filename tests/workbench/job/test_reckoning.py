"""From the entry straight to the figures: what a reckoning has made, it does not make again.

Counted are the stages of the job as entered. The roofs beside it, one for every measured value,
are other roofs: some of them differ only in a stage that is not counted here.
"""

from collections import Counter
from dataclasses import replace
from pathlib import Path

import pytest

from roofmodel.geometry import skeleton
from roofmodel.refit.method import Method
from roofmodel.shapes.bars import bar, bay, roof_bar
from roofmodel.storage import job_file
from roofmodel.survey.sheets import networks
from roofmodel.survey.taped import to_shape
from roofmodel.survey.taped.findings import Severity
from roofmodel.workbench.job import measured, reckoning
from roofmodel.workbench.job.reckoning import Drawn
from tests import acceptance_jobs

SAMPLES = sorted(Path("sample_roofs").glob("*.roofjob.json"))

STAGES = (
    (to_shape, "shape"),
    (networks, "of_survey"),
    (skeleton, "faces"),
    (bar, "facet_bars"),
    (bay, "facet_bays"),
    (roof_bar, "roof_bars"),
)


@pytest.fixture
def made(monkeypatch):
    """Count every call of a stage, with what it was called with."""
    calls = Counter()

    def counted(stage, name):
        def act(*given, **named):
            calls[name, repr(given), repr(named)] += 1
            return stage(*given, **named)

        return act

    monkeypatch.setattr(measured, "of_job", lambda _: ())
    for module, name in STAGES:
        monkeypatch.setattr(module, name, counted(getattr(module, name), name))
    return calls


def stages(made):
    """Return how often each stage was gone through."""
    return Counter(name for (name, *_), times in made.items() for _ in range(times))


@pytest.mark.parametrize("method", Method)
@pytest.mark.parametrize("sample", SAMPLES, ids=lambda path: path.name.split(".")[0])
def test_nothing_is_made_twice_of_the_same(sample, method, made):
    job = job_file.read(sample)
    job = replace(job, refit=replace(job.refit, method=method))
    made.clear()
    drawn = reckoning.reckon(job)

    assert isinstance(drawn, Drawn)
    assert {call: times for call, times in made.items() if times > 1} == {}


def test_a_roof_with_bars_goes_through_each_stage_once(made):
    job = job_file.read(Path("sample_roofs/notch.roofjob.json"))
    made.clear()
    drawn = reckoning.reckon(job)

    facets = len(drawn.roof.facets)
    assert stages(made) == {
        "shape": 1,
        "faces": 1,
        "facet_bars": facets,
        "facet_bays": facets,
        "roof_bars": 1,
    }


def test_a_surveyed_roof_asks_for_the_lines_of_its_sheet_once(made):
    job = job_file.read(Path("sample_roofs/surveyed-lean-to.roofjob.json"))
    made.clear()
    reckoning.reckon(job)

    assert stages(made)["of_survey"] == 1


def test_bars_entered_twice_for_one_facet_are_refused_by_their_entry():
    bars = acceptance_jobs.JOBS["J01"]["bars"]

    told = reckoning.reckon(acceptance_jobs.job("J01", bars=[*bars, *bars]))

    (finding,) = [one for one in told.findings if one.field == "bars.1.facet"]
    assert finding.severity is Severity.STOP
    assert finding.text == "The bars of F1 are entered twice."
