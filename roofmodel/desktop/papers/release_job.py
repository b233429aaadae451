"""A job is released for cutting from the window, just as the command `release` does it."""

from dataclasses import replace

from PySide6.QtCore import QObject, Signal

from roofmodel.desktop.papers.paper_desk import Desk
from roofmodel.storage.job import Job
from roofmodel.workbench.job import named_release, releasing
from roofmodel.workbench.job.options import Option
from roofmodel.workbench.job.reckoning import Drawn

_FORM = "release"
_NOT_RELEASED = "Nothing was released."


class ReleaseOut(QObject):
    """Asks for name and day, enters the release, and says what it holds for."""

    said = Signal(str)
    """What was released, and whether that may be cut now."""

    def __init__(self, desk: Desk) -> None:
        """Serve one open job."""
        super().__init__()
        self._desk = desk

    def release(self) -> None:
        """Release the method chosen, exactly as it is entered now."""
        drawn = None if self._desk.open_job.stale else self._desk.open_job.drawn
        if drawn is None:
            self._desk.dialogs.refusal(_NOT_RELEASED, "There is no roof to release.")
            return
        option, today = drawn.option, self._desk.today()
        against = [
            reason
            for reason in releasing.release(drawn, option, today=today).reasons
            if reason not in named_release.reasons(drawn.job, option, today=today)
        ]
        wanted = self._desk.dialogs.release_wanted(_what(drawn, option), against, today)
        if wanted is None:
            return
        given = named_release.released(drawn.job, option, by=wanted.by, on=wanted.on)
        changed: Job = replace(drawn.job, released=given)
        wrong = named_release.reasons(changed, option, today=today)
        if wrong:
            self._desk.dialogs.refusal(_NOT_RELEASED, " ".join(wrong))
            return
        self._desk.open_job.enter(changed, form=_FORM)
        status = releasing.release(replace(drawn, job=changed), option, today=today).status
        self.said.emit(
            f"{given.by} released revision {given.revision}, {option.method.printed}, content "
            f"{given.content}, on {given.on.isoformat()}: {status}. Save the job to keep it."
        )


def _what(drawn: Drawn, option: Option) -> str:
    content = releasing.release(drawn, option).content
    return (
        f"Job {drawn.job.code}, revision {drawn.job.revision}, {option.method.printed}, content "
        f"{content}. Any change of a size, layer or sheet needs another release."
    )
