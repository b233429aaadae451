"""The offcut rack: one file in which every change is whole, and no offcut is promised twice.

Each operation is one transaction that locks the file before it looks, so that two programs on one
rack see each other's changes in full or not at all. A crash leaves what was there before.
"""

import sqlite3
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import closing, contextmanager
from pathlib import Path

from roofmodel.cutting.rack.offcut import RackPiece
from roofmodel.storage import rack_rows, rack_schema
from roofmodel.storage.rack_entry import (
    Cutting,
    Holder,
    RackDamagedError,
    RackEntry,
    RackError,
    RackState,
)
from roofmodel.storage.rack_schema import STEPS, Step

FILE = "rack.sqlite3"

_WAIT_S = 10.0
"""How long another program's change is waited for; each takes a few hundredths of a second."""

_WRITTEN = "SELECT 1 FROM cutting WHERE job = ? AND revision = ? AND material = ?"

_Allowed = Callable[[RackEntry], bool]


class Rack:
    """The rack kept in a folder; the file is made by the first offcut put on it.

    Every method raises `RackError` where it refuses, `RackDamagedError` where the file cannot be
    trusted; either leaves the rack as it was.
    """

    def __init__(self, folder: Path, *, steps: Mapping[int, Step] = STEPS) -> None:
        """Keep where the rack is; nothing is opened yet."""
        self.file = folder / FILE
        self._steps = steps

    def entries(self) -> tuple[RackEntry, ...]:
        """Return everything on the rack, the oldest first."""
        if not self.file.exists():
            return ()
        with self._changing() as connection:
            return rack_rows.entries(connection, self.file.name)

    def snapshot(self) -> bytes:
        """Return the file as it stands between two changes, to be kept elsewhere."""
        with self._changing() as connection:
            return connection.serialize()

    def for_job(self, material: str, holder: Holder) -> tuple[RackPiece, ...]:
        """Return the offcuts of a material that a job may take: free, or kept for it already."""
        return tuple(
            entry.piece
            for entry in self.entries()
            if entry.piece.material == material and _may_take(entry, holder)
        )

    def add(self, pieces: Sequence[RackPiece]) -> None:
        """Put offcuts on the rack, all or none."""
        with self._changing() as connection:
            rack_rows.insert(connection, pieces)

    def remove(self, labels: Sequence[str]) -> None:
        """Take offcuts off the rack for good; none that is kept for a job."""
        with self._changing() as connection:
            entries = self._found(connection, labels)
            _refuse(
                entries, lambda entry: entry.state is not RackState.RESERVED, "Release it first."
            )
            connection.executemany("DELETE FROM piece WHERE label = ?", [(one,) for one in labels])

    def reserve(self, labels: Sequence[str], holder: Holder) -> None:
        """Keep offcuts for a job, all or none; those kept for it already stay so."""
        with self._changing() as connection:
            entries = self._found(connection, labels)
            _refuse(entries, lambda entry: _may_take(entry, holder), "Plan the job again.")
            rack_rows.mark(connection, labels, RackState.RESERVED, holder)

    def release(self, labels: Sequence[str], holder: Holder) -> None:
        """Let go of offcuts a job has kept."""
        self._move(labels, holder, RackState.RESERVED, RackState.FREE)

    def use(self, labels: Sequence[str], holder: Holder) -> None:
        """Note that offcuts were cut up: they were free, or kept for this job."""
        with self._changing() as connection:
            self._use(connection, labels, holder)

    def give_back(self, labels: Sequence[str], holder: Holder) -> None:
        """Return offcuts noted as cut up by a job, but not cut after all."""
        self._move(labels, holder, RackState.USED, RackState.FREE)

    def write_back(self, holder: Holder, cuttings: Sequence[Cutting]) -> None:
        """Note in one step what a cutting took from the rack and what it left worth keeping.

        Each material of a job and revision is written back once.
        """
        with self._changing() as connection:
            for one in cuttings:
                row = (holder.job, holder.revision, one.material)
                if connection.execute(_WRITTEN, row).fetchone():
                    raise RackError(
                        f"{one.material} of {holder} has already been cut and its offcuts "
                        "are on the rack. Nothing was changed. If it is being cut again, "
                        "raise the revision."
                    )
                connection.execute("INSERT INTO cutting VALUES (?, ?, ?)", row)
                self._use(connection, one.used, holder)
                rack_rows.insert(connection, one.kept)

    def _use(self, connection: sqlite3.Connection, labels: Sequence[str], holder: Holder) -> None:
        entries = self._found(connection, labels)
        _refuse(entries, lambda entry: _may_take(entry, holder), "Plan the job again.")
        rack_rows.mark(connection, labels, RackState.USED, holder)

    def _move(
        self, labels: Sequence[str], holder: Holder, before: RackState, after: RackState
    ) -> None:
        with self._changing() as connection:
            entries = self._found(connection, labels)
            _refuse(
                entries,
                lambda entry: entry.state is before and entry.holder == holder,
                f"{holder} can only give back what it has {before.value}.",
            )
            rack_rows.mark(connection, labels, after, None if after is RackState.FREE else holder)

    def _found(self, connection: sqlite3.Connection, labels: Sequence[str]) -> list[RackEntry]:
        """Return the entries with the labels; refuse one that is not there, or named twice."""
        known = {
            entry.piece.label: entry for entry in rack_rows.entries(connection, self.file.name)
        }
        missing = [label for label in labels if label not in known]
        if missing:
            raise RackError(
                f"{', '.join(missing)}: not on the rack. Nothing was changed. Check the label."
            )
        if len(set(labels)) < len(labels):
            raise RackError("An offcut is listed twice. Nothing was changed. List each one once.")
        return [known[label] for label in labels]

    @contextmanager
    def _changing(self) -> Iterator[sqlite3.Connection]:
        """Open the file for one transaction: whole when it ends, undone by any error."""
        name = self.file.name
        try:
            self.file.parent.mkdir(parents=True, exist_ok=True)
            opened = sqlite3.connect(self.file, timeout=_WAIT_S, isolation_level=None)
            with closing(opened) as connection:
                connection.execute("PRAGMA synchronous = FULL")
                rack_schema.check(connection, name=name, newest=max(self._steps) + 1)
                connection.execute("BEGIN IMMEDIATE")
                # Looked at again under the lock: another program may have made the tables.
                (version,) = connection.execute("PRAGMA user_version").fetchone()
                try:
                    rack_schema.migrate(connection, version, self._steps)
                    # Read before anything is changed: a rack with a row that makes no offcut
                    # is damaged, and nothing is written to it.
                    rack_rows.entries(connection, name)
                    yield connection
                except BaseException:
                    connection.execute("ROLLBACK")
                    raise
                connection.execute("COMMIT")
        except sqlite3.OperationalError as error:
            raise RackError(_not_now(self.file, str(error))) from error
        except sqlite3.DatabaseError as error:
            raise RackDamagedError(rack_schema.damaged(name)) from error
        except OSError as error:
            raise RackError(_not_now(self.file, error.strerror or str(error))) from error


def _may_take(entry: RackEntry, holder: Holder) -> bool:
    return entry.state is RackState.FREE or (
        entry.state is RackState.RESERVED and entry.holder == holder
    )


def _refuse(entries: Sequence[RackEntry], allowed: _Allowed, remedy: str) -> None:
    wrong = [f"{one.piece.label} is {one.words}" for one in entries if not allowed(one)]
    if wrong:
        raise RackError(f"{', '.join(wrong)}. Nothing was changed. {remedy}")


def _not_now(file: Path, reason: str) -> str:
    return (
        f"The rack {file.name} in {file.parent} could not be opened or changed: {reason}. "
        "Nothing was changed. Make sure no other program is using it and that you can "
        "write to the folder, then try again."
    )
