"""What is being typed into the survey's form while the shape changes under it."""

import pytest

from roofmodel.survey.taped.free_plan import FreePlanSurvey
from roofmodel.survey.taped.joined_plan import SideLeanToSurvey

pytestmark = pytest.mark.desktop


def switch(window, title):
    combo = window.survey_panel.shape
    combo.setCurrentIndex(combo.findText(title))
    combo.activated.emit(combo.currentIndex())


def type_without_a_pause(window, name, text):
    edit = window.survey_panel.fields[name].edit
    edit.setText(text)
    edit.textEdited.emit(text)


def test_what_is_typed_is_taken_over_before_the_shape_changes(open_window):
    window = open_window("polygonal-end-with-lean-to")
    type_without_a_pause(window, "lean_to_width_mm", "1500")

    switch(window, "Free plan")

    assert isinstance(window.open_job.job.survey, FreePlanSurvey)
    window.open_job.undo()
    assert isinstance(window.open_job.job.survey, SideLeanToSurvey)
    assert window.open_job.job.survey.lean_to_width_mm == 1500.0


def test_what_is_typed_for_another_shape_comes_to_nothing(open_window, qtbot, qapp):
    """Found by a soak: the pause ends after the shape is another one, by undo as by opening."""
    window = open_window("lean-to")
    switch(window, "P plan")
    type_without_a_pause(window, "lean_to_width_mm", "1500")
    window.open_job.undo()
    lean_to = window.open_job.job

    # What a pause that ends late would say, and a cell that is left late.
    for name in ("lean_to_width_mm", "end_facets"):
        window.survey_panel._enter(name, 3.0)
    window.survey_panel.sides.typed.emit(())
    window.survey_panel.sides.unreadable.emit("sides.0.x_mm", "“x” is not a number.", "Correct it.")

    assert window.open_job.job == lean_to
    assert not window.open_job.rejected
    assert not window.survey_panel.fields["lean_to_width_mm"].edit.text()
