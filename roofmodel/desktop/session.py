"""One run of the window, from the first frame to the last."""

import signal
import sys
from pathlib import Path

from PySide6.QtCore import QSettings, QTimer
from PySide6.QtWidgets import QApplication
from vtkmodules.vtkCommonCore import vtkObject

from roofmodel.desktop import files
from roofmodel.desktop.guard import Guard
from roofmodel.desktop.job.preferences import Preferences
from roofmodel.desktop.kit import theme
from roofmodel.desktop.kit.collector import Collector
from roofmodel.desktop.main_window import MainWindow
from roofmodel.foundation import user_folder
from roofmodel.storage import autosave, job_file

_NAME = "roofmodel"


def run(job_path: Path | None) -> int:
    """Show the window until it is closed; return the exit code.

    Raises
    ------
    JobFileError
        If the job cannot be read.
    """
    job = job_file.read(job_path) if job_path else files.first_job()
    app = QApplication.instance() or QApplication(sys.argv[:1])
    assert isinstance(app, QApplication)
    app.setApplicationName(_NAME)
    theme.dress(app)
    # Warnings of the graphics library are not for the person at the screen.
    vtkObject.GlobalWarningDisplayOff()
    preferences = Preferences(
        QSettings(QSettings.Format.IniFormat, QSettings.Scope.UserScope, _NAME)
    )
    window = MainWindow(
        job,
        path=job_path,
        preferences=preferences,
        autosave_into=autosave.folder(),
        catalogue_in=user_folder.data(),
    )
    if job_path:
        preferences.remember_file(job_path)
    guard = Guard(
        keep=window.autosaver.keep,
        say=lambda text: window.dialogs.refusal("There has been a program error.", text),
        into=autosave.folder(),
    )
    guard.stand()
    # Never handed back: a plan may still be under way when the last window is closed.
    Collector(app).take_over()
    # Ctrl+C in the terminal ends the program at once; unsaved work is kept aside.
    signal.signal(signal.SIGINT, signal.SIG_DFL)
    window.show()
    if window.trouble:
        trouble = window.trouble
        said = "The firm's own data could not be read; the supplied data is being used."
        QTimer.singleShot(0, lambda: window.dialogs.refusal(said, trouble))
    QTimer.singleShot(0, lambda: window.job_files.offer_recovery(autosave.folder()))
    try:
        return int(app.exec())
    finally:
        guard.step_down()
