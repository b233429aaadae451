"""Work beside the window outlives the window that asked for it, and hurts nobody."""

import threading

import pytest
from PySide6.QtCore import QEvent, QObject

from roofmodel.desktop.kit.background import Background

pytestmark = pytest.mark.desktop


def test_news_for_a_window_that_is_gone_is_dropped_and_the_work_told_to_stop(qapp):
    window = QObject()
    go_on, done, faults = threading.Event(), threading.Event(), []

    def work(ticket, tell):
        go_on.wait(10.0)
        try:
            tell("too late")
        except RuntimeError as error:
            faults.append(error)
        done.set()

    ticket = Background(window).start(work)
    window.deleteLater()
    qapp.sendPostedEvents(window, QEvent.Type.DeferredDelete)
    go_on.set()

    assert done.wait(10.0)
    assert not faults
    assert ticket.cancelled
