"""A screen of our own for windows under test: started once, gone with the process that did."""

import ctypes
import os
import select
import shutil
import signal
import subprocess

SIZE = "1600x1000x24"
"""24 bit: with fewer the graphics library finds no picture format it can use."""

_START_S = 20.0
_PR_SET_PDEATHSIG = 1


class NoScreenError(Exception):
    """There is no virtual screen; the text says why and what to do."""


def start() -> str:
    """Start a virtual screen, point the environment at it, and return its name.

    A screen that is there already is left alone: a test must not move a user's pointer.

    Raises
    ------
    NoScreenError
        If Xvfb is missing or does not start.
    """
    program = shutil.which("Xvfb")
    if program is None:
        raise NoScreenError("Xvfb is not installed. On Debian and Ubuntu: apt-get install xvfb")
    number = _started(program)
    os.environ["DISPLAY"] = f":{number}"
    os.environ["QT_QPA_PLATFORM"] = "xcb"
    os.environ["LIBGL_ALWAYS_SOFTWARE"] = "1"
    # With the off-screen switch on, the 3D part of a window stays blank.
    os.environ["PYVISTA_OFF_SCREEN"] = "false"
    os.environ.pop("WAYLAND_DISPLAY", None)
    return os.environ["DISPLAY"]


def _started(program: str) -> str:
    libc = ctypes.CDLL(None)
    read_end, write_end = os.pipe()
    command = [program, "-displayfd", str(write_end), "-screen", "0", SIZE, "-nolisten", "tcp"]
    process = subprocess.Popen(
        command,
        pass_fds=(write_end,),
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        # Qt needs the screen to its very end, so the kernel ends it after us, not we.
        preexec_fn=lambda: libc.prctl(_PR_SET_PDEATHSIG, signal.SIGTERM),
    )
    os.close(write_end)
    number = _first_line(read_end)
    if not number:
        process.terminate()
        process.wait()
        raise NoScreenError(f"Xvfb did not start within {_START_S:.0f} s.")
    # It is left running on purpose, which Python would warn of.
    process.returncode = 0
    return number


def _first_line(read_end: int) -> str:
    """Return the screen's number, which Xvfb writes once it answers."""
    found = b""
    with os.fdopen(read_end, "rb", buffering=0) as pipe:
        while not found.endswith(b"\n"):
            ready, _, _ = select.select([pipe], [], [], _START_S)
            piece = pipe.read(16) if ready else b""
            if not piece:
                return ""
            found += piece
    return found.decode().strip()
