"""Why no window can be shown is said with its remedy."""

import pytest

from roofmodel.desktop import can_show_window
from roofmodel.desktop.can_show_window import ScreenError

pytestmark = pytest.mark.desktop


def test_no_display_is_said_with_a_remedy(monkeypatch):
    monkeypatch.delenv("DISPLAY", raising=False)
    monkeypatch.delenv("WAYLAND_DISPLAY", raising=False)
    monkeypatch.delenv("QT_QPA_PLATFORM", raising=False)

    with pytest.raises(ScreenError, match="no display") as refused:
        can_show_window.check()

    assert "ssh -X" in str(refused.value)


def test_a_display_that_does_not_answer_is_said(monkeypatch):
    monkeypatch.setenv("DISPLAY", ":63999")
    monkeypatch.delenv("WAYLAND_DISPLAY", raising=False)

    with pytest.raises(ScreenError, match=":63999 is not responding"):
        can_show_window.check()


def test_a_missing_system_library_is_named_with_its_remedy():
    said = can_show_window._missing(
        "libxcb-cursor.so.0: cannot open shared object file: No such file"
    )

    assert "libxcb-cursor.so.0" in said
    assert "apt-get install" in said
    assert "libxcb-cursor0" in said


def test_a_screen_that_is_there_passes():
    can_show_window.check()
