"""What this job's sheets differ in, entered in the window."""

import pytest

from roofmodel.buildups import catalogue
from roofmodel.buildups.board_choice import BoardChoice
from roofmodel.cutting.laying import rule_set

pytestmark = pytest.mark.desktop

GOODS = {code: catalogue.shipped().sheet_goods()[code] for code in ("BRD-OSB18", "INS-PIR75")}


@pytest.fixture
def dialog(qtbot):
    from roofmodel.desktop.boards.board_choices_dialog import BoardChoicesDialog

    def show(*choices):
        made = BoardChoicesDialog(None, choices, GOODS, rule_set.shipped())
        qtbot.addWidget(made)
        return made

    return show


def test_size_saw_cut_and_way_of_laying_are_chosen_material_by_material(dialog):
    box = dialog()
    box.fields["kerf_mm"].setText("4")
    box.laying.setCurrentIndex(box.laying.findData("LAY-BARS-2"))
    box.material.setCurrentIndex(1)
    assert box.fields["kerf_mm"].text() == ""
    assert box.laying.findData("LAY-BARS-2") == -1
    box.fields["length_mm"].setText("3000")
    box.accept()

    assert box.boards == (
        BoardChoice(material="BRD-OSB18", kerf_mm=4.0, laying="LAY-BARS-2"),
        BoardChoice(material="INS-PIR75", length_mm=3000.0),
    )


def test_what_the_job_has_is_shown_and_emptied_again(dialog):
    box = dialog(BoardChoice(material="BRD-OSB18", kerf_mm=4.0, laying="LAY-BARS-1"))
    assert box.fields["kerf_mm"].text() == "4"
    assert box.laying.currentData() == "LAY-BARS-1"
    box.fields["kerf_mm"].clear()
    box.laying.setCurrentIndex(0)
    box.accept()

    assert box.boards == ()


@pytest.mark.parametrize(("typed", "said"), [("99", "Enter 0 to 15 mm"), ("wide", "not a number")])
def test_what_cannot_be_is_told_by_the_fields_name_and_the_material_stays(dialog, typed, said):
    box = dialog()
    box.fields["kerf_mm"].setText(typed)
    box.material.setCurrentIndex(1)

    assert box.material.currentIndex() == 0
    assert "Saw cut [mm]:" in box.trouble.text()
    assert said in box.trouble.text()
    box.accept()
    assert not box.result()


def test_the_boards_of_the_open_job_are_chosen_beside_its_drawings_and_undone(open_window):
    window = open_window("lean-to")
    box = window.cutting_panel.board_choices()
    box.material.setCurrentIndex(box.material.findData("BRD-OSB18"))
    box.fields["kerf_mm"].setText("4")
    box.accept()
    window.cutting_panel.take_boards(box.boards)

    assert window.open_job.job.boards == (BoardChoice(material="BRD-OSB18", kerf_mm=4.0),)
    deck = next(x for x in window.open_job.drawn.option.sheets if x.code == "BRD-OSB18")
    assert deck.good.kerf_mm == 4.0
    window.open_job.undo()
    assert window.open_job.job.boards == ()
