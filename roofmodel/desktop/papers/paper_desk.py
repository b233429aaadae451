"""What whoever writes papers from the window has at hand."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from roofmodel.desktop.asking.dialogs import Dialogs
from roofmodel.desktop.job.cutting_run import CuttingRun
from roofmodel.desktop.job.open_job import OpenJob
from roofmodel.desktop.job.preferences import Preferences
from roofmodel.foundation import clock


@dataclass(frozen=True, slots=True, kw_only=True)
class Desk:
    """One open job with its plans, who asks and tells, and what is remembered.

    ``firm_in`` is the folder of the firm's own name, words and rates.
    """

    open_job: OpenJob
    run: CuttingRun
    dialogs: Dialogs
    preferences: Preferences
    firm_in: Path | None = None
    today: Callable[[], date] = clock.today
