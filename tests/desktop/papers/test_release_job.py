"""A job is released from the window by name and day, exactly as it is entered."""

from datetime import date, timedelta

import pytest
from PySide6.QtCore import QDate

from roofmodel.desktop.asking.release_dialog import ReleaseDialog, ReleaseWanted
from roofmodel.foundation import clock
from roofmodel.workbench.job import named_release, releasing

pytestmark = pytest.mark.desktop


def test_a_release_holds_for_just_what_is_entered_and_can_be_undone(open_window, answers):
    window = open_window("surveyed-lean-to")
    today = clock.today()
    answers.files.append(ReleaseWanted(by="invented surveyor", on=today))

    window.release_out.release()

    drawn = window.open_job.drawn
    assert drawn.job.released.by == "invented surveyor"
    assert named_release.reasons(drawn.job, drawn.option, today=today) == []
    assert releasing.release(drawn, drawn.option, today=today).status in (
        window.statusBar().currentMessage()
    )
    window.open_job.undo()
    assert window.open_job.job.released is None


def test_nobodys_name_and_a_day_to_come_are_refused(open_window, answers):
    window = open_window("surveyed-lean-to")
    answers.files.append(ReleaseWanted(by="-", on=clock.today()))
    answers.files.append(
        ReleaseWanted(by="invented surveyor", on=clock.today() + timedelta(days=2))
    )

    window.release_out.release()
    window.release_out.release()

    assert "nobody's name" in answers.refusals[0]
    assert "cannot have been released" in answers.refusals[1]
    assert window.open_job.job.released is None


def test_the_form_takes_no_day_to_come_and_no_empty_name(qtbot):
    today = date(2026, 11, 30)
    form = ReleaseDialog(None, what="Job S14", against=["The survey is open."], today=today)
    qtbot.addWidget(form)

    form.on.setDate(QDate(2099, 1, 1))
    form.accept()

    assert form.wanted.on == today
    assert form.result() == 0
    form.by.setText("invented surveyor")
    form.accept()
    assert form.result() == 1
