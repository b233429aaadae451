"""Everything that is the firm's in one file, to be kept or shared: written, checked, taken.

The file is JSON with a manifest: every file of the firm's folder by its name, as text or, for the
logo, in base 64, each with its checksum. Nothing in it can unpack to more than it is, and no name
in it can lead out of the folder: only names this program gives itself are taken.
"""

import base64
import binascii
import hashlib
import json
import re
import tempfile
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import Any

from roofmodel.buildups import catalogue_file, own
from roofmodel.foundation import disk
from roofmodel.foundation.errors import JobFileError, ResourceError, RoofModelError
from roofmodel.storage import door, job_file, safe_write
from roofmodel.workbench.firm import firm, firm_catalogue, job_template, table, van_stock
from roofmodel.workbench.firm.table import TABLES

SUFFIX = ".rooffirm.json"
FORMAT, VERSION = "everything of a roof firm", 1
MOST_BYTES = 25_000_000
_MOST_FILES = 300
_LOGO = re.compile(r"[A-Za-z0-9][A-Za-z0-9_ -]{0,40}\.(png|jpg|jpeg)")
_PLAIN = (*(one.file for one in TABLES), van_stock.FILE)
_TEMPLATES = f"{job_template.FOLDER}/"
_NOT_OURS = f"Choose a file that ends in {SUFFIX}, as the program writes it."


@dataclass(frozen=True, slots=True, kw_only=True)
class SharedFile:
    """What a file holds: content by name, whose it is, and when it was made."""

    name: str
    firm: str
    made_on: str
    files: Mapping[str, bytes]


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """What taking a shared file would do to one row or one file."""

    part: str
    code: str
    what: str


def dumps(folder: Path, catalogue: Path, *, made_on: date) -> str:
    """Return everything of a firm as the text of a file.

    Raises
    ------
    ResourceError
        If the firm has nothing of its own, or some of it cannot be read: only what can be taken
        again is given away.
    """
    found = dict(_there(folder, catalogue))
    if not found:
        raise ResourceError("The firm has nothing of its own yet. There is nothing to export.")
    shared = SharedFile(
        name="export", firm=firm.load(folder).text.firm.name, made_on=f"{made_on}", files=found
    )
    check(shared)
    content = {
        "format": FORMAT,
        "version": VERSION,
        "firm": shared.firm,
        "made_on": shared.made_on,
        "files": {name: _packed(name, stored) for name, stored in found.items()},
    }
    return json.dumps(content, indent=1, ensure_ascii=False) + "\n"


def read(path: Path) -> SharedFile:
    """Return what a shared file holds, every name and checksum looked at.

    Raises
    ------
    ResourceError
        If it cannot be opened, is too large, damaged, of a newer program, or no such file.
    """
    try:
        if path.stat().st_size > MOST_BYTES:
            told = (
                f"{path.name} has more than {MOST_BYTES / 1e6:g} MB, which is too large "
                "for a firm's data."
            )
            raise ResourceError(f"{told} {_NOT_OURS}")
        text = path.read_text(encoding="utf-8")
    except UnicodeDecodeError as error:
        raise ResourceError(f"{path.name} is not a text file. {_NOT_OURS}") from error
    except OSError as error:
        raise ResourceError(f"{path} cannot be opened: {error.strerror}.") from error
    return _shared(text, path.name)


def check(shared: SharedFile) -> None:
    """Refuse a file of which any part could not be used.

    Raises
    ------
    ResourceError
        With the first part that is wrong, by file, row and field.
    """
    with tempfile.TemporaryDirectory() as there:
        folder = Path(there)
        for name, stored in shared.files.items():
            (folder / name).parent.mkdir(exist_ok=True)
            (folder / name).write_bytes(stored)
        try:
            firm.load(folder)
            firm_catalogue.load(folder)
            van_stock.read(folder / van_stock.FILE)
            for template in job_template.names(folder):
                job_template.start(template, folder)
        except RoofModelError as error:
            told = " ".join(str(error).replace(str(folder), shared.name).split())
            raise ResourceError(f"{shared.name}: {told} Nothing was changed.") from error


def changes(shared: SharedFile, folder: Path, catalogue: Path) -> tuple[Change, ...]:
    """Return what taking a shared file would do, row by row; nothing is taken.

    Raises
    ------
    ResourceError
        If a part of it could not be used.
    """
    check(shared)
    with tempfile.TemporaryDirectory() as there:
        after = Path(there)
        for name, stored in shared.files.items():
            (after / name).parent.mkdir(exist_ok=True)
            (after / name).write_bytes(stored)
        return tuple(_changes(shared, after, folder, catalogue))


def take(shared: SharedFile, folder: Path, catalogue: Path, *, day: date) -> tuple[Path, ...]:
    """Put what a shared file holds in the place of the firm's own; return the files written.

    What the file does not hold stays. Each file that was there stays beside its new one, and where
    one cannot be written all are as they were.

    Raises
    ------
    ResourceError
        If a part of it could not be used, or a file cannot be written.
    """
    check(shared)
    done: list[tuple[Path, bytes | None]] = []
    try:
        for name, stored in shared.files.items():
            path = catalogue if name == own.FILE_NAME else folder / name
            disk_before = path.read_bytes() if path.exists() else None
            path.parent.mkdir(parents=True, exist_ok=True)
            if name == own.FILE_NAME:
                _take_catalogue(stored, path, day)
            else:
                safe_write.replace_bytes(path, stored, keep=table.before(path))
            done.append((path, disk_before))
    except (OSError, JobFileError, ResourceError) as error:
        _put_back(done)
        told = error.strerror if isinstance(error, OSError) else str(error)
        raise ResourceError(
            f"{shared.name} could not be taken: {told} Everything is as before."
        ) from error
    return tuple(path for path, _ in done)


def _take_catalogue(stored: bytes, path: Path, day: date) -> None:
    rows = catalogue_file.loads(stored.decode(), name=path.name)
    there = firm_catalogue.own_rows(path, day=day)
    firm_catalogue.save(replace(rows, version=there.version), path, day=day)


def _put_back(done: list[tuple[Path, bytes | None]]) -> None:
    for path, stored in done:
        if stored is None:
            path.unlink(missing_ok=True)
        else:
            safe_write.replace_bytes(path, stored)
    for folder in {path.parent for path, _ in done}:
        disk.sync_folder(folder)


def _there(folder: Path, catalogue: Path) -> Iterator[tuple[str, bytes]]:
    """Yield what a firm has, by the names of a shared file."""
    for name in _PLAIN:
        if (folder / name).exists():
            yield name, (folder / name).read_bytes()
    if catalogue.exists():
        yield own.FILE_NAME, catalogue.read_bytes()
    if folder.is_dir():
        for path in sorted(folder.iterdir()):
            if _LOGO.fullmatch(path.name):
                yield path.name, path.read_bytes()
    for name in job_template.names(folder):
        path = job_template.file(name, folder)
        yield f"{_TEMPLATES}{path.name}", path.read_bytes()


def _packed(name: str, stored: bytes) -> dict[str, str]:
    mark = hashlib.sha256(stored).hexdigest()
    if _LOGO.fullmatch(name):
        return {"sha256": mark, "base64": base64.b64encode(stored).decode()}
    return {"sha256": mark, "text": stored.decode("utf-8")}


def _shared(text: str, name: str) -> SharedFile:
    if not text.strip():
        raise ResourceError(f"{name} is empty. {_NOT_OURS}")
    if door.nesting_fault(text) is not None:
        raise ResourceError(f"{name} is not a firm's file: it is nested too deep. {_NOT_OURS}")
    try:
        found = json.loads(text)
    except ValueError as error:
        told = f"{name} is cut short or damaged: {error}."
        raise ResourceError(f"{told} Ask for the file again.") from error
    if not isinstance(found, dict) or found.get("format") != FORMAT:
        raise ResourceError(f"{name} is not a firm's file. {_NOT_OURS}")
    version = found.get("version")
    if type(version) is not int or not 1 <= version <= VERSION:
        told = f"{name} has version {version}; this program reads version {VERSION}."
        raise ResourceError(f"{told} Update the program to open it.")
    files = found.get("files")
    if not isinstance(files, dict) or not 0 < len(files) <= _MOST_FILES:
        raise ResourceError(f"{name} holds no files, or more than {_MOST_FILES}. {_NOT_OURS}")
    return SharedFile(
        name=name,
        firm=f"{found.get('firm', '')}"[:120],
        made_on=f"{found.get('made_on', '')}"[:10],
        files={inner: _unpacked(inner, entry, name) for inner, entry in files.items()},
    )


def _unpacked(inner: str, entry: Any, name: str) -> bytes:  # noqa: ANN401 - as JSON has it
    if not _may_be(inner):
        told = f"{name}: “{inner[:60]}” is not a firm's file."
        raise ResourceError(f"{told} Nothing was changed. {_NOT_OURS}")
    try:
        stored = (
            base64.b64decode(entry["base64"], validate=True)
            if _LOGO.fullmatch(inner)
            else entry["text"].encode("utf-8")
        )
        mark = entry["sha256"]
    except (KeyError, TypeError, AttributeError, binascii.Error, UnicodeEncodeError) as error:
        told = f"{name}: {inner} is damaged."
        raise ResourceError(f"{told} Nothing was changed. Ask for the file again.") from error
    if hashlib.sha256(stored).hexdigest() != mark:
        told = f"{name}: {inner} has been changed since the file was written."
        raise ResourceError(f"{told} Nothing was changed. Ask for the file again.")
    if len(stored) > door.MOST_BYTES:
        raise ResourceError(f"{name}: {inner} is too large. Nothing was changed. {_NOT_OURS}")
    return stored


def _may_be(inner: str) -> bool:
    """Return whether a name is one this program gives: nothing else is ever written."""
    if inner in (own.FILE_NAME, *_PLAIN) or _LOGO.fullmatch(inner):
        return True
    stem = inner.removeprefix(_TEMPLATES).removesuffix(job_file.SUFFIX)
    whole = f"{_TEMPLATES}{stem}{job_file.SUFFIX}"
    return inner == whole and bool(job_template.NAME.fullmatch(stem))


def _changes(shared: SharedFile, after: Path, folder: Path, catalogue: Path) -> Iterator[Change]:
    for one in TABLES:
        if one.file in shared.files:
            yield from _of_rows(one.title, one.laid(folder).rows, one.laid(after).rows)
    if own.FILE_NAME in shared.files:
        now = (
            firm_catalogue.load_file(catalogue) if catalogue.exists() else firm_catalogue.load(None)
        )
        there = firm_catalogue.load(after)
        yield from _of_rows("Catalogue", now.materials, there.materials)
    if van_stock.FILE in shared.files:
        on_van = [van_stock.read(at / van_stock.FILE) for at in (folder, after)]
        yield from _of_rows("On the van", *on_van)
    yield from _of_files(shared, folder)


def _of_files(shared: SharedFile, folder: Path) -> Iterator[Change]:
    """Yield what becomes of the logo and of templates, which are taken whole."""
    for name, stored in shared.files.items():
        if _LOGO.fullmatch(name) or name.startswith(_TEMPLATES):
            path = folder / name
            if not path.exists():
                yield Change(part="Files", code=name, what="new")
            elif path.read_bytes() != stored:
                yield Change(part="Files", code=name, what="changed")


def _of_rows(part: str, now: Mapping[str, Any], then: Mapping[str, Any]) -> Iterator[Change]:
    for code in dict.fromkeys((*now, *then)):
        if code not in then:
            yield Change(part=part, code=code, what="withdrawn or gone")
        elif code not in now:
            yield Change(part=part, code=code, what="new")
        elif now[code] != then[code]:
            yield Change(part=part, code=code, what="changed")
