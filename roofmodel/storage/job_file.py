"""Reads and writes `NAME.roofjob.json`."""

import json
from collections import Counter
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import pydantic_core
from pydantic import TypeAdapter, ValidationError

from roofmodel.foundation import disk
from roofmodel.foundation.errors import JobFileError
from roofmodel.storage import door, fault_text, migrations, safe_write
from roofmodel.storage.job import SCHEMA_VERSION, Job
from roofmodel.survey.taped.findings import Finding, Severity

SUFFIX = ".roofjob.json"
PREVIOUS_SUFFIX = ".previous.json"

_VERSION_FIELD = "schema_version"
_OPEN_PREVIOUS = f"Open the previous version, saved next to it with the ending {PREVIOUS_SUFFIX}."
_JOB: TypeAdapter[Job] = TypeAdapter(Job)


class JobFileFaultError(JobFileError):
    """A job file that cannot be taken as it is; holds every fault found."""

    def __init__(self, findings: Sequence[Finding]) -> None:
        super().__init__("\n".join(str(finding) for finding in findings))
        self.findings = tuple(findings)


class JobChangedError(JobFileError):
    """The file holds another job than the one that was to be replaced; nothing was written."""


def schema() -> dict[str, Any]:
    """Return the JSON Schema of a job file."""
    described = _JOB.json_schema()
    version = {"const": SCHEMA_VERSION, "description": "Version of this format", "type": "integer"}
    described["properties"] = {_VERSION_FIELD: version, **described["properties"]}
    described["required"] = [_VERSION_FIELD, *described["required"]]
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **described}


def dumps(job: Job) -> str:
    """Return the text of a job file; fields left out stay out."""
    fields = _JOB.dump_python(job, mode="json", exclude_none=True)
    return (
        json.dumps({_VERSION_FIELD: SCHEMA_VERSION, **fields}, indent=2, ensure_ascii=False) + "\n"
    )


def loads(text: str) -> Job:
    """Return the job in the text of a job file.

    Raises
    ------
    JobFileFaultError
        With every fault that was found, each with the path of its field and a remedy.
    """
    data = _current(_parsed(text))
    try:
        # By way of JSON, so that lists are taken for the tuples they are stored from.
        return _JOB.validate_json(pydantic_core.to_json(data))
    except ValidationError as error:
        raise JobFileFaultError(fault_text.findings(error.errors())) from error


def read(path: Path) -> Job:
    """Return the job of a file.

    Raises
    ------
    JobFileError
        If the file cannot be opened; `JobFileFaultError` if its content cannot be taken.
    """
    try:
        _refuse(door.size_fault(path.stat().st_size))
        return loads(path.read_text(encoding="utf-8"))
    except FileNotFoundError as error:
        raise JobFileError(f"There is no file {path}. Check the name and the folder.") from error
    except UnicodeDecodeError as error:
        raise JobFileError(
            f"{path.name} is not a text file, so it cannot be a job file."
        ) from error
    except OSError as error:
        raise JobFileError(f"{path} cannot be opened: {error.strerror}.") from error


def write(job: Job, path: Path, *, over: Job | None = None) -> None:
    """Save a job; the version before stays beside it as `NAME.roofjob.previous.json`.

    Parameters
    ----------
    over
        The job as it was read from this file or last saved in it: what somebody else has saved
        there since is then not replaced. None replaces whatever is there.

    Raises
    ------
    JobFileError
        If it cannot be saved; the file that was there is then untouched. `JobChangedError` if it
        holds something else than ``over``.
    """
    with disk.alone_in(path.parent):
        if over is not None and differs(path, over):
            raise JobChangedError(
                f"{path.name} was changed by another window or program after it was opened here. "
                "Nothing was saved. Open it again, or save under another name."
            )
        safe_write.replace_text(path, dumps(job), keep=previous(path))


def differs(path: Path, job: Job) -> bool:
    """Return whether a file holds something else than a job; one that is gone does not."""
    if not path.exists():
        return False
    try:
        return read(path) != job
    except JobFileError:
        return True


def previous(path: Path) -> Path:
    """Return where the version before the last save is kept."""
    return path.with_name(path.name.removesuffix(".json") + PREVIOUS_SUFFIX)


def _parsed(text: str) -> dict[str, Any]:
    if not text.strip():
        raise JobFileFaultError([_stop("file", "The file is empty.", _OPEN_PREVIOUS)])
    _refuse(door.nesting_fault(text))
    try:
        # NaN and Infinity are kept as words, so that they are refused like any other word.
        data = json.loads(
            text,
            object_pairs_hook=_without_repeats,
            parse_constant=str,
            parse_int=door.whole,
        )
    except json.JSONDecodeError as error:
        raise JobFileFaultError([_broken(text, error)]) from error
    if not isinstance(data, dict):
        text = "This is not a job file: a job file is a group of fields in curly brackets."
        raise JobFileFaultError([_stop("file", text, "Open another file.")])
    _refuse(door.content_fault(data))
    return data


def _refuse(fault: Finding | None) -> None:
    if fault is not None:
        raise JobFileFaultError([fault])


def _broken(text: str, error: json.JSONDecodeError) -> Finding:
    """Return where a file breaks off and what of it could still be read."""
    where = f"The file is cut short or damaged at line {error.lineno}, column {error.colno}."
    try:
        partial = pydantic_core.from_json(text, allow_partial=True)
    except ValueError:
        partial = None
    readable = ", ".join(_readable(partial))
    fault = (
        f" Up to that point it contains: {readable}." if readable else " None of it could be read."
    )
    return _stop("file", where + fault, _OPEN_PREVIOUS)


def _without_repeats(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    """Refuse a field that is written twice: which of the two was meant cannot be known."""
    counts = Counter(name for name, _ in pairs)
    twice = [name for name, count in counts.items() if count > 1]
    if twice:
        remedy = "Keep the right one and remove the other."
        raise JobFileFaultError([_stop(twice[0], f"“{twice[0]}” is entered twice.", remedy)])
    return dict(pairs)


def _readable(partial: object, *, path: str = "") -> list[str]:
    """Return what a broken file still tells, as `field = value`."""
    if isinstance(partial, dict):
        return [
            line
            for key, value in partial.items()
            for line in _readable(value, path=f"{path}.{key}" if path else str(key))
        ]
    if isinstance(partial, list):
        return [f"{path}: {len(partial)} entries"]
    return [f"{path} = {partial}"]


def _current(data: dict[str, Any]) -> dict[str, Any]:
    """Return the fields as this version holds them, without the version number."""
    version = data.get(_VERSION_FIELD)
    if not isinstance(version, int) or isinstance(version, bool) or version < 1:
        remedy = f"Add “{_VERSION_FIELD}”: {SCHEMA_VERSION} as the first field."
        raise JobFileFaultError(
            [_stop(_VERSION_FIELD, "The version of the job file is missing.", remedy)]
        )
    if version > SCHEMA_VERSION:
        text = f"This job was saved by a newer program (format {version})."
        remedy = (
            f"This program reads up to format {SCHEMA_VERSION}: update it. Nothing was changed."
        )
        raise JobFileFaultError([_stop(_VERSION_FIELD, text, remedy)])
    fields = {key: value for key, value in data.items() if key != _VERSION_FIELD}
    return migrations.with_old_names(
        migrations.migrated(fields, version=version, to=SCHEMA_VERSION)
    )


def _stop(field: str, text: str, remedy: str) -> Finding:
    return Finding(field, Severity.STOP, text, remedy)
