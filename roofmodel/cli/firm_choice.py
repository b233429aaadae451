"""Whose words and rates a command uses: those of a folder named, the firm's, or the shipped."""

import os
from pathlib import Path

from platformdirs import user_data_path

from roofmodel.cli import opening
from roofmodel.foundation import clock
from roofmodel.workbench.job import firm
from roofmodel.workbench.job.firm import Firm
from roofmodel.workbench.papers.job_papers import Issue

VARIABLE = "ROOFMODEL_FIRM"


def folder() -> Path:
    """Return the folder of the firm's own words and rates; it need not exist."""
    named = os.environ.get(VARIABLE)
    return Path(named) if named else user_data_path("roofmodel", appauthor=False) / firm.FOLDER


def current() -> Firm:
    """Return what this command writes and prices with.

    Raises
    ------
    ResourceError
        If the firm's own cannot be read.
    """
    return firm.load(folder())


def issue(owner: str, on: str | None) -> Issue:
    """Return day of issue, today when left out, and firm, its own name when left out.

    Raises
    ------
    ResourceError
        If the firm's own words cannot be read.
    """
    name = owner or current().text.firm.name
    return Issue(issued=opening.day(on), owner=name, today=clock.today())
