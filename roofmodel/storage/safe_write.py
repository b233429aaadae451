"""Writes files so that a failure leaves what was there before, whole."""

import os
import tempfile
from pathlib import Path

from roofmodel.foundation.errors import JobFileError


def replace_text(path: Path, text: str, *, keep: Path | None = None) -> None:
    """Put text in the place of a file in one step; errors and ``keep`` as `replace_bytes`."""
    replace_bytes(path, text.encode(), keep=keep)


def replace_bytes(path: Path, content: bytes, *, keep: Path | None = None) -> None:
    """Put content in the place of a file in one step; ``keep`` receives what was there.

    Raises
    ------
    JobFileError
        If any step fails; the file at ``path`` is then the one from before.
    """
    try:
        beside = _written_beside(path, content)
    except OSError as error:
        raise JobFileError(_refusal(path, error)) from error
    try:
        if keep is not None and path.exists():
            _replace(_written_beside(keep, path.read_bytes()), keep)
        _replace(beside, path)
    except OSError as error:
        beside.unlink(missing_ok=True)
        raise JobFileError(_refusal(path, error)) from error


def _written_beside(path: Path, content: bytes) -> Path:
    """Write a new file in the same folder, so that the rename cannot cross a disk."""
    handle, name = tempfile.mkstemp(prefix=f".{path.name}.", suffix=".part", dir=path.parent)
    beside = Path(name)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        beside.chmod(path.stat().st_mode & 0o777 if path.exists() else _usual_mode())
    except OSError:
        beside.unlink(missing_ok=True)
        raise
    return beside


def _usual_mode() -> int:
    """Return the mode a new file would get: the private one of a temporary file is no use here."""
    mask = os.umask(0)
    os.umask(mask)
    return 0o666 & ~mask


def _replace(beside: Path, path: Path) -> None:
    try:
        beside.replace(path)
    except OSError:
        beside.unlink(missing_ok=True)
        raise
    _sync_folder(path.parent)


def _sync_folder(folder: Path) -> None:
    """Make the rename itself survive a power cut, where the system can."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _refusal(path: Path, error: OSError) -> str:
    reason = error.strerror or str(error)
    return (
        f"{path.name} could not be saved in {path.parent}: {reason}. "
        "Nothing was changed. Save it under another name or in another folder."
    )
