"""What each value's error does to the sheets, tried from the boards page."""

import pytest

from roofmodel.foundation.cancellation import Cancelled
from roofmodel.workbench.facts import firm_sheets
from tests.workbench.facts.test_firm_sheets import FOUND

pytestmark = pytest.mark.desktop


def test_sheets_are_tried_when_asked_and_forgotten_with_the_roof(open_window, qtbot, monkeypatch):
    window = open_window("lean-to")
    firm = window.cutting_panel.firm
    heard = []

    def tried(drawn, method, *, progress, cancelled, cut):
        heard.append((method, cut))
        progress("width")
        return FOUND

    monkeypatch.setattr(firm_sheets, "of_method", tried)
    firm.button.click()
    qtbot.waitUntil(lambda: not firm.trying)

    assert heard == [(window.open_job.drawn.option.method, window.cutting_run.planner.cut)]
    assert "OSB22: 5 sheets, 5 to 7 within one standard error" in firm.words.text()
    assert firm.button.text() == "Try each size ± its error"
    window.open_job.reckoned.emit()
    assert firm.words.text() == ""


def test_trying_can_be_stopped(open_window, qtbot, monkeypatch):
    firm = open_window("lean-to").cutting_panel.firm
    stopped = []

    def slow(drawn, method, *, progress, cancelled, cut):
        while not cancelled():
            pass
        stopped.append(method)
        raise Cancelled

    monkeypatch.setattr(firm_sheets, "of_method", slow)
    firm.button.click()
    assert firm.button.text() == "Stop trying"
    firm.button.click()
    qtbot.waitUntil(lambda: bool(stopped))

    assert not firm.trying
    assert firm.words.text() == ""
