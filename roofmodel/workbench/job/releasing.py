"""Whether the papers of a method may be cut from; knows no format, so that asking costs nothing."""

from roofmodel.drawings.paper.release import Release
from roofmodel.foundation.outcome import Outcome
from roofmodel.gates.buildable import fixings, stock_length
from roofmodel.storage.job import Job
from roofmodel.survey.verdict.state import Output
from roofmodel.workbench.job.options import Option
from roofmodel.workbench.job.reckoning import Drawn


def release(drawn: Drawn, option: Option) -> Release:
    """Return whether the papers of a method may be cut from, with every reason why not."""
    reasons: list[str] = []
    permission = drawn.permission(Output.CUTTING)
    if not permission.allowed:
        reasons.append(permission.reason)
    if option.refused:
        reasons.append(option.refused)
    reasons += [finding.text for finding in option.findings if finding.field == "bars"]
    reasons += _cutting_gates(drawn, option)
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


def _cutting_gates(drawn: Drawn, option: Option) -> list[str]:
    """Return why pieces cut now would not fit: no stock large enough, bars too narrow to fix on."""
    if option.refit is None:
        return []
    checks = (
        *stock_length.of_refit(option.refit, drawn.catalogue),
        *fixings.of_refit(option.refit),
    )
    return [check.reason for check in checks if check.outcome is Outcome.FAIL]
