"""Boards as they lie on the chosen facet."""

import pytest
import shapely

from tests.desktop import hands

pytestmark = pytest.mark.desktop


def choose(window, row):
    table = window.cutting_panel.figures.table
    hands.click(table.viewport(), table.visualItemRect(table.item(row, 0)).center())


def test_boards_are_laid_at_once_for_the_chosen_layer(open_window):
    window = open_window("lean-to")
    window.stages.bring(window.cutting_panel)
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
    window.stages.bring(window.cutting_panel)
    bays = window.open_job.drawn.option.refit.bays

    choose(window, 1)

    shown = window.cutting_panel.facet_drawing.shown
    assert shown.material == "PIR75"
    assert len(shown.pieces) == len(bays) > 1
    assert not shown.boards
    assert len(shown.bars_mm) == len(window.open_job.drawn.members.of_facet("F1").layout.centres_mm)


def test_once_there_is_a_plan_its_own_pieces_are_shown(open_window, plan_now):
    window = open_window("lean-to")
    window.stages.bring(window.cutting_panel)
    plan_now(window)

    plan = window.cutting_run.by_layer[window.cutting_panel.layer.number]
    shown = window.cutting_panel.facet_drawing.shown
    assert len(shown.pieces) == plan.pieces
    area = sum(shapely.Polygon(piece.corners_mm).area for piece in shown.pieces) / 1e6
    assert area == pytest.approx(plan.pieces_area_m2, abs=1e-3)
    # Each lies where the plan puts it: on the facet, and on no other piece.
    together = shapely.union_all([shapely.Polygon(piece.corners_mm) for piece in shown.pieces])
    assert together.area / 1e6 == pytest.approx(area, abs=2e-3)
