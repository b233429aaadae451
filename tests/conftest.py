"""Settings every test shares."""

import os
from pathlib import Path

import pytest
from hypothesis import settings

from roofmodel.foundation import plans_folder

# A busy machine is no fault of the code: speed is measured by the benchmarks. Where nobody looks
# on, the same examples come each time.
settings.register_profile("here", deadline=None)
settings.register_profile("unattended", deadline=None, derandomize=True)
settings.load_profile("unattended" if os.environ.get("CI") else "here")


@pytest.fixture(scope="session", autouse=True)
def _plans_made_once(tmp_path_factory):
    """Every plan of a job's layer is made once in a run, whichever process asks first.

    Rooms above the cutting room only need some plan of a job; whether plans are right, and equal
    whenever they are made, is for `tests/cutting`, which makes every plan anew.
    """
    folder = os.environ.get("ROOFMODEL_KEPT_PLANS")  # many runs in a row may share one
    if folder is None:
        base = tmp_path_factory.getbasetemp()
        folder = (base.parent if os.environ.get("PYTEST_XDIST_WORKER") else base) / "plans"
    Path(folder).mkdir(exist_ok=True)
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv(plans_folder.VARIABLE, str(folder))
        yield
