"""The build-up edited in the window: what the job became, and what is refused in words."""

import pytest
from PySide6.QtCore import Qt

from roofmodel.desktop.path.stage import Stage
from roofmodel.drawings.views import stack_section
from roofmodel.refit import stack
from roofmodel.refit.entry import Counting
from roofmodel.refit.layer import Lie, Zone
from roofmodel.refit.method import Method
from roofmodel.survey.taped.standing import Glazing
from tests.desktop import hands

pytestmark = pytest.mark.desktop

ALT = Qt.KeyboardModifier.AltModifier
CTRL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def layers(open_window):
    """Return a function that opens a sample on the page of layers."""

    def show(job="lean-to"):
        window = open_window(job)
        window.resize(1400, 950)
        hands.turn_to(window, window.layers_page)
        return window, window.layers_page

    return show


def stack_of(window):
    job = window.open_job.job
    return job.refit.layers_of(job.refit.method)


def select(editor, row):
    table = editor.table
    table.scrollToItem(table.item(row, 1))
    hands.click(table.viewport(), table.visualItemRect(table.item(row, 1)).center())


def own(method=Method.BUILD_ROUND):
    return stack.shipped()[method].layers


def test_the_table_lists_the_layers_from_the_room_outwards(layers):
    _, page = layers()
    table = page.editor.table

    shown = [table.item(row, 1).text() for row in range(table.rowCount())]
    assert len(shown) == len(own())
    assert shown[0] == "Board-finish plaster"
    # What comes from the catalogue is told apart from what the method or the job says.
    assert table.item(1, 4).font().italic()
    assert not table.item(0, 4).font().italic()


def test_a_layer_is_moved_by_keys_and_the_move_is_taken_back(layers):
    window, page = layers()
    select(page.editor, 3)

    hands.press(page.editor.table, Qt.Key.Key_Down, ALT)

    moved = [layer.material for layer in stack_of(window)]
    assert moved[3:5] == ["TIM-B25", "INS-MF30"]
    assert page.editor.number == 5
    hands.press(window, Qt.Key.Key_Z, CTRL)
    assert stack_of(window) is None


def test_a_layer_does_not_move_out_of_its_zone_and_the_reason_is_told(layers):
    window, page = layers()
    select(page.editor, 4)

    page.editor.down.click()

    assert stack_of(window) is None
    assert "from the room outwards" in page.editor.remark.text()
    assert page.editor.remark.isVisible()
    hands.press(window, Qt.Key.Key_Z, CTRL)
    assert not page.editor.remark.isVisible()


def test_a_layer_is_added_given_a_material_and_taken_out(layers):
    window, page = layers()
    select(page.editor, 3)
    page.editor.add.click()
    assert len(stack_of(window)) == len(own()) + 1
    fields = page.editor.fields

    place = fields.material.findData("INS-PIR50")
    fields.material.setCurrentIndex(place)
    fields.material.activated.emit(place)

    added = stack_of(window)[4]
    assert (added.material, added.zone, added.lie) == ("INS-PIR50", Zone.ROOM, Lie.OVER)
    page.editor.table.setFocus()
    hands.press(page.editor.table, Qt.Key.Key_Delete)
    # Nothing differs from the method any more, so nothing is kept of it.
    assert [layer.material for layer in stack_of(window) or own()].count("INS-PIR50") == 0


def test_a_thickness_that_cannot_be_is_refused_at_its_field(layers):
    window, page = layers()
    select(page.editor, 5)
    edit = page.editor.fields.thickness.edit

    hands.overtype(edit, "900")

    assert stack_of(window) is None
    assert "900 mm thick is not possible" in page.editor.remark.text()
    assert edit.property("mark") == "stop"
    hands.overtype(edit, "100")
    assert stack_of(window)[5].thickness_mm == 100
    assert "is not possible" not in page.editor.remark.text()
    assert edit.property("mark") != "stop"
    hands.overtype(edit, "")
    assert stack_of(window) is None


def test_what_is_laid_between_the_bars_goes_into_their_zone(layers):
    window, page = layers()
    select(page.editor, 3)
    lie = page.editor.fields.lie

    place = lie.findData(Lie.BETWEEN)
    lie.setCurrentIndex(place)
    lie.activated.emit(place)

    changed = stack_of(window)
    assert [layer.zone for layer in changed].count(Zone.BARS) == 2
    # It went to the nearest place of that zone and is still the one that is selected.
    assert changed[page.editor.number - 1].material == "INS-MF30"


def test_battens_across_the_bars_ask_for_their_spacing(layers):
    window, page = layers()
    select(page.editor, 4)
    lie = page.editor.fields.lie
    place = lie.findData(Lie.ACROSS)
    lie.setCurrentIndex(place)
    lie.activated.emit(place)
    assert "at no spacing" in page.editor.remark.text()

    hands.overtype(page.editor.fields.spacing.edit, "450")

    assert stack_of(window)[4].spacing_mm == 450
    assert stack_of(window)[4].lie is Lie.ACROSS


def test_an_unknown_material_is_refused_in_words(layers):
    window, page = layers()
    select(page.editor, 6)
    edit = page.editor.fields.material.lineEdit()

    hands.overtype(edit, "unobtainium")

    assert stack_of(window) is None
    assert "There is no material “unobtainium”" in page.editor.remark.text()


def test_back_to_the_methods_own_layers(layers):
    window, page = layers()
    page.editor.remove.click()
    assert len(stack_of(window)) == len(own()) - 1

    page.editor.own.click()

    assert stack_of(window) is None
    assert not page.editor.own.isEnabled()


def test_the_section_follows_the_layers(layers):
    window, page = layers()
    refit = window.open_job.drawn.option.refit
    section = page.picture.section

    assert section.inside_mm == refit.depth_inside_mm
    assert len(section.bands) == len(refit.layers)
    before = section.outside_mm
    select(page.editor, 6)
    hands.overtype(page.editor.fields.thickness.edit, "30")
    assert page.picture.section.outside_mm == pytest.approx(before + 30.0 - 18.0)
    assert section == stack_section.of_refit(refit)


def test_exceptions_are_entered_and_refused_in_words(layers):
    window, page = layers()
    page.sides.setCurrentIndex(1)
    form = page.exceptions

    hands.overtype(form.fields["bearers_per_bay"].edit, "1")
    hands.overtype(form.fields["fitting_gap_mm"].edit, "8,5")
    assert window.open_job.job.refit.bearers_per_bay == 1
    assert window.open_job.job.refit.fitting_gap_mm == 8.5
    hands.overtype(form.fields["fitting_gap_mm"].edit, "80")
    assert window.open_job.job.refit.fitting_gap_mm == 8.5
    assert "out of range" in form.fields["fitting_gap_mm"].remark.text()
    hands.overtype(form.fields["fitting_gap_mm"].edit, "6")
    form.choices["counting"].activated.emit(1)
    assert window.open_job.job.refit.counting is list(Counting)[1]


def test_a_facet_stays_glazed_and_comes_back(layers):
    window, page = layers("three-facet-end")
    page.sides.setCurrentIndex(1)

    page.kept_glazed.boxes["F2"].setChecked(True)

    assert window.open_job.job.refit.kept_glazed == ("F2",)
    window.open_job.select("F2")
    window.stages.bring(window.cutting_panel)
    assert window.cutting_panel.facet_drawing.shown is None
    hands.press(window, Qt.Key.Key_Z, CTRL)
    assert not page.kept_glazed.boxes["F2"].isChecked()


def test_a_roof_window_is_added_changed_and_removed(layers):
    window, page = layers()
    page.sides.setCurrentIndex(1)
    page.windows.add.click()
    assert window.open_job.job.refit.roof_windows[0].facet == "F1"

    page.windows.edits["width_mm"].setText("900")
    page.windows.edits["width_mm"].typed.emit("900")

    assert window.open_job.job.refit.roof_windows[0].width_mm == 900
    narrow = page.windows.material.findData("WIN-ROOF-47")
    page.windows.material.setCurrentIndex(narrow)
    page.windows.material.activated.emit(narrow)
    assert window.open_job.job.refit.roof_windows[0].material == "WIN-ROOF-47"
    page.windows.edits["width_mm"].typed.emit("900")
    page.windows.edits["height_mm"].setText("10")
    page.windows.edits["height_mm"].typed.emit("10")
    assert "out of range" in page.windows.remark.text()
    assert window.open_job.job.refit.roof_windows[0].height_mm == 780
    page.windows.remove.click()
    assert window.open_job.job.refit.roof_windows == ()


def test_what_stands_there_is_entered(layers):
    window, page = layers()
    page.sides.setCurrentIndex(2)

    hands.overtype(page.standing.fields["bar_depth_mm"].edit, "63")
    page.standing.choices["glazing"].activated.emit(2)

    assert window.open_job.job.standing.bar_depth_mm == 63
    assert window.open_job.job.standing.glazing is list(Glazing)[1]
    hands.overtype(page.standing.fields["bar_depth_mm"].edit, "")
    assert window.open_job.job.standing.bar_depth_mm is None


def test_lights_clash_and_take_the_offered_places(layers):
    window, page = layers()
    page.sides.setCurrentIndex(3)
    lights = page.lights
    lights.fields["per_bay"].edit.setText("2")
    lights.fields["per_bay"].edit.typed.emit("2")
    entry = window.open_job.job.lights[0]
    assert (entry.facet, entry.per_bay) == ("F1", 2)
    # With battens every 400 a body of 160 has bands 190 wide to be in: two a bay do not hit both.
    lights.fields["body_mm"].edit.setText("160")
    lights.fields["body_mm"].edit.typed.emit("160")
    report = lights.report
    assert report.clashes
    assert "it needs" in lights.said.text()
    assert "qualified electrician" in lights.cautions.text()

    lights.take.click()

    placed = window.open_job.job.lights[0]
    assert placed.per_bay is None
    assert len(placed.positions_mm) == len(report.wanted)
    assert lights.report.passes
    assert not lights.take.isEnabled()
    lights.none.click()
    assert window.open_job.job.lights == ()


def test_a_fitting_too_deep_is_told_with_its_remedy(layers):
    window, page = layers()
    page.sides.setCurrentIndex(3)
    page.lights.fields["per_bay"].edit.typed.emit("1")

    page.lights.fields["depth_mm"].edit.setText("60")
    page.lights.fields["depth_mm"].edit.typed.emit("60")

    assert window.open_job.job.lights[0].depth_mm == 60
    assert "pierce the foil" in page.lights.said.text()


def test_a_method_without_a_ceiling_says_so(layers):
    _, page = layers()
    page.sides.setCurrentIndex(3)

    page.editor.methods.buttons[Method.PANEL_SWAP].click()

    assert "does not include a ceiling" in page.lights.picture.why_not


def test_a_finding_about_the_build_up_leads_to_its_field(layers):
    window, page = layers()
    window.stages.go(Stage.START)

    assert window.lead_to("refit.fitting_gap_mm")

    assert page.isVisible()
    assert page.exceptions.isVisible()
