"""Puts a whole folder of papers in the place of the last one, or leaves that one as it was."""

import json
import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from roofmodel.foundation import disk
from roofmodel.foundation.errors import DrawingError

MANIFEST = "plan.json"
"""The file by which a folder of papers is known again; its ``files`` are all that was put there."""

MADE_BY = "roofmodel cutting papers"


@contextmanager
def new_folder(target: Path) -> Iterator[Path]:
    """Give an empty folder to fill; put it in the target's place when nothing went wrong.

    Whoever fills it must leave a manifest there: JSON with ``made_by`` and ``files``.

    Raises
    ------
    DrawingError
        If the target holds anything but papers made here, or the disk refuses.
    """
    target = target.resolve()
    try:
        disk.restore_folder(target)
    except OSError as error:
        raise DrawingError(_refusal(target, error)) from error
    refuse_foreign(target)
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        beside = Path(
            tempfile.mkdtemp(prefix=f".{target.name}.", suffix=".part", dir=target.parent)
        )
    except OSError as error:
        raise DrawingError(_refusal(target, error)) from error
    try:
        yield beside
        beside.chmod(0o777 & ~_mask())
        disk.put_folder(beside, target)
    except OSError as error:
        raise DrawingError(_refusal(target, error)) from error
    finally:
        shutil.rmtree(beside, ignore_errors=True)


def refuse_foreign(target: Path) -> None:
    """Refuse to replace what someone else put there.

    Raises
    ------
    DrawingError
        If the target is a file, or holds anything but papers made here.
    """
    if not target.exists():
        return
    if not target.is_dir():
        raise DrawingError(f"{target} is a file. Name a folder for the cutting papers.")
    present = {
        (Path(folder) / name).relative_to(target).as_posix()
        for folder, _, names in os.walk(target)
        for name in names
    }
    foreign = sorted(present - _listed(target / MANIFEST)) if present else []
    if foreign:
        raise DrawingError(
            f"{target} holds {foreign[0]}, which is not one of the cutting papers written there. "
            "Nothing was changed. Name a new or empty folder, or move that file elsewhere."
        )


def _listed(manifest: Path) -> set[str]:
    """Return the names a manifest of ours lists, itself included; nothing for any other file."""
    try:
        content = json.loads(manifest.read_text(encoding="utf-8"))
        if content["made_by"] == MADE_BY:
            return {MANIFEST, *(str(name) for name in content["files"])}
    except (OSError, ValueError, KeyError, TypeError):
        pass
    return set()


def _mask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _refusal(target: Path, error: OSError) -> str:
    return (
        f"The cutting papers could not be written to {target}: {error.strerror or error}. "
        "What was there before is unchanged. Choose a folder that can be written to."
    )
