"""The folder that this program and the processes it starts keep cutting plans in."""

import os
from pathlib import Path

from platformdirs import user_cache_path

VARIABLE = "ROOFMODEL_PLANS"
"""Names the folder; where it is empty, or nobody set it, no plan is kept."""


def choose_usual() -> None:
    """Keep plans with what the user's programs may lose, unless another folder is named already.

    Called once as the program starts; its processes inherit what was chosen.
    """
    usual = user_cache_path("roofmodel", appauthor=False) / "plans"
    os.environ.setdefault(VARIABLE, str(usual))


def current() -> Path | None:
    """Return the folder; None where no plan is kept."""
    named = os.environ.get(VARIABLE)
    return Path(named) if named else None
