"""Finds out, before Qt gives up without a word, whether a window can be shown here."""

import ctypes
import importlib
import importlib.util
import os
import re
import sys
from pathlib import Path

from roofmodel.foundation.errors import RoofModelError

_PACKAGES = (
    "libgl1 libegl1 libglx-mesa0 libgl1-mesa-dri libxkbcommon-x11-0 libdbus-1-3 libfontconfig1 "
    "libxcb-cursor0 libxcb-icccm4 libxcb-image0 libxcb-keysyms1 libxcb-render-util0 libxcb-shape0"
)
_INSTALL = f"On Debian and Ubuntu: sudo apt-get install {_PACKAGES}"
_NEEDED = ("PySide6.QtWidgets", "PySide6.QtOpenGLWidgets", "pyvistaqt")


class ScreenError(RoofModelError):
    """No window can be shown on this computer as it is."""


def check() -> None:
    """Return if a window can be shown.

    Raises
    ------
    ScreenError
        If there is no display, or a library is missing; the text says what to do.
    """
    if sys.platform.startswith("linux"):
        _check_display()
    _check_libraries()
    if sys.platform.startswith("linux") and _by_x11():
        _check_x11_plugin()
        _check_x11_answers()


def _by_x11() -> bool:
    wanted = os.environ.get("QT_QPA_PLATFORM", "")
    if wanted:
        return wanted.startswith("xcb")
    return not os.environ.get("WAYLAND_DISPLAY")


def _check_display() -> None:
    wanted = os.environ.get("QT_QPA_PLATFORM", "")
    if wanted and not wanted.startswith(("xcb", "wayland")):
        return
    if not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")):
        raise ScreenError(
            "There is no display to show the window on. Start it from a desktop session, "
            "or connect with `ssh -X` from another machine. The other commands need no "
            "display: `roofmodel facts`, `cut` and `picture` give the same figures."
        )


def _check_libraries() -> None:
    for name in _NEEDED:
        try:
            importlib.import_module(name)
        except ModuleNotFoundError as error:
            raise ScreenError(
                f"The window needs {error.name}, which is not installed. "
                "Install the extra “desktop” of this program."
            ) from error
        except ImportError as error:
            raise ScreenError(_missing(str(error))) from error


def _check_x11_plugin() -> None:
    """Load Qt's own plugin by hand: Qt itself would end the program when this fails."""
    found = importlib.util.find_spec("PySide6")
    places = found.submodule_search_locations if found else None
    for place in places or ():
        plugin = Path(place) / "Qt" / "plugins" / "platforms" / "libqxcb.so"
        if plugin.exists():
            try:
                ctypes.CDLL(str(plugin))
            except OSError as error:
                raise ScreenError(_missing(str(error))) from error


def _check_x11_answers() -> None:
    try:
        xcb = ctypes.CDLL("libxcb.so.1")
    except OSError as error:
        raise ScreenError(_missing(str(error))) from error
    xcb.xcb_connect.restype = ctypes.c_void_p
    xcb.xcb_connect.argtypes = [ctypes.c_char_p, ctypes.c_void_p]
    xcb.xcb_connection_has_error.argtypes = [ctypes.c_void_p]
    xcb.xcb_disconnect.argtypes = [ctypes.c_void_p]
    connection = xcb.xcb_connect(None, None)
    answers = xcb.xcb_connection_has_error(connection) == 0
    xcb.xcb_disconnect(connection)
    if not answers:
        raise ScreenError(
            f"The display {os.environ.get('DISPLAY')} is not responding. Check that it is "
            "running and that you are allowed to use it, or correct the variable "
            "DISPLAY."
        )


def _missing(text: str) -> str:
    library = re.search(r"(lib[\w.+-]+\.so[.\d]*)", text)
    named = library.group(1) if library else text
    return f"The window cannot start: the system library {named} is missing. {_INSTALL}"
