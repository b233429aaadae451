"""The roof peeled layer by layer, layers in a model, and a view that starts afresh."""

import pytest
import trimesh
from PySide6.QtCore import Qt

from roofmodel.foundation import resources
from roofmodel.workbench.job import layers
from tests.desktop import hands

pytestmark = pytest.mark.desktop


def test_layers_are_peeled_from_the_covering_down_to_the_bars(open_window):
    window = open_window("lean-to")
    view = window.view_panel

    hands.click(view.peel)

    peeled, drawn = view.viewport.peeled, window.open_job.drawn
    names = [one.placed.material.name for one in layers.of_option(drawn.option)]
    assert [name.partition(" ")[2] for name in peeled.shown[1:]] == names
    assert view.peel_bar.words.text() == f"9 {names[-1]}"
    assert not view.viewport.scene.facets.actor.GetVisibility()
    view.peel_bar.slider.setFocus()
    hands.press(view.peel_bar.slider, Qt.Key.Key_End)
    assert peeled.shown == ["bars"]
    assert view.peel_bar.words.text() == "bars"
    hands.click(view.peel_bar.outer)
    assert len(peeled.shown) == 2


def test_without_peeling_the_roof_is_as_before(open_window):
    window = open_window("lean-to")
    view = window.view_panel
    before = view.viewport.labels.texts

    hands.press(window, Qt.Key.Key_L, Qt.KeyboardModifier.ControlModifier)
    assert view.peel_bar.isVisible()
    hands.press(window, Qt.Key.Key_L, Qt.KeyboardModifier.ControlModifier)

    assert view.viewport.peeled.shown == []
    assert view.viewport.scene.facets.actor.GetVisibility()
    assert view.viewport.labels.texts == before


def test_bodies_follow_an_edit_after_a_pause(open_window, qtbot):
    window = open_window("lean-to")
    window.view_panel.peel.setChecked(True)
    bar = window.view_panel.peel_bar
    made = bar._bodies

    hands.overtype(window.survey_panel.fields["width_mm"].edit, "4300")

    qtbot.waitUntil(lambda: bar._bodies is not made, timeout=5_000)
    skin = next(one for one in bar._bodies if one.name.startswith("2 "))
    assert skin.body.points[:, 0].max() == pytest.approx(4300.0)


def test_no_bodies_are_made_while_nothing_is_peeled(open_window, monkeypatch):
    window = open_window("lean-to")

    def must_not(option):
        raise AssertionError("bodies were made on the way of an edit")

    monkeypatch.setattr(layers, "of_option", must_not)
    hands.overtype(window.survey_panel.fields["width_mm"].edit, "4300")

    assert window.open_job.job.survey.width_mm == 4300


def test_another_job_is_looked_at_afresh(open_window):
    window = open_window("lean-to")
    viewport = window.view_panel.viewport
    hands.drag(viewport.widget, viewport.widget.rect().center(), (120, 40))
    turned = viewport.eye
    window.view_panel.peel.setChecked(True)

    window.job_files.open_sample(resources.sample_roofs() / "lantern.roofjob.json")

    assert not window.view_panel.peel.isChecked()
    assert viewport.stand is not None
    assert viewport.eye != turned
    assert len(viewport.labels.texts) == len(window.open_job.drawn.roof.facets)


def test_layers_go_into_a_model_and_the_choice_is_remembered(open_window, answers, tmp_path):
    window = open_window("lean-to")
    answers.files.extend([tmp_path / "layers.glb", tmp_path / "roof.glb"])
    answers.layers.extend([True, False])

    window.exports.export_model()
    assert window._preferences.choice("files/model_with_layers", default=False)
    window.exports.export_model()

    made = trimesh.load_scene(tmp_path / "layers.glb")
    assert len(made.geometry) == len(window.open_job.drawn.option.refit.layers)
    assert "F1" in trimesh.load_scene(tmp_path / "roof.glb").geometry
    assert not window._preferences.choice("files/model_with_layers", default=True)


def test_no_button_of_the_view_is_cut_short_in_a_narrow_window(open_window, qtbot):
    window = open_window("lean-to")
    window.resize(900, 620)
    view = window.view_panel
    buttons = [*view.stands.values(), view.fit, view.measure, view.peel]

    qtbot.waitUntil(lambda: all(b.width() >= b.sizeHint().width() for b in buttons))

    boxes = [button.geometry() for button in buttons]
    assert not any(a.intersects(b) for i, a in enumerate(boxes) for b in boxes[:i])
    assert all(view.rect().contains(box) for box in boxes)
