"""Keeps unsaved work safe from a crash, in the user's data folder."""

import json
import os
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

import psutil
from platformdirs import user_data_path

from roofmodel.foundation.errors import JobFileError
from roofmodel.storage import job_file, safe_write
from roofmodel.storage.job import Job

_ENDING = ".autosave.json"


@dataclass(frozen=True, slots=True)
class Recovered:
    """Work a window left behind: the job, the file it belongs to, when, and where it is kept."""

    job: Job
    of: Path | None
    saved_at: datetime
    file: Path


def folder() -> Path:
    """Return the folder of autosaved work, made if need be."""
    return user_data_path("roofmodel", appauthor=False, ensure_exists=True) / "autosave"


def write(job: Job, *, of: Path | None, into: Path, token: str) -> None:
    """Keep a job under a window's own token, in place of what that window kept before.

    Raises
    ------
    JobFileError
        If the folder cannot be written.
    """
    content = {"of": str(of) if of else None, "process": os.getpid(), "job": job_file.dumps(job)}
    try:
        into.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise JobFileError(f"Unsaved work cannot be saved in {into}: {error.strerror}.") from error
    safe_write.replace_text(into / f"{token}{_ENDING}", json.dumps(content))


def pending(into: Path) -> tuple[Recovered, ...]:
    """Return work left by windows that are gone, newest first; unreadable rests are skipped."""
    kept = [
        recovered
        for file in into.glob(f"*{_ENDING}")
        if (recovered := _recovered(file)) is not None
    ]
    return tuple(sorted(kept, key=lambda recovered: recovered.saved_at, reverse=True))


def discard(file: Path) -> None:
    """Forget autosaved work."""
    file.unlink(missing_ok=True)


def _recovered(file: Path) -> Recovered | None:
    try:
        content = json.loads(file.read_text(encoding="utf-8"))
        job = job_file.loads(content["job"])
        of, process = content["of"], int(content["process"])
        saved_at = datetime.fromtimestamp(file.stat().st_mtime, tz=UTC)
    except (OSError, ValueError, KeyError, TypeError, JobFileError):
        return None
    if _is_running(process):
        return None
    return Recovered(job, Path(of) if of else None, saved_at, file)


def _is_running(process: int) -> bool:
    """Return whether another window still holds its work; this process's own rests are free."""
    return process != os.getpid() and psutil.pid_exists(process)
