"""Pictures of every stage of the window, to be looked at: `./run tour OUT`.

Every stage at two sizes by day and one by night; at the size of a small screen and with letters
twice as large as well. Nothing is compared here: somebody has to look.
"""

import os
import subprocess
import sys
import tempfile
from pathlib import Path

from tests.desktop import own_screen

SAMPLE = "five-facet-end"
SETTLED = 30
"""Rounds of events until a stage stands."""

_SCREEN = "3200x2000x24"
LAPS = (
    # name, size of the window [px], colours, scale
    ("day", (1600, 1000), "light", 1),
    ("small", (1366, 768), "light", 1),
    ("night", (1600, 1000), "dark", 1),
    ("twice", (1600, 1000), "light", 2),
)


def draw(out: Path, name: str, size: tuple[int, int], colours: str) -> None:
    """Write a picture of every stage at one size."""
    # Only now: Qt looks for its screen when it is loaded.
    from PySide6.QtCore import QEvent, QSettings
    from PySide6.QtWidgets import QApplication

    from roofmodel.desktop.kit import palette

    app = QApplication(sys.argv[:1])
    # Only now: the window takes its colours when it is loaded, here whatever the system's are.
    palette.of_the_system = lambda: palette.DARK if colours == "dark" else palette.LIGHT
    from roofmodel.desktop.job.preferences import Preferences
    from roofmodel.desktop.kit import theme
    from roofmodel.desktop.main_window import MainWindow
    from roofmodel.desktop.path.stage import Stage
    from roofmodel.foundation import resources
    from roofmodel.storage import job_file

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
        window.resize(*size)
        window.show()
        for place, stage in enumerate(Stage):
            window.stages.go(stage)
            for _ in range(SETTLED):
                app.processEvents()
            window.grab().save(str(out / f"{name}-{place}-{stage.value.lower()}.png"))
        window.open_job.history.mark_saved()
        window.close()
        window.deleteLater()
        app.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def run(out: Path) -> None:
    """Go every lap in a process of its own: colours and scale are chosen when it starts.

    Raises
    ------
    NoScreenError
        If there is no screen, and none can be started.
    """
    out.mkdir(parents=True, exist_ok=True)
    own_screen.SIZE = _SCREEN
    own_screen.start()
    for name, (wide, high), colours, scale in LAPS:
        subprocess.run(
            [sys.executable, __file__, str(out), name, str(wide), str(high), colours],
            env={**os.environ, "QT_SCALE_FACTOR": str(scale)},
            check=True,
        )


if __name__ == "__main__":
    if len(sys.argv) > 2:
        into, lap, across, down, shade = sys.argv[1:]
        draw(Path(into), lap, (int(across), int(down)), shade)
    else:
        run(Path(sys.argv[1] if sys.argv[1:] else "build/tour"))
