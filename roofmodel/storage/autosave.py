"""Keeps unsaved work safe from a crash, in the user's data folder."""

import json
import os
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

import psutil

from roofmodel.foundation import user_folder
from roofmodel.foundation.errors import JobFileError
from roofmodel.storage import job_file, safe_write
from roofmodel.storage.job import Job

_ENDING = ".autosave.json"


@dataclass(frozen=True, slots=True)
class Recovered:
    """Work a window left behind: the job, the file it belongs to, when, and where it is kept.

    ``base`` is what that file held when the work began; None where that is not known.
    """

    job: Job
    of: Path | None
    saved_at: datetime
    file: Path
    base: Job | None = None

    @property
    def overtaken(self) -> bool:
        """Whether the file of the job was saved by somebody else after this work began."""
        return (
            self.of is not None and self.base is not None and job_file.differs(self.of, self.base)
        )


def folder() -> Path:
    """Return the folder of autosaved work; the first that is kept makes it."""
    return user_folder.data() / "autosave"


def write(job: Job, *, of: Path | None, into: Path, token: str, base: Job | None = None) -> None:
    """Keep a job under a window's own token, in place of what that window kept before.

    ``base`` is what the job's file held when the work began.

    Raises
    ------
    JobFileError
        If the folder cannot be written.
    """
    content = {
        "of": str(of) if of else None,
        "process": os.getpid(),
        "job": job_file.dumps(job),
        "base": job_file.dumps(base) if base else None,
    }
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
        base = job_file.loads(content["base"]) if content.get("base") else None
        saved_at = datetime.fromtimestamp(file.stat().st_mtime, tz=UTC)
    except (OSError, ValueError, KeyError, TypeError, JobFileError):
        return None
    if _is_running(process):
        return None
    return Recovered(job, Path(of) if of else None, saved_at, file, base)


def _is_running(process: int) -> bool:
    """Return whether another window still holds its work; this process's own rests are free."""
    return process != os.getpid() and psutil.pid_exists(process)
