"""The program starts and ends, and its windows with it."""

import os
import subprocess
import sys
import textwrap

import pytest

pytestmark = pytest.mark.desktop


@pytest.mark.parametrize("windows", [3, pytest.param(10, marks=pytest.mark.slow)])
def test_windows_open_and_close_one_after_the_other(open_window, windows):
    for round_no in range(windows):
        window = open_window(["hipped", "gable", "five-facet-end"][round_no % 3])
        assert window.view_panel.viewport.labels.texts
        window.close()
        assert not window.isVisible()


def test_the_program_starts_survives_a_fault_of_its_own_and_ends_well(tmp_path):
    """The whole way, in a process of its own, with the settings and the work of nobody."""
    script = textwrap.dedent(
        """
        import sys
        from PySide6.QtCore import QTimer
        from PySide6.QtWidgets import QApplication, QMessageBox
        from roofmodel.desktop import application

        app = QApplication(sys.argv[:1])

        def break_down():
            raise KeyError("inside")

        def answer():
            box = app.activeModalWidget()
            assert isinstance(box, QMessageBox)
            print(box.text(), box.informativeText())
            box.accept()

        def end():
            window = next(w for w in app.topLevelWidgets() if hasattr(w, "open_job"))
            print(window.windowTitle())
            window.close()

        for after_ms, do in ((1500, break_down), (2000, answer), (2500, end)):
            QTimer.singleShot(after_ms, do)
        sys.exit(application.run(None))
        """
    )
    home = {"HOME": str(tmp_path), "XDG_CONFIG_HOME": str(tmp_path), "XDG_DATA_HOME": str(tmp_path)}
    ended = subprocess.run(
        [sys.executable, "-c", script],
        env={**os.environ, **home},
        capture_output=True,
        text=True,
        timeout=60,
    )

    assert ended.returncode == 0, ended.stderr
    assert "This is a program error, not a mistake of yours" in ended.stdout
    assert "roofmodel" in ended.stdout.splitlines()[-1]
    assert "Traceback" not in ended.stdout + ended.stderr
    reports = list(tmp_path.rglob("last-fault.txt"))
    assert "KeyError: 'inside'" in reports[0].read_text(encoding="utf-8")
