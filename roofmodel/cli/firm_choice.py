"""Whose words and rates a command uses: those of a folder named, the firm's, or the shipped."""

from roofmodel.cli import firm_folder, opening
from roofmodel.foundation import clock
from roofmodel.workbench.firm import firm
from roofmodel.workbench.firm.firm import Firm
from roofmodel.workbench.papers.job_papers import Issue


def current() -> Firm:
    """Return what this command writes and prices with.

    Raises
    ------
    ResourceError
        If the firm's own cannot be read.
    """
    return firm.load(firm_folder.folder())


def issue(owner: str, on: str | None) -> Issue:
    """Return day of issue, today when left out, and firm, its own name when left out.

    Raises
    ------
    ResourceError
        If the firm's own words cannot be read.
    """
    name = owner or current().text.firm.name
    return Issue(issued=opening.day(on), owner=name, today=clock.today())
