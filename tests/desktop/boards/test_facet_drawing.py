"""Boards as they lie on the chosen facet."""

import threading

import pytest
import shapely

from roofmodel.cutting.nesting.nest import Effort
from roofmodel.foundation.errors import CuttingError
from roofmodel.workbench.job import reckoning
from tests.desktop import hands

pytestmark = pytest.mark.desktop


PATIENCE_MS = 20_000


@pytest.fixture
def slow_cut(monkeypatch):
    """Let plans take until the test says so; return what was asked for and the release."""

    class Slow:
        def __init__(self):
            self.go_on = threading.Event()
            self.asked = []
            self.stopped = []

        def __call__(self, drawn, *, only, progress, cancelled, settled=None):
            layer = next(one for one in drawn.option.sheets if one.number in only)
            self.asked.append((layer.good.short, drawn.job.survey.width_mm))
            progress(layer.good, 6, 5)
            while not self.go_on.wait(0.01):
                if cancelled() or (settled is not None and settled()):
                    self.stopped.append(layer.good.short)
                    raise CuttingError("Stopped.")
            return real_cut(drawn, only=only, effort=Effort.QUICK)

    real_cut = reckoning.cut
    slow = Slow()
    monkeypatch.setattr(reckoning, "cut", slow)
    yield slow
    slow.go_on.set()


def choose(window, row):
    table = window.cutting_panel.figures.table
    hands.click(table.viewport(), table.visualItemRect(table.item(row, 0)).center())


def test_boards_are_laid_at_once_for_the_chosen_layer(open_window):
    window = open_window("lean-to")
    drawing = window.cutting_panel.facet_drawing
    assert drawing.shown.material == "OSB18"

    choose(window, 0)

    assert drawing.shown.material == "PB12"
    assert window.cutting_panel.material.currentText().startswith("Gypsum")
    # Joints of the lining are free: 2400 and the rest, three courses of 1200 up 2899.
    assert [(board.course, board.position) for board in drawing.shown.boards] == [
        (1, 1), (1, 2), (2, 1), (2, 2), (3, 1), (3, 2),
    ]  # fmt: skip


def test_insulation_between_the_bars_is_shown_bay_by_bay(open_window):
    window = open_window("lean-to")
    bays = window.open_job.drawn.option.refit.bays

    choose(window, 1)

    shown = window.cutting_panel.facet_drawing.shown
    assert shown.material == "PIR75"
    assert len(shown.pieces) == len(bays) > 1
    assert not shown.boards
    assert len(shown.bars_mm) == len(window.open_job.drawn.members.of_facet("F1").layout.centres_mm)


def test_once_there_is_a_plan_its_own_pieces_are_shown(open_window, qtbot, slow_cut):
    slow_cut.go_on.set()
    window = open_window("lean-to")
    window.cutting_run.begin()
    qtbot.waitUntil(lambda: window.cutting_run.plans is not None, timeout=PATIENCE_MS)

    plan = window.cutting_run.by_layer[window.cutting_panel.layer.number]
    shown = window.cutting_panel.facet_drawing.shown
    assert len(shown.pieces) == plan.pieces
    area = sum(shapely.Polygon(piece.corners_mm).area for piece in shown.pieces) / 1e6
    assert area == pytest.approx(plan.pieces_area_m2, abs=1e-3)
    # Each lies where the plan puts it: on the facet, and on no other piece.
    together = shapely.union_all([shapely.Polygon(piece.corners_mm) for piece in shown.pieces])
    assert together.area / 1e6 == pytest.approx(area, abs=2e-3)
