"""Starts the window."""

from pathlib import Path

from roofmodel.desktop import screen


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
    screen.check()
    # Only now: without its system libraries Qt cannot even be loaded.
    from roofmodel.desktop import session

    return session.run(job_path)
