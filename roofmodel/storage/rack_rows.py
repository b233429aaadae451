"""The rows of the rack's tables, and what they mean."""

import json
import sqlite3
from collections.abc import Sequence
from datetime import date

from roofmodel.cutting.parts.part import TenthCorners
from roofmodel.cutting.rack.offcut import RackPiece
from roofmodel.foundation.errors import CuttingError
from roofmodel.storage import rack_schema
from roofmodel.storage.rack_entry import (
    Holder,
    RackDamagedError,
    RackEntry,
    RackError,
    RackState,
)

_COLUMNS = "label, material, corners, length, since, place, may_turn_over, state, job, revision"

_Row = tuple[str, str, str | None, int | None, str, str, int, str, str | None, str | None]


def mark(
    connection: sqlite3.Connection,
    labels: Sequence[str],
    state: RackState,
    holder: Holder | None,
) -> None:
    """Give offcuts a state, and the job it is for."""
    job, revision = (holder.job, holder.revision) if holder else (None, None)
    connection.executemany(
        "UPDATE piece SET state = ?, job = ?, revision = ? WHERE label = ?",
        [(state.value, job, revision, label) for label in labels],
    )


def insert(connection: sqlite3.Connection, pieces: Sequence[RackPiece]) -> None:
    """Add offcuts, free; refuse a label that is there already."""
    for piece in pieces:
        try:
            connection.execute(
                f"INSERT INTO piece ({_COLUMNS}) VALUES (?, ?, ?, ?, ?, ?, ?, ?, NULL, NULL)",
                (
                    piece.label,
                    piece.material,
                    json.dumps(piece.corners) if piece.corners else None,
                    piece.length,
                    piece.since.isoformat(),
                    piece.place,
                    int(piece.may_turn_over),
                    RackState.FREE.value,
                ),
            )
        except sqlite3.IntegrityError as error:
            raise RackError(
                f"{piece.label} is already on the rack. Nothing was changed. Give the "
                "offcut another label."
            ) from error


def entries(connection: sqlite3.Connection, name: str) -> tuple[RackEntry, ...]:
    """Return every offcut, the oldest first; refuse rows that make none."""
    rows = connection.execute(f"SELECT {_COLUMNS} FROM piece ORDER BY since, label").fetchall()
    try:
        return tuple(_entry(row) for row in rows)
    except (ValueError, TypeError, CuttingError) as error:
        raise RackDamagedError(rack_schema.damaged(name)) from error


def _entry(row: _Row) -> RackEntry:
    label, material, corners, length, since, place, may_turn_over, state, job, revision = row
    piece = RackPiece(
        label=label,
        material=material,
        since=date.fromisoformat(since),
        corners=_corners(json.loads(corners)) if corners is not None else (),
        length=length,
        place=place,
        may_turn_over=bool(may_turn_over),
    )
    holder = Holder(job=job, revision=revision) if job and revision else None
    return RackEntry(piece=piece, state=RackState(state), holder=holder)


def _corners(corners: Sequence[tuple[int, int]]) -> TenthCorners:
    if not all(type(x) is int and type(y) is int for x, y in corners):
        raise ValueError("corners are whole tenths of a millimetre")
    return tuple((x, y) for x, y in corners)
