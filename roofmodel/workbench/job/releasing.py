"""Whether the papers of a method may be cut from; knows no format, so that asking costs nothing."""

from roofmodel.drawings.paper.release import Release
from roofmodel.gates.answer import blocks
from roofmodel.gates.answer.blocks import Binding
from roofmodel.storage.job import Job
from roofmodel.workbench.job.options import Option
from roofmodel.workbench.job.reckoning import Drawn


def release(drawn: Drawn, option: Option) -> Release:
    """Return whether the papers of a method may be cut from, with every reason why not.

    The gates decide, by the table of what blocks papers; then somebody has to have released them.
    """
    reasons = [option.refused] if option.refused else []
    table = blocks.shipped()
    reasons += [
        f"{check.reason} {check.remedy}".strip()
        for check in table.blocking(drawn.verdicts(option), Binding.PAPERS)
        # A gate that refuses the method has been said already.
        if not table.blocks(check, Binding.METHOD)
    ]
    job = drawn.job
    if job.released is None:
        reasons.append(
            f"Nobody has released revision {job.revision}: measure the roof a second time, then "
            "enter who released it and when."
        )
    elif job.released.revision != job.revision:
        reasons.append(
            f"Revision {job.released.revision} was released, this is revision {job.revision}."
        )
    return Release(reasons=tuple(reasons), approved=_approved(job))


def _approved(job: Job) -> str:
    """Return who released this revision, and when; empty while nobody has."""
    if job.released is None or job.released.revision != job.revision:
        return ""
    return f"{job.released.by}, {job.released.on.isoformat()}"
