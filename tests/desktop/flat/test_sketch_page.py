"""A plan drawn with mouse and keys, as somebody does who sits beside the customer."""

import math

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from roofmodel.desktop.flat import plan_picture
from roofmodel.desktop.path.stage import Stage
from roofmodel.shapes.footprint import SideKind
from tests.desktop import hands

pytestmark = pytest.mark.desktop

ON_THE_WAY = [
    # where to point, (x, y) on plan, and the length that is typed there
    ((3000.0, 30.0), "5 m"),
    ((-40.0, 1500.0), "2500"),
    ((1000.0, 2530.0), "2000"),
    ((2030.0, 3500.0), "1,500"),
    ((4000.0, 4020.0), "3000"),
]


class Designer:
    """Counts what it does: a click, a value with Enter, a choice."""

    def __init__(self, window):
        self.window, self.page = window, window.sketch_page
        self.canvas, self.actions = self.page.canvas, 0

    def spot(self, plan):
        return self.canvas.place.at(plan_picture.on_paper(*plan))

    def point(self, plan):
        QTest.mouseMove(self.window.windowHandle(), hands.spot(self.canvas, self.spot(plan)))
        QApplication.processEvents()

    def click(self, widget, plan=None):
        self.actions += 1
        if plan is not None:
            self.point(plan)
        hands.click(widget, None if plan is None else self.spot(plan))

    def type_length(self, towards, text):
        self.actions += 1
        self.point(towards)
        hands.type_text(self.window, text)
        hands.press(self.window, Qt.Key.Key_Return)

    def draw_l(self):
        self.click(self.canvas, (5000.0, 0.0))
        for towards, text in ON_THE_WAY:
            self.type_length(towards, text)
        self.click(self.canvas, (5000.0, 10.0))


@pytest.fixture
def designer(open_window):
    window = open_window("lean-to")
    window.stages.go(Stage.START)
    QApplication.processEvents()
    return Designer(window)


def test_an_l_with_a_box_gutter_stands_after_at_most_fifteen_actions(designer, record_property):
    window, page = designer.window, designer.page
    designer.click(window.start_page.shapes["plan"])
    designer.draw_l()
    sides = window.open_job.job.survey.sides
    assert [(side.x_mm, side.y_mm) for side in sides] == [
        (5000.0, 0.0),
        (0.0, 0.0),
        (0.0, 2500.0),
        (2000.0, 2500.0),
        (2000.0, 4000.0),
        (5000.0, 4000.0),
    ]
    designer.click(designer.canvas, (5000.0, 2000.0))
    designer.click(page.kinds[SideKind.BOX_GUTTER])
    designer.canvas.pick(None)
    hands.overtype(page.every_pitch, "20")
    designer.actions += 1
    record_property("actions", designer.actions)
    assert designer.actions <= 15
    assert not window.open_job.stale
    roof = window.open_job.drawn.roof
    assert {side.kind for side in window.open_job.job.survey.sides} == {
        "house wall",
        "eaves",
        "box gutter",
    }
    # 5.0 × 2.5 m and 3.0 × 1.5 m, every facet at 20°
    assert roof.area_m2 == pytest.approx(17.0 / math.cos(math.radians(20.0)), rel=1e-6)


@pytest.fixture
def drawn(designer):
    designer.click(designer.window.start_page.shapes["plan"])
    designer.draw_l()
    return designer


def test_a_side_is_dragged_in_one_step_that_is_undone_at_once(drawn):
    job, before = drawn.window.open_job, drawn.window.open_job.job
    start, end = drawn.spot((3500.0, 4000.0)), drawn.spot((3500.0, 4500.0))
    hands.drag(drawn.canvas, start, (0, round(end.y() - start.y())))
    depth = job.job.survey.sides[4].y_mm
    assert depth == pytest.approx(4500.0, abs=60.0)
    assert job.job.survey.sides[5].y_mm == depth
    job.undo()
    assert job.job == before


def test_escape_takes_a_drag_back(drawn):
    job, before = drawn.window.open_job, drawn.window.open_job.job
    start = hands.spot(drawn.canvas, drawn.spot((3500.0, 4000.0)))
    handle = drawn.window.windowHandle()
    QTest.mousePress(handle, hands.LEFT, hands.NONE, start)
    for step in range(1, 5):
        QTest.mouseMove(handle, start + QPointF(0.0, 10.0 * step).toPoint())
        QApplication.processEvents()
    assert job.job != before
    hands.press(drawn.window, Qt.Key.Key_Escape)
    assert job.job == before
    QTest.mouseRelease(handle, hands.LEFT, hands.NONE, start)


def test_a_side_that_would_cross_is_refused_and_nothing_is_lost(designer):
    designer.click(designer.window.start_page.shapes["plan"])
    for plan in ((4000.0, 0.0), (0.0, 0.0), (0.0, 2000.0), (2000.0, 2000.0)):
        designer.click(designer.canvas, plan)
    designer.click(designer.canvas, (2000.0, -500.0))
    assert "cross side 1" in designer.page.hint.text()
    assert len(designer.canvas.corners) == 4
    for _ in range(50):
        designer.click(designer.canvas, (2000.0, -500.0))
    assert len(designer.canvas.corners) == 4


def test_a_picture_below_is_brought_to_scale_by_one_known_length(drawn, tmp_path):
    path = tmp_path / "sketch.png"
    image = QImage(400, 300, QImage.Format.Format_RGB32)
    image.fill(Qt.GlobalColor.lightGray)
    image.save(str(path))
    drawn.window.dialogs.picture_to_open = lambda kinds: path
    drawn.click(drawn.page.picture)
    under = drawn.canvas.under
    for plan in ((4000.0, 1000.0), (1000.0, 1000.0)):
        drawn.click(drawn.canvas, plan)
    hands.overtype(drawn.page.real, "6000")
    assert drawn.canvas.under.mm_per_px == pytest.approx(2.0 * under.mm_per_px, rel=0.01)


def test_a_measured_plan_stays_until_somebody_says_it_is_designed(open_window):
    window = open_window("surveyed-lean-to")
    hands.click(window.view_panel.sketch)
    page, job = window.sketch_page, window.open_job
    assert "was measured" in page.hint.text()
    before = job.job
    far = page.canvas.place.at(plan_picture.on_paper(1500.0, page.sides[2].y_mm))
    hands.drag(page.canvas, far, (0, 30))
    assert job.job == before
    hands.click(page.designed)
    assert not job.job.readings
    job.undo()
    assert job.job == before
