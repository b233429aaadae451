"""The job's own lines in the window: entered, seen in the take-off, and undone in one step."""

from decimal import Decimal

import pytest

from roofmodel.desktop.asking.job_lines_dialog import JobLinesDialog
from roofmodel.quantities.job_lines import JobEstimate, JobLine, LineKind
from tests.desktop import hands

pytestmark = pytest.mark.desktop


@pytest.fixture
def box(qtbot):
    made = JobLinesDialog(None, JobEstimate())
    qtbot.addWidget(made)
    made.show()
    return made


def choose(box, kind):
    box.kind.setCurrentIndex(box.kind.findData(kind))


def test_an_extra_is_added_and_kept_with_discount_and_contingency(box):
    choose(box, LineKind.EXTRA)
    box.fields["text"].setText("Move the aerial")
    box.fields["quantity"].setText("1")
    box.fields["rate_gbp"].setText("84.50")
    hands.click(box.add)
    box.of_job["discount_percent"].setText("5")
    box.of_job["contingency_percent"].setText("4")
    box.cut_in.setCurrentIndex(box.cut_in.findData("workshop"))
    box.accept()

    assert box.entry.boards_cut == "workshop"
    (line,) = box.entry.lines
    assert (line.text, line.rate_gbp) == ("Move the aerial", Decimal("84.5"))
    assert (box.entry.discount_percent, box.entry.contingency_percent) == (5, 4)


def test_an_override_without_a_reason_says_so_and_is_not_added(box):
    choose(box, LineKind.OVERRIDE)
    box.fields["material"].setText("TIL-ST")
    box.fields["quantity"].setText("9")
    hands.click(box.add)

    assert "without a reason" in box.fault.text()
    assert box.table.rowCount() == 0


def test_only_the_fields_of_the_kind_are_shown(box):
    choose(box, LineKind.PROVISIONAL)

    assert box.fields["rate_gbp"].isVisible()
    assert not box.fields["material"].isVisible()


def test_a_line_is_taken_over_by_the_page_and_undone_in_one_step(open_window, monkeypatch):
    window = open_window("lean-to")
    line = JobLine(kind=LineKind.CHOSEN, material="CAV-TRY", quantity=4.0)
    page = window.take_off_page
    monkeypatch.setattr(page.dialogs, "job_lines", lambda _: JobEstimate(lines=(line,)))
    page.change_lines()

    assert window.open_job.job.estimate.lines == (line,)
    window.open_job.undo()
    assert window.open_job.job.estimate.lines == ()
