"""Writes files so that a failure leaves what was there before, whole."""

import os
import tempfile
from pathlib import Path

from roofmodel.foundation import disk
from roofmodel.foundation.errors import JobFileError


def replace_text(path: Path, text: str, *, keep: Path | None = None) -> None:
    """Put text in the place of a file in one step; errors and ``keep`` as `replace_bytes`."""
    replace_bytes(path, text.encode(), keep=keep)


def replace_bytes(path: Path, content: bytes, *, keep: Path | None = None) -> None:
    """Put content in the place of a file in one step; ``keep`` receives what was there.

    Raises
    ------
    JobFileError
        If any step fails; the file at ``path`` is then the one from before, unless the text says
        that it is saved and only the disk did not confirm it.
    """
    try:
        beside = _written_beside(path, content)
    except OSError as error:
        raise JobFileError(_refusal(path, error)) from error
    try:
        if keep is not None and path.exists():
            _replace(_written_beside(keep, path.read_bytes()), keep)
            disk.sync_folder(keep.parent)
        _replace(beside, path)
    except OSError as error:
        beside.unlink(missing_ok=True)
        raise JobFileError(_refusal(path, error)) from error
    try:
        disk.sync_folder(path.parent)
    except OSError as error:
        raise JobFileError(
            f"{path.name} is saved in {path.parent}, but the disk did not confirm it: "
            f"{error.strerror or error}. Save it in another folder as well."
        ) from error


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


def _refusal(path: Path, error: OSError) -> str:
    reason = error.strerror or str(error)
    return (
        f"{path.name} could not be saved in {path.parent}: {reason}. "
        "Nothing was changed. Save it under another name or in another folder."
    )
