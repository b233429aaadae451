"""Cutting plans kept on disk by what they follow from, so that one job is planned once.

A kept plan is a file of its own, written beside and renamed: two programs may share the folder,
and each sees a file whole or not at all. What cannot be read counts as not kept. A plan is kept as
JSON and made anew from it, part by part, with the checks its parts have; nothing in the folder is
ever carried out as a program.
"""

import hashlib
import io
import os
import pickle
from contextlib import suppress
from functools import cache
from importlib import metadata
from pathlib import Path

from pydantic import TypeAdapter, ValidationError

import roofmodel.cutting
from roofmodel.cutting.plan import Plan
from roofmodel.foundation.errors import JobFileError, RoofModelError
from roofmodel.storage import safe_write

MOST_BYTES = 32 * 1024 * 1024
"""What the folder may hold, about 1,500 plans; those not asked for longest are dropped first."""

_SUFFIX = ".plan.json"
_SOLVERS = ("packingsolver", "scipy", "shapely", "numpy")
_PLAN: TypeAdapter[Plan] = TypeAdapter(Plan)


class PlanCache:
    """The plans kept in a folder; the folder is made with the first of them."""

    def __init__(self, folder: Path, *, most_bytes: int = MOST_BYTES) -> None:
        """Keep where the plans are; nothing is opened yet."""
        self.folder, self._most_bytes = folder, most_bytes

    def get(self, name: str) -> Plan | None:
        """Return the plan kept under a name; None if there is none that can be read."""
        path = self.folder / f"{name}{_SUFFIX}"
        try:
            found = _PLAN.validate_json(path.read_bytes())
        except (OSError, ValidationError, RoofModelError):
            return None
        # Asked for now: others are dropped before it.
        with suppress(OSError):
            os.utime(path)
        return found

    def put(self, name: str, plan: Plan) -> None:
        """Keep a plan under a name; a folder that cannot be written keeps nothing, without a word.

        A plan not kept costs time and nothing else.
        """
        path = self.folder / f"{name}{_SUFFIX}"
        with suppress(OSError, JobFileError):
            self.folder.mkdir(parents=True, exist_ok=True)
            safe_write.replace_bytes(path, _PLAN.dump_json(plan))
            self._drop_oldest()

    def _drop_oldest(self) -> None:
        kept = []
        for path in self.folder.glob(f"*{_SUFFIX}"):
            # Another program may drop what this one has just listed.
            with suppress(OSError):
                seen = path.stat()
                kept.append((seen.st_mtime_ns, path.name, seen.st_size))
        held = sum(size for _, _, size in kept)
        for _, name, size in sorted(kept):
            if held <= self._most_bytes:
                break
            with suppress(OSError):
                (self.folder / name).unlink()
            held -= size


def name_of(*content: object) -> str:
    """Return the name under which a plan that follows from some content is kept.

    Equal content has equal names in every process, as long as program and solvers stay the same.

    Parameters
    ----------
    content
        Values made of numbers, texts, tuples, mappings and frozen dataclasses.
    """
    stream = io.BytesIO()
    # Pickled to be named, never to be read. Fast, else it would matter which of two equal things
    # is the same thing.
    pickler = pickle.Pickler(stream)
    pickler.fast = True
    pickler.dump(content)
    return hashlib.sha256(_program().encode() + stream.getvalue()).hexdigest()[:40]


@cache
def _program() -> str:
    """Return what tells one program from another: the cutting room as written, and its solvers."""
    seen = hashlib.sha256()
    room = Path(roofmodel.cutting.__path__[0])
    for path in sorted(room.rglob("*.py")):
        seen.update(path.read_bytes())
    return " ".join([seen.hexdigest(), *(metadata.version(name) for name in _SOLVERS)])
