"""Whether the papers of a method may be cut from; knows no format, so that asking costs nothing."""

from datetime import date

from roofmodel.drawings.paper.release import Release
from roofmodel.gates.answer import blocks
from roofmodel.gates.answer.blocks import Binding
from roofmodel.workbench.job import content, named_release
from roofmodel.workbench.job.options import Option
from roofmodel.workbench.job.reckoning import Drawn


def release(drawn: Drawn, option: Option, *, today: date | None = None) -> Release:
    """Return whether the papers of a method may be cut from, with every reason why not.

    The gates decide, by the table of what blocks papers; then somebody has to have released them,
    just as they are now.

    Parameters
    ----------
    drawn, option
        The job and one of its methods.
    today
        The day of issue; without one a release dated in days to come is not seen.
    """
    reasons = [option.refused] if option.refused else []
    table = blocks.shipped()
    reasons += [
        f"{check.reason} {check.remedy}".strip()
        for check in table.blocking(drawn.verdicts(option), Binding.PAPERS)
        # A gate that refuses the method has been said already.
        if not table.blocks(check, Binding.METHOD)
    ]
    reasons += named_release.reasons(drawn.job, option, today=today)
    return Release(
        reasons=tuple(reasons),
        approved=named_release.approved(drawn.job),
        content=content.name(drawn.job, option),
    )
