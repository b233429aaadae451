"""Everything of a user in one file, and back: the firm's own, the rack, unsaved work and jobs.

A backup is a ZIP file that any program opens, with a list of its files and their checksums. It is
read through before anything is put in place; what stood there before is backed up first, so that
nothing a restore replaces is lost.
"""

import hashlib
import io
import json
import shutil
import tempfile
import zipfile
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path, PurePosixPath
from typing import Any

from roofmodel.foundation import disk
from roofmodel.foundation.errors import JobFileError
from roofmodel.storage import job_file, safe_write
from roofmodel.storage.rack import FILE as RACK_FILE
from roofmodel.storage.rack import Rack

SUFFIX = ".roofbackup.zip"
FORMAT, VERSION = "backup of a roof firm", 1

_LIST = "list.json"
_OWN, _JOBS = "own/", "jobs/"
_MOST_BYTES = 2_000_000_000
_MOST_FILES = 100_000
_FIRST_DAY = (1980, 1, 1, 0, 0, 0)  # the earliest a ZIP can hold: equal content, equal file
_NOT_OURS = f"Choose a file that ends in {SUFFIX}, as the program writes it."


@dataclass(frozen=True, slots=True, kw_only=True)
class Backup:
    """What a backup holds: content by name, and when it was made.

    ``own`` are names below the user's folder, ``jobs`` below the folder of jobs.
    """

    made_on: str
    own: Mapping[str, bytes]
    jobs: Mapping[str, bytes]


def save(into: Path, *, own: Path, jobs: Path | None = None, today: date, word: str = "") -> Path:
    """Write a backup of a user's folder, and of the jobs below another, and return its file.

    A backup that is there already is never replaced: the second of a day gets a number. ``word``
    goes into the name.

    Raises
    ------
    JobFileError
        If something cannot be read or written; no file is left behind then.
    """
    content = _packed(_own_files(own), {} if jobs is None else _job_files(jobs), today)
    stem = "-".join(part for part in ("roofmodel", today.isoformat(), word) if part)
    names = (f"{stem}{number}{SUFFIX}" for number in ("", *(f"-{n}" for n in range(2, 1000))))
    try:
        into.mkdir(parents=True, exist_ok=True)
        path = next(into / name for name in names if not (into / name).exists())
    except (OSError, StopIteration) as error:
        raise JobFileError(f"No backup can be written in {into}: choose another folder.") from error
    safe_write.replace_bytes(path, content)
    return path


def read(path: Path) -> Backup:
    """Return what a backup holds, every checksum looked at.

    Raises
    ------
    JobFileError
        If it is none of ours, is damaged, is too large, or was made by a newer program.
    """
    try:
        with zipfile.ZipFile(path) as packed:
            listed = _list_of(packed, path.name)
            files = {name: packed.read(name) for name in listed}
            made_on = str(json.loads(packed.read(_LIST))["made_on"])
    except OSError as error:
        raise JobFileError(f"{path} cannot be opened: {error.strerror or error}.") from error
    except (zipfile.BadZipFile, zipfile.LargeZipFile, KeyError, ValueError, EOFError) as error:
        raise JobFileError(f"{path.name} is no backup, or is damaged. {_NOT_OURS}") from error
    for name, content in files.items():
        if hashlib.sha256(content).hexdigest() != listed[name]:
            raise JobFileError(
                f"{path.name} is damaged: “{name}” is not as it was saved. "
                "Nothing was restored; take an older backup."
            )
    return Backup(made_on=made_on, own=_below(files, _OWN), jobs=_below(files, _JOBS))


def restore(kept: Backup, *, own: Path, jobs: Path | None, today: date) -> Path | None:
    """Put what a backup holds in place; return the backup of what stood there, if anything did.

    The user's folder becomes what it was, in one step. Jobs are written one by one, each with the
    version before beside it; jobs the backup does not hold are left alone.

    Raises
    ------
    JobFileError
        If something cannot be written; the user's folder is then as it was.
    """
    before = None
    if own.is_dir() and any(own.iterdir()):
        before = save(own.parent, own=own, jobs=jobs, today=today, word="before-restoring")
    _put_own(kept.own, own)
    if jobs is not None:
        for name, content in kept.jobs.items():
            path = jobs / name
            try:
                path.parent.mkdir(parents=True, exist_ok=True)
            except OSError as error:
                text = f"{path.parent} cannot be made: {error.strerror}. Choose another folder."
                raise JobFileError(text) from error
            safe_write.replace_bytes(path, content, keep=job_file.previous(path))
    return before


def _put_own(files: Mapping[str, bytes], own: Path) -> None:
    beside: Path | None = None
    try:
        own.parent.mkdir(parents=True, exist_ok=True)
        beside = Path(tempfile.mkdtemp(prefix=f".{own.name}.", dir=own.parent))
        for name, content in files.items():
            path = beside / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(content)
        disk.put_folder(beside, own)
    except OSError as error:
        if beside is not None:
            shutil.rmtree(beside, ignore_errors=True)
        text = f"{own} could not be restored: {error.strerror or error}. It is as it was."
        raise JobFileError(text) from error


def _own_files(own: Path) -> dict[str, bytes]:
    files = _files(own, "*")
    if RACK_FILE in files:
        # Not the bytes on the disk, which another program may be changing at this moment.
        files[RACK_FILE] = Rack(own).snapshot()
    return files


def _job_files(folder: Path) -> dict[str, bytes]:
    if not folder.is_dir():
        raise JobFileError(f"There is no folder {folder}. Check the name.")
    return _files(folder, f"*{job_file.SUFFIX}")


def _files(folder: Path, pattern: str) -> dict[str, bytes]:
    """Return every file below a folder by its name from there; links lead nowhere."""
    files: dict[str, bytes] = {}
    size = 0
    try:
        for path in sorted(folder.rglob(pattern)):
            if path.is_symlink() or not path.is_file() or path.name.endswith(".part"):
                continue
            size += path.stat().st_size
            if size > _MOST_BYTES or len(files) >= _MOST_FILES:
                text = f"{folder} holds more than a backup takes. Choose a folder of jobs alone."
                raise JobFileError(text)
            files[path.relative_to(folder).as_posix()] = path.read_bytes()
    except OSError as error:
        raise JobFileError(
            f"{error.filename} cannot be read: {error.strerror}. No backup was written."
        ) from error
    return files


def _packed(own: Mapping[str, bytes], jobs: Mapping[str, bytes], today: date) -> bytes:
    files = {
        **{_OWN + name: content for name, content in own.items()},
        **{_JOBS + name: content for name, content in jobs.items()},
    }
    told: dict[str, Any] = {
        "format": FORMAT,
        "version": VERSION,
        "made_on": today.isoformat(),
        "files": {name: hashlib.sha256(content).hexdigest() for name, content in files.items()},
    }
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as packed:
        listed = json.dumps(told, indent=1, ensure_ascii=False).encode()
        for name, content in {_LIST: listed, **files}.items():
            info = zipfile.ZipInfo(name, _FIRST_DAY)
            info.compress_type = zipfile.ZIP_DEFLATED
            packed.writestr(info, content)
    return stream.getvalue()


def _list_of(packed: zipfile.ZipFile, name: str) -> dict[str, str]:
    """Return the checksums of the files in a backup; refuse what it must not hold."""
    entries = packed.infolist()
    size = sum(entry.file_size for entry in entries)
    if size > _MOST_BYTES or len(entries) > _MOST_FILES + 1:
        raise JobFileError(f"{name} unpacks to more than a backup holds. {_NOT_OURS}")
    told = json.loads(packed.read(_LIST))
    if not isinstance(told, dict) or told.get("format") != FORMAT:
        raise JobFileError(f"{name} is no backup. {_NOT_OURS}")
    if told.get("version") != VERSION:
        text = f"{name} was made by a newer program. Update this one; nothing was changed."
        raise JobFileError(text)
    listed = told["files"]
    if not isinstance(listed, dict):
        raise JobFileError(f"{name} is no backup. {_NOT_OURS}")
    if {entry.filename for entry in entries} != {_LIST, *listed} or len(entries) != len(listed) + 1:
        raise JobFileError(f"{name} does not hold the files it lists. Take an older backup.")
    for one in listed:
        _refuse_astray(one, name)
    return {str(key): str(value) for key, value in listed.items()}


def _refuse_astray(one: str, name: str) -> None:
    """Refuse a name that would lead out of the folder it is restored in."""
    parts = PurePosixPath(one).parts
    strays = (
        not one.startswith((_OWN, _JOBS))
        or "\\" in one
        or ":" in one
        or "\0" in one
        or len(parts) < len(("own", "file"))
        or any(part in {"..", ".", "/"} for part in parts)
    )
    if strays:
        raise JobFileError(f"{name} holds a file named “{one}”, which no backup of ours does.")


def _below(files: Mapping[str, bytes], start: str) -> dict[str, bytes]:
    return {
        name.removeprefix(start): content
        for name, content in files.items()
        if name.startswith(start)
    }
