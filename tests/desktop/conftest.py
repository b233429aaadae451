"""A screen, a window and quiet dialogs for every test of the desktop."""

import gc
import os
import threading
from collections import deque
from dataclasses import dataclass, field
from pathlib import Path

import pytest

from tests.desktop import own_screen

_NEEDED = os.environ.get("CI") == "true" or os.environ.get("ROOFMODEL_NEEDS_SCREEN") == "1"
_missing = ""

PATIENCE_MS = 120_000
"""A plan is there at the latest after so long, on a busy machine too."""


def pytest_configure(config):
    global _missing
    try:
        own_screen.start()
    except own_screen.NoScreenError as error:
        _missing = str(error)


@pytest.fixture(autouse=True)
def _screen(request):
    """Skip what needs a screen where there is none, but never where one was promised."""
    if not _missing or request.node.get_closest_marker("desktop") is None:
        return
    if _NEEDED:
        pytest.fail(f"A screen was promised here. {_missing}")
    pytest.skip(_missing)


@pytest.fixture(scope="session")
def _loaded():
    """What every window loads need not be looked at after every test."""
    if not _missing:
        import roofmodel.desktop.main_window  # noqa: F401 - for its libraries, and theirs
    gc.collect()
    gc.freeze()


@pytest.fixture(autouse=True)
def _tidied_here(_screen, _loaded):
    """Windows are taken apart in their own thread, never in that of a plan under way."""
    gc.disable()
    yield
    gc.collect()
    gc.enable()


@dataclass
class Answers:
    """What the quiet dialogs answer, and what was said to the user."""

    files: deque = field(default_factory=deque)
    leave: deque = field(default_factory=deque)
    changed: deque = field(default_factory=deque)
    recovery: deque = field(default_factory=deque)
    layers: deque = field(default_factory=deque)
    refusals: list = field(default_factory=list)
    written: list = field(default_factory=list)


class PlansHere:
    """Searches in a thread of the test's own process, where a test can take a hand in it.

    Plans made before are then at hand; how plans come from another process is tested beside
    `roofmodel.workbench.job.planner`.
    """

    def cut(self, *args, **more):
        from roofmodel.workbench.job import reckoning

        return reckoning.cut(*args, **more)

    def close(self):
        pass


@pytest.fixture
def answers():
    return Answers()


@pytest.fixture
def sample():
    from roofmodel.foundation import resources
    from roofmodel.storage import job_file

    return lambda name: job_file.read(resources.sample_roofs() / f"{name}{job_file.SUFFIX}")


@pytest.fixture
def settings_file(tmp_path):
    return tmp_path / "settings.ini"


@pytest.fixture
def kept_work(tmp_path):
    return tmp_path / "autosave"


@pytest.fixture
def new_window(qapp, sample, settings_file, kept_work, monkeypatch):
    """Return a function that makes a window; quick plans, made when a test asks for them."""
    from PySide6.QtCore import QSettings

    from roofmodel.cutting.nesting.nest import Effort
    from roofmodel.desktop.job import cutting_run
    from roofmodel.desktop.job.preferences import Preferences
    from roofmodel.desktop.kit import theme
    from roofmodel.desktop.main_window import MainWindow

    monkeypatch.setattr(cutting_run, "PAUSE_MS", 10_000_000)
    if not qapp.styleSheet():
        theme.dress(qapp)

    def make(job, path, planner=None):
        store = QSettings(str(settings_file), QSettings.Format.IniFormat)
        preferences = Preferences(store)
        if not store.contains("cutting/effort"):
            preferences.remember_effort(Effort.QUICK)
        return MainWindow(
            sample(job) if isinstance(job, str) else job,
            path=path,
            preferences=preferences,
            autosave_into=kept_work,
            planner=planner or PlansHere(),
        )

    return make


@pytest.fixture
def open_window(qtbot, qapp, new_window, answers):
    """Return a function that shows a window."""
    from PySide6.QtCore import QEvent

    shown = []

    def show(job="hipped", *, path: Path | None = None, quiet=True, planner=None):
        window = new_window(job, path, planner)
        if quiet:
            _quieten(window, answers)
        shown.append(window)
        window.resize(1240, 800)
        with qtbot.waitExposed(window):
            window.show()
        window.activateWindow()
        qtbot.waitUntil(lambda: window.isActiveWindow() and _drawn(window))
        return window

    yield show
    for window in shown:
        if window.isVisible():
            _let_go(window)
            window.close()
        window.view_panel.viewport.close()  # or the graphics library ends the process
        window.deleteLater()
    # Now, not in the loop of the next test: dressing that one's window would dress this one too.
    qapp.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    qapp.processEvents()


class SlowCut:
    """Takes until a test lets it go on; says what was asked for, and what was given up."""

    def __init__(self, cut):
        self.go_on = threading.Event()
        self.asked = []
        self.efforts = []
        self.stopped = []
        self._cut = cut

    def __call__(self, drawn, *, only, effort, progress, cancelled, settled=None):
        from roofmodel.foundation.errors import CuttingError

        layer = next(one for one in drawn.option.sheets if one.number in only)
        self.asked.append((layer.good.short, drawn.job.survey.width_mm))
        self.efforts.append(effort)
        progress(layer.good, 6, 5)
        while not self.go_on.wait(0.01):
            if cancelled() or (settled is not None and settled()):
                self.stopped.append(layer.good.short)
                raise CuttingError("Stopped.")
        return self._cut(drawn, only=only, effort=effort)


@pytest.fixture
def slow_cut(monkeypatch):
    """Let plans take until the test says so; return what was asked for and the release."""
    from roofmodel.workbench.job import reckoning

    slow = SlowCut(reckoning.cut)
    monkeypatch.setattr(reckoning, "cut", slow)
    yield slow
    slow.go_on.set()


@pytest.fixture
def plan_now(qtbot):
    """Return a function that has the plans of an open window made, and waits for them."""

    def plan(window):
        window.cutting_run.begin()
        qtbot.waitUntil(lambda: window.cutting_run.plans is not None, timeout=PATIENCE_MS)

    return plan


def _drawn(window):
    """Return whether the roof is drawn, at a stage that shows it."""
    return window.view_panel.viewport.frames > 0 or not window.view_panel.isVisible()


def _let_go(window):
    """Let a window close with whatever is unsaved or half typed in it."""
    for one in (window.job_files, window.materials):
        if one is not None:
            one.may_leave = lambda: True


def _quieten(window, answers):
    dialogs = window.dialogs
    dialogs.file_to_open = lambda folder: answers.files.popleft()
    dialogs.earlier_revision = lambda folder: answers.files.popleft()
    dialogs.file_to_save = lambda suggested: answers.files.popleft()
    dialogs.picture_to_save = lambda suggested: answers.files.popleft()
    dialogs.model_to_save = lambda suggested: answers.files.popleft()
    dialogs.take_off_to_save = lambda suggested: answers.files.popleft()
    dialogs.model_content = lambda with_layers: (
        answers.layers.popleft() if answers.layers else False
    )
    dialogs.offer_wanted = lambda suggested, today: answers.files.popleft()
    dialogs.release_wanted = lambda what, against, today: answers.files.popleft()
    dialogs.handover_to_save = lambda suggested: answers.files.popleft()
    dialogs.written = lambda what, folder: answers.written.append((what, folder))
    dialogs.pack_to_save = lambda suggested: answers.files.popleft()
    dialogs.survey_sheet_to_save = lambda suggested: answers.files.popleft()
    dialogs.folder_for_drawings = lambda suggested, title: answers.files.popleft()
    dialogs.leave = lambda name: answers.leave.popleft()
    dialogs.changed = lambda name: answers.changed.popleft()
    dialogs.recovery = lambda left: answers.recovery.popleft()
    dialogs.refusal = lambda what, why: answers.refusals.append(f"{what} {why}")
