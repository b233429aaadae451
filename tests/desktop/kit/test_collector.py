"""Tidied in the window's own thread, and deaf to threads once the window has left."""

import gc
import threading
import weakref

import pytest

pytestmark = pytest.mark.desktop


class _Knot:
    """Holds itself, so that only a collection takes it apart."""

    def __init__(self):
        self.itself = self


@pytest.fixture
def collector(qapp):
    from roofmodel.desktop.kit.collector import Collector

    # Python's own, whatever a command that ran in this process has set.
    before = gc.get_threshold()
    gc.set_threshold(700, 10, 10)
    collector = Collector(qapp)
    collector.take_over()
    yield collector
    collector.hand_back()
    gc.set_threshold(*before)
    gc.freeze()
    gc.disable()


def _in_a_thread(work):
    thread = threading.Thread(target=work)
    thread.start()
    thread.join()


def _tie_many_knots():
    for _ in range(20_000):
        _Knot()


def test_a_busy_thread_takes_nothing_of_the_window_apart(collector):
    taken_apart_in = []
    knot = _Knot()
    weakref.finalize(knot, lambda: taken_apart_in.append(threading.get_ident()))
    del knot

    _in_a_thread(_tie_many_knots)
    assert not taken_apart_in

    collector.tidy()
    assert taken_apart_in == [threading.get_ident()]


def test_left_alone_python_would_have_tidied_in_the_busy_thread(collector):
    collector.hand_back()
    taken_apart_in = []
    knot = _Knot()
    weakref.finalize(knot, lambda: taken_apart_in.append(threading.get_ident()))
    del knot

    _in_a_thread(_tie_many_knots)

    assert taken_apart_in
    assert taken_apart_in != [threading.get_ident()]


def test_what_lives_long_is_looked_at_in_the_end(collector):
    knot = _Knot()
    seen = weakref.ref(knot)
    gc.collect()  # now of the oldest generation
    del knot

    for _ in range(200):
        _tie_many_knots()
        collector.tidy()
        if seen() is None:
            return
    pytest.fail("The oldest generation is never collected.")


def test_news_after_the_window_left_is_dropped_and_the_work_told_to_stop(qapp, qtbot):
    from PySide6.QtCore import QObject

    from roofmodel.desktop.kit.background import Background

    parent = QObject()
    background = Background(parent)
    heard = []
    background.told.connect(lambda _ticket, news: heard.append(news))
    go_on = threading.Event()

    def work(ticket, tell):
        tell("before")
        go_on.wait(10)
        tell("after")

    ticket = background.start(work)
    qtbot.waitUntil(lambda: heard == ["before"])

    threading.Timer(0.1, go_on.set).start()
    background.close()
    qapp.processEvents()

    assert heard == ["before"]
    assert ticket.cancelled
