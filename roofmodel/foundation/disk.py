"""What is asked of the disk so that a name always means something whole.

A folder takes another's place without a moment in which there is neither: Linux can exchange two
names in one step (renameat2, since kernel 3.15), which Python has no call for. Elsewhere, and on
disks that cannot, the old folder steps aside first; should the machine stop between the two steps,
`restore_folder` puts it back at the next write.
"""

import contextlib
import ctypes
import os
import shutil
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

try:
    import fcntl
except ImportError:  # a system without POSIX locks
    fcntl = None  # type: ignore[assignment]

_OLD = ".old"
_AT_CWD, _EXCHANGE = -100, 2  # from linux/fcntl.h and linux/fs.h


def put_folder(beside: Path, target: Path) -> None:
    """Put a folder in the place of the target, which may be a folder or nothing.

    Raises
    ------
    OSError
        If the disk refuses; the target is then what it was.
    """
    _sync(beside)
    if not target.exists():
        beside.rename(target)
    elif _exchanged(beside, target):
        shutil.rmtree(beside, ignore_errors=True)
    else:
        _step_aside(beside, target)
    sync_folder(target.parent)


def restore_folder(target: Path) -> None:
    """Put back the folder that a stopped write had moved aside, where there is one."""
    if target.exists() or not target.parent.is_dir():
        return
    aside = [old for old in target.parent.glob(f".{target.name}.*{_OLD}") if any(old.iterdir())]
    if len(aside) == 1:
        aside[0].rename(target)


@contextlib.contextmanager
def alone_in(folder: Path) -> Iterator[None]:
    """Let one program at a time look at a file of a folder and then put another in its place.

    The folder itself is locked, so that no file of ours is left lying in it. Where a system or a
    disk has no such lock, as Windows and some network drives, the work goes on without: what is
    compared just before it is replaced can then still change in between, for a few milliseconds.
    """
    handle = -1
    if fcntl is not None:
        with contextlib.suppress(OSError):
            handle = os.open(folder, os.O_RDONLY)
            fcntl.flock(handle, fcntl.LOCK_EX)
    try:
        yield
    finally:
        if handle >= 0:
            os.close(handle)


def _exchanged(one: Path, other: Path) -> bool:
    """Exchange two names in one step; return whether the system could."""
    if sys.platform != "linux":
        return False
    library = ctypes.CDLL(None, use_errno=True)
    rename = getattr(library, "renameat2", None)
    if rename is None:
        return False
    names = (os.fsencode(one), os.fsencode(other))
    return bool(rename(_AT_CWD, names[0], _AT_CWD, names[1], _EXCHANGE) == 0)


def _step_aside(beside: Path, target: Path) -> None:
    old = Path(tempfile.mkdtemp(prefix=f".{target.name}.", suffix=_OLD, dir=target.parent))
    # A folder may be renamed onto an empty one.
    target.rename(old)
    try:
        beside.rename(target)
    except OSError:
        old.rename(target)
        raise
    shutil.rmtree(old, ignore_errors=True)


def _sync(folder: Path) -> None:
    """Bring the content of a folder to the disk before its name says that it is there."""
    for file in folder.rglob("*"):
        if file.is_file():
            with file.open("rb+") as stream:
                os.fsync(stream.fileno())
        else:
            sync_folder(file)
    sync_folder(folder)


def sync_folder(folder: Path) -> None:
    """Make what was renamed in a folder survive a power cut, where the system can."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
