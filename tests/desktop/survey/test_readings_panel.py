"""What happens when someone types the readings of a survey sheet, and the bars."""

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt

from roofmodel.desktop.job import cutting_run
from roofmodel.survey.readings.reading import Basis
from roofmodel.survey.sheets import networks
from roofmodel.survey.taped.survey import LeanToSurvey
from tests import cases
from tests.desktop import hands

pytestmark = pytest.mark.desktop

CTRL = Qt.KeyboardModifier.ControlModifier
WRONG_BD, RIGHT_BD = "5176", "5076"
IN_ORDER = (
    *("4200", "2865", "4230", "2800"),
    *("", ""),  # the projections square off the wall were not read
    *("5080", WRONG_BD),
)


@pytest.fixture
def out_of_square(sample):
    """Return the out-of-square lean-to of the acceptance jobs, nothing read yet."""
    survey = LeanToSurvey(width_mm=4200, projection_mm=2800, eaves_height_mm=2100, pitch_deg=15)
    return replace(sample("lean-to"), survey=survey, readings=(), answers=(), bars=())


@pytest.fixture
def survey_window(open_window, out_of_square):
    """Return a window whose survey page is open."""
    window = open_window(out_of_square)
    hands.click(window.lamp)
    return window


def lamp(window):
    return window.lamp.shown


def row(window, name):
    return window.readings_panel.rows[name]


def first(window, name):
    return row(window, name).edits[0]


def said(window):
    return "\n".join(window.survey_checks.texts)


def read(window, name):
    return [one.value for one in window.open_job.job.readings if one.name == name]


def type_all(window):
    """Type the readings of the plan from the first field on, each with Enter."""
    hands.click(first(window, "AB"))
    for value in IN_ORDER:
        if value:
            hands.type_text(window, value)
        hands.press(window, Qt.Key.Key_Return)


def type_into(window, name, text, place=0):
    """Put the cursor into a line as a click on its finding does, then overtype it."""
    window.readings_panel.focus_line(name)
    edit = row(window, name).edits[place]
    edit.setFocus()
    hands.press(window, Qt.Key.Key_A, CTRL)
    if text:
        hands.type_text(window, text)
    else:
        hands.press(window, Qt.Key.Key_Delete)
    hands.press(window, Qt.Key.Key_Return)


def test_the_lamp_is_in_sight_and_opens_the_page(open_window, out_of_square):
    window = open_window(out_of_square)
    assert window.lamp.isVisible()
    assert (lamp(window).lamp, lamp(window).words) == ("grey", "No readings yet")
    assert not window.readings_panel.isVisible()

    hands.click(window.lamp)

    assert window.readings_panel.isVisible()
    assert list(window.readings_panel.rows)[:4] == ["AB", "BC", "CD", "DA"]


def test_a_wrong_diagonal_is_told_with_six_candidates_and_settled(survey_window):
    window = survey_window

    type_all(window)

    assert read(window, "BD") == [5176]
    assert lamp(window).lamp == "red"
    assert lamp(window).words == "Blocks cutting: second diagonal BD out by 99.6 mm"
    for name, would_be in {
        "BD": 5076.4,
        "AC": 4978.4,
        "AB": 4320.7,
        "BC": 3047.4,
        "CD": 4351.6,
        "DA": 2978.2,
    }.items():
        assert f"•  {name} {would_be} mm" in said(window)
        assert "more than as read" in said(window)
        assert first(window, name).property("mark") == "question"
    assert "What to read next" in said(window)
    assert "Read middle to C" in said(window)
    assert row(window, "BD").off.text().endswith("(±3.1)")

    type_into(window, "BD", RIGHT_BD)

    assert lamp(window).lamp == "grey"
    assert lamp(window).words == "Not yet checked: 6 readings"
    assert "could still hide in it" in said(window)
    assert "Read next: " in said(window)
    assert "boards will rock; shim the battens or taper the fascia" in said(window)
    assert "Pack up at the eaves, from the left: " in said(window)
    assert "•" not in said(window)
    assert not first(window, "BD").property("mark")


def test_enter_goes_to_the_next_line(survey_window):
    window = survey_window
    hands.click(first(window, "AB"))

    hands.type_text(window, "4,2 m")
    hands.press(window, Qt.Key.Key_Return)

    assert read(window, "AB") == [4200]
    assert first(window, "AB").text() == "4,2 m"
    assert first(window, "BC").hasFocus()


def test_a_doubtful_length_is_asked_and_never_changed(survey_window):
    window = survey_window

    type_into(window, "AB", "350")

    remark = row(window, "AB").remark
    assert remark.isVisible()
    assert remark.words.text() == "AB, 350: did you mean 3500 mm (350 cm)?"
    assert [button.text() for button in remark.buttons] == ["3500 mm", "350 mm is right"]
    assert first(window, "AB").text() == "350"
    assert first(window, "AB").hasFocus()
    assert read(window, "AB") == []
    assert lamp(window).lamp == "amber"

    hands.click(remark.buttons[0])

    assert read(window, "AB") == [3500]
    assert not remark.isVisible()
    assert first(window, "BC").hasFocus()


def test_a_question_does_not_make_a_blocked_survey_look_better(survey_window):
    window = survey_window
    type_all(window)

    type_into(window, "angle A", "ninety")
    type_into(window, "C off AB", "285")

    assert lamp(window).lamp == "red"
    hands.press(window, Qt.Key.Key_Z, CTRL)
    type_into(window, "C off AB", "285")
    assert lamp(window).lamp == "red"


def test_a_doubtful_length_may_be_right(survey_window):
    window = survey_window
    type_into(window, "BC", "900")

    button = row(window, "BC").remark.buttons[-1]
    window.readings_panel.form._scroll.ensureWidgetVisible(button)
    hands.click(button)

    assert read(window, "BC") == [900]


@pytest.mark.parametrize(
    ("name", "typed", "words"),
    [
        ("AB", "four", "“four”"),
        ("AB", "1.234,5", "where the decimals begin"),
        ("pitch CD to A", "95", "less than"),
        ("height D", "0", "A length must be more than 0"),
    ],
)
def test_what_cannot_be_read_stays_as_text(survey_window, name, typed, words):
    window = survey_window

    type_into(window, name, typed)

    assert words in row(window, name).remark.words.text()
    assert first(window, name).text() == typed
    assert window.open_job.job.readings == ()
    assert window.open_job.stale


def test_only_a_level_may_be_nothing_or_less(survey_window):
    window = survey_window

    type_into(window, "level DC", "0")
    type_into(window, "level DC", "-4", place=1)

    assert read(window, "level DC") == [0, -4]


def test_one_reading_is_one_step_of_undo(survey_window):
    window = survey_window
    type_into(window, "AB", "4200")
    type_into(window, "BC", "2865")
    type_into(window, "CD", "420")  # doubtful

    hands.press(window, Qt.Key.Key_Z, CTRL)
    assert first(window, "CD").text() == ""
    assert not row(window, "CD").remark.isVisible()
    hands.press(window, Qt.Key.Key_Z, CTRL)
    assert (first(window, "BC").text(), read(window, "AB")) == ("", [4200])
    hands.press(window, Qt.Key.Key_Z, CTRL)
    assert window.open_job.job.readings == ()
    assert not window.open_job.history.can_undo


def test_two_readings_that_differ_ask_for_a_third(survey_window):
    window = survey_window
    type_into(window, "AB", "4200")

    type_into(window, "AB", "4212", place=1)

    assert row(window, "AB").edits[2].isVisible()
    type_into(window, "AB", "4201", place=2)
    assert read(window, "AB") == [4200, 4212, 4201]


def test_only_the_wrong_one_of_two_readings_is_marked(survey_window):
    window = survey_window
    type_all(window)
    type_into(window, "BD", RIGHT_BD)

    type_into(window, "AB", "4290", place=1)

    assert "AB reads 4290.0 mm; if it is the only one " in said(window)
    assert [edit.property("mark") or "" for edit in row(window, "AB").edits] == ["", "stop", ""]


def test_an_emptied_field_takes_the_reading_out(survey_window):
    window = survey_window
    type_into(window, "AB", "4200")

    type_into(window, "AB", "")

    assert window.open_job.job.readings == ()


def test_sharpness_comes_from_the_tool_until_it_is_typed(survey_window):
    window = survey_window
    type_into(window, "AB", "4200")
    assert window.open_job.job.readings[0].standard_error == 3
    assert row(window, "AB").error.placeholderText() == "3"

    hands.overtype(row(window, "AB").error, "7,5")
    assert window.open_job.job.readings[0].standard_error == 7.5
    hands.overtype(row(window, "AB").error, "")

    assert window.open_job.job.readings[0].standard_error == 3


def test_an_assumed_value_is_less_sharp_and_stands_in_grey_italics(survey_window):
    window = survey_window
    type_into(window, "AB", "4200")
    row(window, "AB").basis.setFocus()

    hands.press(window, Qt.Key.Key_Down)

    (taken,) = window.open_job.job.readings
    assert (taken.basis, taken.standard_error) == (Basis.ASSUMED, 20)
    assert first(window, "AB").font().italic()
    hands.press(window, Qt.Key.Key_Z, CTRL)
    assert window.open_job.job.readings[0].basis is Basis.MEASURED
    assert not first(window, "AB").font().italic()


def test_lines_that_settle_a_doubt_wait_behind_their_tick(survey_window):
    window = survey_window
    assert not first(window, "middle to C").isVisible()

    hands.click(window.readings_panel.extra)

    assert not first(window, "middle to C").isHidden()


def test_a_choice_about_a_query_is_recorded_and_asked_again_after_a_new_reading(survey_window):
    window = survey_window
    type_all(window)
    type_into(window, "BD", "5105")  # 28.6 out, limit 10.4
    assert lamp(window).lamp == "amber"
    (title,) = window.survey_checks.answers
    field = window.survey_checks.answers[title]

    hands.overtype(field.edit, "Taped over a sagging bar; the sides count.")

    (answer,) = window.open_job.job.answers
    assert (answer.query, answer.choice) == (title, "Taped over a sagging bar; the sides count.")
    assert field.edit.text() == answer.choice

    type_into(window, "BD", "5106")

    assert window.open_job.job.answers == ()
    assert lamp(window).lamp == "amber"
    hands.press(window, Qt.Key.Key_Z, CTRL)
    assert window.open_job.job.answers == (answer,)


def test_nothing_is_cut_from_an_open_survey(survey_window, answers, qtbot, monkeypatch):
    window = survey_window
    type_all(window)

    window.cutting_run.begin()
    qtbot.waitUntil(lambda: not window.cutting_run.running, timeout=20_000)
    window.papers_out.export_drawings()

    assert window.cutting_run.states
    for state in window.cutting_run.states.values():
        assert isinstance(state, cutting_run.Failed)
        assert "The survey is open: second diagonal BD" in state.text
    (refusal,) = answers.refusals
    assert "The survey is open: second diagonal BD" in refusal


def test_another_shape_keeps_every_reading_and_the_old_one_gets_them_back(survey_window):
    window = survey_window
    type_into(window, "AB", "4200")
    type_into(window, "pitch CD to A", "15")
    window.survey_panel.shape.setFocus()

    hands.press(window.survey_panel.shape, Qt.Key.Key_G)  # Gable

    job = window.open_job.job
    assert [one.name for one in job.readings] == ["AB"]
    assert [one.name for group in job.kept_readings for one in group.readings] == ["pitch CD to A"]
    assert "not part of the fit: 1 reading." in window.survey_panel.readings.text()
    assert not window.readings_panel.set_aside.isVisible()
    assert not window.open_job.stale

    hands.press(window.survey_panel.shape, Qt.Key.Key_Up)  # back to Lean-to

    assert [one.name for one in window.open_job.job.readings] == ["AB", "pitch CD to A"]
    assert window.open_job.job.kept_readings == ()


def test_a_reading_without_a_line_from_a_file_can_be_kept_apart(survey_window):
    window = survey_window
    type_into(window, "AB", "4200")
    (one,) = window.open_job.job.readings
    stray = replace(one, name="chimney")
    window.open_job.enter(replace(window.open_job.job, readings=(one, stray)), form="readings")
    button = window.readings_panel.set_aside
    assert lamp(window).lamp == "red"
    assert button.text() == "Keep apart what has no line here (1)"

    hands.click(button)

    assert not button.isVisible()
    assert [one.name for one in window.open_job.job.readings] == ["AB"]
    kept = window.open_job.job.kept_readings
    assert [one.name for group in kept for one in group.readings] == ["chimney"]
    assert not window.open_job.stale


def bars_field(window, name, facet="F1"):
    return window.bars_panel.fields[facet, name]


@pytest.fixture
def bars_window(open_window, out_of_square):
    window = open_window(out_of_square)
    window.stages.bring(window.bars_panel)
    return window


def test_seven_bars_and_five_bays_contradict_each_other(bars_window):
    window = bars_window
    hands.overtype(bars_field(window, "width_mm"), "60")
    hands.overtype(bars_field(window, "bays"), "5")

    hands.overtype(bars_field(window, "bars"), "7")

    remark = window.bars_panel.remarks["F1"]
    assert "7 bars on F1" in remark.text()
    assert "leave 6 bays, not 5" in remark.text()
    assert bars_field(window, "bars").property("mark") == "stop"
    hands.overtype(bars_field(window, "bays"), "6")
    assert remark.text().startswith("6 bays; pieces 630.0 mm wide")
    hands.press(window, Qt.Key.Key_Z, CTRL)
    assert bars_field(window, "bays").text() == "5"


def test_running_dimensions_make_unequal_bays(bars_window):
    window = bars_window
    hands.overtype(bars_field(window, "running_mm"), "0 700 1500 2300 3100 4200")
    assert "The width of the bars is missing" in window.bars_panel.remarks["F1"].text()
    assert window.open_job.job.bars == ()

    hands.overtype(bars_field(window, "width_mm"), "60")

    (entry,) = window.open_job.job.bars
    assert entry.running_mm == (0, 700, 1500, 2300, 3100, 4200)
    assert "5 bays; pieces 630.0 to" in window.bars_panel.remarks["F1"].text()
    for name in ("running_mm", "width_mm"):
        hands.overtype(bars_field(window, name), "")
    assert window.open_job.job.bars == ()


def test_a_click_on_a_finding_leads_to_the_line_or_the_bars(bars_window):
    window = bars_window
    window.readings_panel.rows["AB"].edits[0].typed.emit("350")

    window.findings_panel.asked_for.emit("readings.AB")

    assert first(window, "AB").hasFocus()
    hands.press(window, Qt.Key.Key_Z, CTRL)
    window.findings_panel.asked_for.emit("bars.0.bars")
    assert window.bars_panel.isVisible()


def test_another_job_starts_with_nothing_chosen_or_waiting(survey_window, out_of_square):
    window = survey_window
    type_into(window, "AB", "350")
    row(window, "BC").basis.setFocus()
    hands.press(window, Qt.Key.Key_Down)

    window.open_job.begin(replace(out_of_square, code="S99"), path=None)

    assert first(window, "AB").text() == ""
    assert row(window, "BC").chosen_basis is Basis.MEASURED
    assert lamp(window).lamp == "grey"


SHAPES = (
    "four-facet-end", "double-hip", "lantern", "gable", "notch", "wing", "lean-to-hipped-ends",
    "polygonal-end-with-lean-to",
)  # fmt: skip


@pytest.mark.parametrize("name", cases.few_of(SHAPES, {"notch", "double-hip"}))
def test_every_shape_shows_its_sheet(open_window, name):
    window = open_window(name)
    window.open_survey()
    panel = window.readings_panel
    network = networks.of_survey(window.open_job.job.survey)

    assert not panel.no_sheet.isVisible()
    shown = [one.line.name for one in panel.rows.values() if not one.name.isHidden()]
    assert shown == [line.name for line in network.lines if line.times]


def test_readings_of_a_plan_are_fitted_and_a_size_typed_anew_keeps_them(open_window):
    window = open_window("notch")
    hands.click(window.lamp)
    network = networks.of_survey(window.open_job.job.survey)
    inner = next(line for line in network.lines if line.bounds == (180.0, 360.0))

    type_into(window, "AB", "1510")
    type_into(window, inner.name, "269.8")

    assert read(window, "AB") == [1510.0]
    assert read(window, inner.name) == [269.8]
    assert lamp(window).lamp == "grey"
    assert lamp(window).words == "Not yet checked: 2 readings"
    rows = window.readings_panel.rows
    survey = window.open_job.job.survey
    higher = replace(survey, eaves_height_mm=survey.eaves_height_mm + 50.0)
    window.open_job.enter(replace(window.open_job.job, survey=higher), form="survey")
    assert window.readings_panel.rows is rows
    assert read(window, "AB") == [1510.0]


def test_bays_that_do_not_add_up_to_the_eaves_are_asked_about(bars_window):
    window = bars_window
    hands.overtype(bars_field(window, "width_mm"), "60")

    hands.overtype(bars_field(window, "bay_widths_mm"), "700 700 800 700 700 700")

    remark = window.bars_panel.remarks["F1"].text()
    assert "The bays of F1 add up to 4300.0 mm but its eaves are 4200.0 mm long" in remark
    assert "bay 3 700.0 mm" in remark


def test_a_survey_from_a_file_shows_whole(open_window):
    window = open_window("surveyed-lean-to")

    assert lamp(window).lamp == "green"
    values = [one.value for one in window.open_job.job.readings if one.name == "AB"]
    assert [float(edit.text()) for edit in row(window, "AB").edits if edit.text()] == values
    assert not window.open_job.history.can_undo
    assert not window.isWindowModified()
