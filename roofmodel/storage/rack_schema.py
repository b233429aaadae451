"""The tables of the rack, made and brought up to date one step at a time."""

import sqlite3
from collections.abc import Callable, Mapping

from roofmodel.storage.rack_entry import RackDamagedError, RackError

APPLICATION = 0x726F6F66
"""Written in the head of the file: it is a rack, and no other program's."""

Step = Callable[[sqlite3.Connection], None]


def _first(connection: sqlite3.Connection) -> None:
    """Make the tables: offcuts, and which cutting has been written back."""
    connection.execute(f"PRAGMA application_id = {APPLICATION}")
    connection.execute(
        """
        CREATE TABLE piece (
            label TEXT PRIMARY KEY,
            material TEXT NOT NULL,
            corners TEXT,
            length INTEGER,
            since TEXT NOT NULL,
            place TEXT NOT NULL,
            may_turn_over INTEGER NOT NULL CHECK (may_turn_over IN (0, 1)),
            state TEXT NOT NULL CHECK (state IN ('free', 'reserved', 'used')),
            job TEXT,
            revision TEXT,
            CHECK ((corners IS NULL) <> (length IS NULL)),
            CHECK ((state = 'free') = (job IS NULL)),
            CHECK ((job IS NULL) = (revision IS NULL))
        ) STRICT
        """
    )
    connection.execute(
        """
        CREATE TABLE cutting (
            job TEXT NOT NULL,
            revision TEXT NOT NULL,
            material TEXT NOT NULL,
            PRIMARY KEY (job, revision, material)
        ) STRICT
        """
    )


STEPS: Mapping[int, Step] = {0: _first}
"""What brings a file from one version to the next; an empty file has version 0."""


def check(connection: sqlite3.Connection, *, name: str, newest: int) -> int:
    """Return the version of a file, once it is known to be a whole rack.

    Raises
    ------
    RackDamagedError
        If the file is damaged or some other program's.
    RackError
        If it was written by a newer program.
    """
    result = connection.execute("PRAGMA quick_check(1)").fetchone()
    if result != ("ok",):
        raise RackDamagedError(damaged(name))
    (version,) = connection.execute("PRAGMA user_version").fetchone()
    (owner,) = connection.execute("PRAGMA application_id").fetchone()
    (tables,) = connection.execute("SELECT count(*) FROM sqlite_master").fetchone()
    if (owner, version) != (APPLICATION, max(version, 1)) and (owner, version, tables) != (0, 0, 0):
        raise RackDamagedError(
            f"{name} is not a rack file of this program. It has been left alone. Move it "
            "elsewhere and an empty rack will be created in its place."
        )
    if version > newest:
        raise RackError(
            f"{name} was saved by a newer program (format {version}); this one reads up "
            f"to format {newest}. Nothing was changed. Update the program."
        )
    return int(version)


def damaged(name: str) -> str:
    """Return what is said of a file that cannot be trusted."""
    return (
        f"{name} is damaged and cannot be read as a rack file. It has been left alone. "
        "Restore the last copy, or move the file elsewhere and enter the offcuts on the "
        "rack again."
    )


def migrate(connection: sqlite3.Connection, version: int, steps: Mapping[int, Step]) -> None:
    """Bring the tables up to date, within the transaction that is open."""
    for number in range(version, max(steps) + 1):
        steps[number](connection)
        connection.execute(f"PRAGMA user_version = {number + 1}")
