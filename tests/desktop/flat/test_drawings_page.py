"""Drawings, measuring and exports under a real mouse."""

import importlib.util
import json
import struct

import pytest
from PySide6.QtCore import QPoint, Qt

from roofmodel.desktop.flat import plan_picture
from roofmodel.desktop.flat.drawings_page import Sheet
from tests.desktop import hands

pytestmark = pytest.mark.desktop

CTRL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier

RIDGE_END, FRONT_CORNER = (1750.0, 1850.0, 816.0), (1025.1, 3600.0, 0.0)
"""Both ends of a hip of the three-facet end; 816.0 is half of 3 500 at 25°."""


@pytest.fixture
def drawings(open_window):
    """Return a function that opens a job with the drawings page in front."""

    def show(name, sheet=Sheet.PLAN):
        window = open_window(name)
        hands.turn_to(window, window.drawings_page)
        if sheet is not Sheet.PLAN:
            hands.click(window.drawings_page.sheets[sheet])
        return window

    return show


def painted(view, qtbot):
    """Wait until the 3D view shows what was asked for."""
    frames = view.frames
    view.ask_for_frame()
    qtbot.waitUntil(lambda: view.frames > frames)


def in_view(window, corner):
    (spot,) = window.view_panel.viewport.spots([corner])
    return spot


def in_plan(window, corner):
    return window.drawings_page.plan.spot(plan_picture.on_paper(*corner[:2]))


def test_the_tab_brings_the_plan_and_its_buttons_the_other_drawings(drawings):
    window = drawings("double-hip")
    page = window.drawings_page
    assert page.isVisible()
    assert page.plan.picture.title == "Plan"
    assert not page.view.isVisible()

    for sheet, title in (
        (Sheet.FRONT, "Front elevation"),
        (Sheet.LEFT, "Left elevation"),
        (Sheet.RIGHT, "Right elevation"),
        (Sheet.REAR, "Rear elevation, house not shown"),
    ):
        hands.click(page.sheets[sheet])
        assert page.view.isVisible()
        assert not page.plan.isVisible()
        assert page.view.picture.title == title

    hands.click(page.sheets[Sheet.SECTION])
    assert page.plan.isVisible()
    assert page.view.isVisible()


def test_two_corners_clicked_in_the_3d_view_give_the_length_of_the_hip(open_window, qtbot):
    window = open_window("three-facet-end")
    view = window.view_panel.viewport
    hands.click(window.view_panel.measure)
    painted(view, qtbot)

    hands.click(view.widget, in_view(window, RIDGE_END) + QPoint(4, -5))
    hands.click(view.widget, in_view(window, FRONT_CORNER) + QPoint(-6, 3))

    assert "true 2062.5" in view.mark.words
    assert "true 2062.5" in window.statusBar().currentMessage()
    # 25° up the facet is atan(tan 25° · cos 22.5°) = 23.31° up the hip.
    assert "pitch 23.31°" in view.mark.words
    assert window.open_job.facet.name == "F1"


def test_escape_clears_the_dimension_and_then_ends_measuring(open_window, qtbot):
    window = open_window("three-facet-end")
    view = window.view_panel.viewport
    hands.click(window.view_panel.measure)
    painted(view, qtbot)
    hands.click(view.widget, in_view(window, RIDGE_END))
    hands.click(view.widget, in_view(window, FRONT_CORNER))
    assert view.mark.words

    hands.press(window, Qt.Key.Key_Escape)
    assert view.mark.words == ""
    assert window.view_panel.measure.isChecked()

    hands.press(window, Qt.Key.Key_Escape)
    assert not window.view_panel.measure.isChecked()


def test_a_click_far_from_every_corner_takes_none_and_picks_no_facet(open_window, qtbot):
    window = open_window("hipped")
    view = window.view_panel.viewport
    hands.click(window.view_panel.measure)
    painted(view, qtbot)

    hands.click(view.widget, view.spot_of("F3"))

    assert window.measuring.taken == ()
    assert window.open_job.facet.name == "F1"
    assert "click closer" in window.statusBar().currentMessage()


def test_the_plan_measures_the_same_hip(drawings):
    window = drawings("three-facet-end")
    page = window.drawings_page
    hands.click(page.measure)

    hands.click(page.plan, in_plan(window, RIDGE_END))
    hands.click(page.plan, in_plan(window, FRONT_CORNER))

    assert window.measuring.dimension.true_mm == pytest.approx(2062.5, abs=0.05)
    assert "true 2062.5" in page.corner_choice.figures.text()
    assert "true 2062.5" in window.view_panel.viewport.mark.words


def test_corners_can_be_chosen_by_keyboard(drawings):
    window = drawings("lean-to")
    page = window.drawings_page
    hands.click(page.measure)
    first, second = page.corner_choice.lists

    first.setFocus()
    hands.press(window, Qt.Key.Key_Down)
    second.setFocus()
    hands.press(window, Qt.Key.Key_Down)
    hands.press(window, Qt.Key.Key_Down)

    assert window.measuring.taken == (0, 1)


def test_a_dimension_follows_an_edit_of_the_roof(drawings):
    window = drawings("lean-to")
    hands.click(window.drawings_page.measure)
    hands.click(window.drawings_page.plan, in_plan(window, (0.0, 2800.0)))
    hands.click(window.drawings_page.plan, in_plan(window, (4000.0, 2800.0)))
    assert window.measuring.dimension.true_mm == pytest.approx(4000.0)

    hands.overtype(window.survey_panel.fields["width_mm"].edit, "4200")

    assert window.measuring.dimension.true_mm == pytest.approx(4200.0)


def test_the_first_section_of_a_lean_to_shows_fifteen_degrees(drawings):
    page = drawings("lean-to", Sheet.SECTION).drawings_page

    words = [stroke.words for stroke in page.view.picture.strokes if stroke.words]

    assert len(words) == 1
    assert "15.0°" in words[0][0]
    assert [edit.text() for edit in page.section_fields.edits] == ["2000", "2800", "2000", "0"]


def test_a_section_line_is_dragged_on_the_plan(drawings):
    window = drawings("hipped", Sheet.SECTION)
    page = window.drawings_page
    start, end = (in_plan(window, at) for at in ((2900.0, 1700.0), (100.0, 1700.0)))

    hands.drag(page.plan, start, ((end - start).toPoint().x(), 0))

    (x1, y1), (x2, y2) = page.section_line
    pixel_mm = 1.0 / page.plan.place.scale
    assert (x1, x2) == pytest.approx((2900.0, 100.0), abs=2 * pixel_mm)
    assert y1 == pytest.approx(y2)
    names = [stroke.words[1].split()[0] for stroke in page.view.picture.strokes if stroke.words]
    assert names == ["F3", "F1"]


def test_a_section_line_is_typed_and_put_back_through_the_middle(drawings):
    window = drawings("hipped", Sheet.SECTION)
    page = window.drawings_page

    hands.overtype(page.section_fields.edits[0], "900")
    assert page.section_line == ((900.0, 3400.0), (1500.0, 0.0))

    hands.overtype(page.section_fields.edits[0], "9o0")
    assert "not a number" in page.section_fields.remark.text()

    hands.click(page.section_fields.middle)
    assert page.section_line is None
    assert page.section_fields.edits[0].text() == "1500"


def test_a_section_beside_the_roof_says_so(drawings):
    page = drawings("hipped", Sheet.SECTION).drawings_page

    for edit in (page.section_fields.edits[0], page.section_fields.edits[2]):
        hands.overtype(edit, "9000")

    assert page.view.picture is None
    assert "does not cross the roof" in page.view.why_not


def test_pointing_at_a_line_tells_its_true_length(drawings):
    window = drawings("three-facet-end")
    plan = window.drawings_page.plan
    middle = (in_plan(window, RIDGE_END) + in_plan(window, FRONT_CORNER)) / 2.0

    hands.QTest.mouseMove(window.windowHandle(), hands.spot(plan, middle))

    assert "true 2062.5" in plan.note


def test_out_of_square_is_greyed_with_its_reason_where_there_is_no_square(drawings):
    page = drawings("three-facet-end").drawings_page

    assert not page.askew.isEnabled()
    assert "this one has 6" in page.askew.toolTip()


def test_out_of_square_shows_the_surveyed_corners(drawings):
    page = drawings("surveyed-lean-to").drawings_page
    assert page.plan.deviations == ()

    hands.click(page.askew, QPoint(8, page.askew.height() // 2))

    assert [d.name for d in page.plan.deviations] == ["A", "B", "C", "D"]
    # The sides differ by some 65 mm in projection: half of it each way.
    assert page.plan.deviations[2].text.endswith("33 out")


def test_a_model_is_written_and_can_be_read(open_window, answers, tmp_path):
    window = open_window("three-facet-end")
    answers.files.append(tmp_path / "roof")

    hands.press(window, Qt.Key.Key_E, CTRL | SHIFT)

    data = (tmp_path / "roof.glb").read_bytes()
    magic, version, length = struct.unpack("<4sII", data[:12])
    assert (magic, version, length) == (b"glTF", 2, len(data))
    size = struct.unpack("<I", data[12:16])[0]
    assert json.loads(data[20 : 20 + size])["meshes"]
    assert "written" in window.statusBar().currentMessage()
    assert window.exports._preferences.export_folder == tmp_path


@pytest.mark.parametrize("ending", [".stl", ".obj"])
def test_other_models_follow_the_ending(open_window, answers, tmp_path, ending):
    window = open_window("gable")
    answers.files.append(tmp_path / f"roof{ending}")

    window.exports.export_model()

    assert (tmp_path / f"roof{ending}").stat().st_size > 100


def test_ifc_is_written_or_refused_with_what_is_missing(open_window, answers, tmp_path):
    window = open_window("gable")
    answers.files.append(tmp_path / "roof.ifc")

    window.exports.export_model()

    if importlib.util.find_spec("ifcopenshell") is None:
        assert "optional library" in answers.refusals[0]
    else:
        assert (tmp_path / "roof.ifc").read_bytes().startswith(b"ISO-10303-21")


def test_an_unknown_ending_is_refused_in_words(open_window, answers, tmp_path):
    window = open_window("gable")
    answers.files.append(tmp_path / "roof.xyz")

    window.exports.export_model()

    assert "not a model format" in answers.refusals[0]
    assert not list(tmp_path.glob("*.xyz"))


def test_a_folder_that_is_gone_is_refused_in_words(open_window, answers, tmp_path):
    window = open_window("gable")
    answers.files.append(tmp_path / "gone" / "roof.glb")

    window.exports.export_model()

    assert answers.refusals[0].startswith("No model was written.")


def test_the_survey_sheet_is_written_as_pdf(open_window, answers, tmp_path):
    window = open_window("lean-to")
    answers.files.append(tmp_path / "sheet")

    window.exports.write_survey_sheet()

    data = (tmp_path / "sheet.pdf").read_bytes()
    assert data.startswith(b"%PDF-")
    assert b"%%EOF" in data[-64:]


def test_a_plan_lettered_from_its_own_roof_has_a_sheet_too(open_window, answers, tmp_path):
    window = open_window("wing")
    answers.files.append(tmp_path / "sheet.pdf")

    window.exports.write_survey_sheet()

    assert not answers.refusals
    assert (tmp_path / "sheet.pdf").read_bytes().startswith(b"%PDF")


def test_an_edit_made_behind_another_page_is_drawn_when_the_page_comes_back(drawings):
    window = drawings("lean-to", Sheet.FRONT)
    page = window.drawings_page
    hands.turn_to(window, window.cutting_panel)
    assert not page.isVisible()

    hands.overtype(window.survey_panel.fields["width_mm"].edit, "4300")
    hands.turn_to(window, page)

    widths = [o.end - o.start for o in page.view.picture.overalls if o.name == "width"]
    assert widths == pytest.approx([4300.0])
