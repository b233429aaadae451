"""Refuses a plan with a fault, before anybody sees it."""

from collections.abc import Sequence

from roofmodel.cutting.nesting import verify
from roofmodel.cutting.parts.layout import Layout
from roofmodel.cutting.parts.problem import Problem
from roofmodel.foundation.errors import CuttingError


def refuse_faulty(
    problem: Problem, layout: Layout, *, least: int, more_faults: Sequence[str], code: str
) -> None:
    """Refuse a layout that cannot be cut, takes less than the bound, or has faults on the roof.

    Parameters
    ----------
    problem : Problem
        What was to be cut.
    layout : Layout
        The layout found.
    least : int
        Sheets that cannot be gone below.
    more_faults : sequence of str
        What was found once the parts were put back on the roof.
    code : str
        The material.

    Raises
    ------
    CuttingError
        With every fault.
    """
    faults = [*verify.faults(problem, layout), *more_faults]
    if layout.sheets < least:
        faults.append(f"{layout.sheets} sheets are fewer than the bound of {least}.")
    if faults:
        raise CuttingError(
            f"{code}: the plan failed its check and is not shown. {' '.join(faults)} "
            "Change the gap or the saw cut slightly, and report this job."
        )
