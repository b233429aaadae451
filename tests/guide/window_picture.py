"""A picture of the window with a sample roof, on a screen of its own."""

import sys
import tempfile
from pathlib import Path

from tests.desktop import own_screen

SAMPLE = "three-facet-end"
SETTLED = 30
"""Rounds of events until the picture stands and the plans are asked for."""


def draw(target: Path) -> None:
    """Write the picture.

    Raises
    ------
    NoScreenError
        If there is no screen, and none can be started.
    """
    own_screen.start()
    # Only now: Qt looks for its screen when it is loaded.
    from PySide6.QtCore import QEventLoop, QSettings
    from PySide6.QtWidgets import QApplication

    from roofmodel.desktop.job.preferences import Preferences
    from roofmodel.desktop.kit import theme
    from roofmodel.desktop.main_window import MainWindow
    from roofmodel.foundation import resources
    from roofmodel.storage import job_file

    app = QApplication.instance() or QApplication(sys.argv[:1])
    assert isinstance(app, QApplication)
    theme.dress(app)
    with tempfile.TemporaryDirectory() as kept:
        window = MainWindow(
            job_file.read(resources.sample_roofs() / f"{SAMPLE}{job_file.SUFFIX}"),
            path=None,
            preferences=Preferences(
                QSettings(str(Path(kept) / "settings.ini"), QSettings.Format.IniFormat)
            ),
            autosave_into=Path(kept),
        )
        window.resize(1400, 900)
        window.show()
        for _ in range(SETTLED):
            app.processEvents()
        while window.cutting_run.running:
            app.processEvents(QEventLoop.ProcessEventsFlag.AllEvents, 50)
        screen = app.primaryScreen()
        screen.grabWindow(window.winId()).save(str(target))
        window.open_job.history.mark_saved()
        window.close()
