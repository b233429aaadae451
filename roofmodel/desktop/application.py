"""Starts the window."""

import sys
from pathlib import Path

from roofmodel.desktop import can_show_window


def run(job_path: Path | None) -> int:
    """Show the window until it is closed; return the exit code.

    Parameters
    ----------
    job_path
        The job to open; a copy of a sample when left out.

    Raises
    ------
    ScreenError
        If no window can be shown here; the text says what to do.
    JobFileError
        If the job cannot be read.
    """
    can_show_window.check()
    # Only now: without its system libraries Qt cannot even be loaded.
    from PySide6.QtWidgets import QApplication

    # And before the window is loaded, which asks it for a light or a dark theme.
    app = QApplication.instance() or QApplication(sys.argv[:1])
    from roofmodel.desktop import session

    assert app is not None
    return session.run(job_path)
