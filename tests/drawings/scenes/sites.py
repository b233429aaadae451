"""Sample roofs as they stand and refitted, without the gates, which a scene does not ask."""

from functools import cache
from pathlib import Path

import pytest

from roofmodel.buildups import catalogue
from roofmodel.refit import refit
from roofmodel.refit.refit import Site
from roofmodel.storage import job_file
from roofmodel.survey.taped import to_shape
from roofmodel.workbench.job import members

NAMES = sorted(path.name.split(".")[0] for path in Path("sample_roofs").glob("*.roofjob.json"))

USUAL = ("lean-to", "double-hip", "wing", "gable")
"""One of each kind; the others are for the large set."""

EACH = [pytest.param(n, marks=() if n in USUAL else (pytest.mark.slow,)) for n in NAMES]


@cache
def job_of(name):
    return job_file.read(Path(f"sample_roofs/{name}.roofjob.json"))


@cache
def site_of(name):
    job = job_of(name)
    built = to_shape.built(job.survey)
    made, _ = members.members(
        built.roof, job.bars, job_code=job.code, gap_mm=job.refit.fitting_gap_mm
    )
    return Site(
        roof=built.roof,
        footprint=built.footprint(),
        members=made,
        standing=job.standing,
        job_code=job.code,
    )


def refitted(name, method, entry=None):
    return refit.apply(method, site_of(name), entry or job_of(name).refit, catalogue.shipped())
