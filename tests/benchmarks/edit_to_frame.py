"""Measures the window: from nothing to the first frame, and from an edit to the frame it shows."""

import statistics
import sys
import tempfile
import time
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from tests.desktop import own_screen

EDITS = 30
SIZE = (1400, 900)


def measured() -> Iterator[tuple[str, float, float]]:
    """Give what was measured, its middle and its worst [ms], one after the other.

    Raises
    ------
    ImportError
        If there is no screen; the text says why.
    """
    try:
        own_screen.start()
    except own_screen.NoScreenError as error:
        raise ImportError(str(error)) from error
    start = time.perf_counter()
    # Only now: loading is part of what is measured.
    from PySide6.QtWidgets import QApplication

    from roofmodel.desktop import files
    from roofmodel.desktop.kit import theme

    app = QApplication.instance() or QApplication(sys.argv[:1])
    assert isinstance(app, QApplication)
    theme.dress(app)
    with tempfile.TemporaryDirectory() as kept:
        for path in files.samples():
            window = _shown(app, path, Path(kept))
            if start:
                took = 1000 * (time.perf_counter() - start)
                yield "loading to first frame", took, took
                start = 0.0
            _settle(app, window)
            taken = [_edit(app, window, number) for number in range(1, EDITS + 1)]
            name = path.name.split(".")[0]
            yield f"{name}: edit to frame", statistics.median(taken), max(taken)
            window.open_job.saved_in(Path(kept) / "job")
            window.close()


def _shown(app, path: Path, kept: Path):
    from PySide6.QtCore import QSettings

    from roofmodel.desktop.job.preferences import Preferences
    from roofmodel.desktop.main_window import MainWindow
    from roofmodel.storage import job_file

    store = QSettings(str(kept / "settings.ini"), QSettings.Format.IniFormat)
    window = MainWindow(
        job_file.read(path), path=None, preferences=Preferences(store), autosave_into=kept / "work"
    )
    window.resize(*SIZE)
    window.show()
    _until_next_frame(app, window, frames=0)
    return window


def _edit(app, window, number: int) -> float:
    """Return how long one edit takes until its frame is drawn [ms]."""
    job = window.open_job.job
    step = number % 2 * 2 - 1
    survey = replace(job.survey, eaves_height_mm=job.survey.eaves_height_mm + step)
    if hasattr(survey, "width_mm"):
        survey = replace(survey, width_mm=survey.width_mm + step)
    frames = window.view_panel.viewport.frames
    start = time.perf_counter()
    window.open_job.enter(replace(job, survey=survey), form="survey")
    _until_next_frame(app, window, frames=frames)
    return 1000 * (time.perf_counter() - start)


def _until_next_frame(app, window, *, frames: int) -> None:
    while window.view_panel.viewport.frames == frames:
        app.processEvents()


def _settle(app, window) -> None:
    """Let plans and smoothed frames come to an end, so that only the edit is measured."""
    until = time.perf_counter() + 30.0
    while window.cutting_run.running and time.perf_counter() < until:
        app.processEvents()
        time.sleep(0.005)


if __name__ == "__main__":
    for what, middle, worst in measured():
        print(f"{what:40} {middle:8.1f} {worst:8.1f}")  # noqa: T201 - this is its output
