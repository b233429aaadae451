"""Corners are clicked in a photograph, dragged, and the roof follows; all of it by hand."""

import shutil

import numpy as np
import pytest

from tests.photographs import taken

pytestmark = pytest.mark.desktop
SIZE = (640, 480)


class Refusals(list):
    """Takes what is said to the user."""

    def refusal(self, *words):
        self.append(words)


@pytest.fixture
def page(sample, tmp_path, qtbot):
    """The page alone, of a job that is in a file and has one photograph."""
    from PIL import Image

    from roofmodel.desktop.job.open_job import OpenJob
    from roofmodel.desktop.show.photo_page import PhotoPage

    path = tmp_path / "hipped.roofjob.json"
    shutil.copy(taken.SAMPLES / "hipped.roofjob.json", path)
    made = PhotoPage(OpenJob(sample("hipped"), path=path), Refusals())
    qtbot.addWidget(made)
    made.resize(1000, 600)
    made.show()
    house = tmp_path / "house.png"
    Image.fromarray(np.full((*SIZE[::-1], 3), 128, dtype=np.uint8)).save(house)
    made.add(house)
    yield made
    made.close_down()


@pytest.fixture
def photo():
    return taken.taken(
        taken.roof_of("hipped"), turned_deg=-25.0, away_mm=8_000.0, focal_px=500.0, size=SIZE
    )


def click_all(page, photo, qtbot, hand):
    for name, spot in photo.spots.items():
        corners = page.bar.corners
        corners.setCurrentIndex(corners.findData(name))
        hand(page.canvas, page.canvas.at(tuple(spot)))


def press(qtbot):
    from PySide6.QtCore import Qt

    def hand(widget, at):
        qtbot.mouseClick(widget, Qt.MouseButton.LeftButton, pos=at.toPoint())

    return hand


def test_clicks_by_hand_place_the_photograph(page, photo, qtbot):
    click_all(page, photo, qtbot, press(qtbot))
    entered = page._open_job.job.photos[0]

    assert {one.corner for one in entered.clicks} == set(photo.spots)
    away = np.linalg.norm(np.array(page.desk.placed.camera.eye) - photo.eye)
    assert away < 1_500.0  # whole pixels of the widget
    assert page.desk.lines()


def test_a_ring_dragged_moves_the_roof_at_once_and_is_entered_when_let_go(page, photo, qtbot):
    from PySide6.QtCore import QPoint, Qt

    click_all(page, photo, qtbot, press(qtbot))
    job = page._open_job.job
    lines = page.desk.lines()
    start = page.canvas.at(page.canvas._rings["P"]).toPoint()
    qtbot.mousePress(page.canvas, Qt.MouseButton.LeftButton, pos=start)
    qtbot.mouseMove(page.canvas, start + QPoint(0, -9))

    assert page._open_job.job is job
    assert page.desk.lines() != lines
    qtbot.mouseRelease(page.canvas, Qt.MouseButton.LeftButton, pos=start + QPoint(0, -9))
    assert page._open_job.job is not job
    page._open_job.undo()
    assert page._open_job.job.photos[0].clicks == job.photos[0].clicks


def test_a_brush_is_entered_and_a_wrong_file_is_refused(page, qtbot, tmp_path):
    from PySide6.QtCore import QPoint, Qt

    from roofmodel.desktop.show.photo_canvas import Tool

    page.bar.take(Tool.FRONT)
    middle = page.canvas.rect().center()
    qtbot.mousePress(page.canvas, Qt.MouseButton.LeftButton, pos=middle)
    qtbot.mouseMove(page.canvas, middle + QPoint(20, 0))
    qtbot.mouseRelease(page.canvas, Qt.MouseButton.LeftButton, pos=middle + QPoint(20, 0))
    assert [stroke.fills for stroke in page._open_job.job.photos[0].strokes] == [False]

    words = tmp_path / "words.jpg"
    words.write_text("no picture")
    page.add(words)
    assert "not a photograph" in str(page._dialogs[-1])
    assert len(page._open_job.job.photos) == 1
