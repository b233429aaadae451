"""The rack keeps every offcut once, whatever happens to the program or the file."""

import os
import sqlite3
import subprocess
import sys
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest

from roofmodel.cutting.rack.offcut import RackPiece
from roofmodel.storage import rack_schema
from roofmodel.storage.rack import FILE, Rack
from roofmodel.storage.rack_entry import Cutting, Holder, RackDamagedError, RackError, RackState
from tests.storage import rack_hands
from tests.storage.rack_hands import DAY, JOB, cutting, piece

OTHER = Holder(job="J12", revision="B")
CHECKOUT = Path(__file__).parents[2]


@pytest.fixture
def rack(tmp_path):
    return Rack(tmp_path)


def states(rack):
    return {entry.piece.label: entry.state for entry in rack.entries()}


def hand(*arguments):
    """Start another process on a rack."""
    return subprocess.Popen(
        [sys.executable, rack_hands.__file__, *map(str, arguments)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONPATH": str(CHECKOUT)},
    )


def test_an_empty_rack_makes_no_file(rack):
    assert rack.entries() == ()
    assert not rack.file.exists()


def test_what_is_put_on_the_rack_comes_back_as_it_was_the_oldest_first(rack):
    corners = ((0, 0), (12000, 0), (8000, 9001), (0, 9001))
    raked = RackPiece(
        label="raked “2”",
        material="BRD-OSB18",
        since=DAY.replace(day=1),
        corners=corners,
        place="bay 2, left",
        may_turn_over=False,
    )
    batten = RackPiece.of_length_mm("batten", "TIM-B25", 3100.06, since=DAY)
    rack.add([piece("strip"), raked, batten])
    assert [entry.piece for entry in rack.entries()] == [raked, batten, piece("strip")]
    assert batten.length == 31000
    assert set(states(rack).values()) == {RackState.FREE}


def test_an_offcut_goes_from_free_to_reserved_to_used_and_back(rack):
    rack.add([piece("strip")])
    rack.reserve(["strip"], JOB)
    assert rack.entries()[0].holder == JOB
    rack.reserve(["strip"], JOB)
    rack.release(["strip"], JOB)
    assert states(rack) == {"strip": RackState.FREE}
    rack.use(["strip"], JOB)
    assert rack.entries()[0].words == "used by J11 revision A"
    rack.give_back(["strip"], JOB)
    assert states(rack) == {"strip": RackState.FREE}
    rack.remove(["strip"])
    assert rack.entries() == ()


def test_what_one_job_keeps_another_cannot_have(rack):
    rack.add([piece("strip"), piece("wide", size=(2440, 900))])
    rack.reserve(["strip"], JOB)
    before = rack.entries()
    for refused in (
        lambda: rack.reserve(["wide", "strip"], OTHER),
        lambda: rack.use(["wide", "strip"], OTHER),
        lambda: rack.release(["strip"], OTHER),
        lambda: rack.give_back(["strip"], JOB),
        lambda: rack.remove(["wide", "strip"]),
        lambda: rack.add([piece("new"), piece("strip")]),
        lambda: rack.reserve(["wide", "nowhere"], JOB),
        lambda: rack.reserve(["wide", "wide"], JOB),
    ):
        with pytest.raises(RackError, match="Nothing was changed"):
            refused()
        assert rack.entries() == before
    assert [one.label for one in rack.for_job("BRD-OSB18", JOB)] == ["strip", "wide"]
    assert [one.label for one in rack.for_job("BRD-OSB18", OTHER)] == ["wide"]
    assert rack.for_job("BRD-PB12", JOB) == ()


def test_a_cutting_is_written_back_once(rack):
    rack.add([piece("strip")])
    rack.reserve(["strip"], JOB)
    rack.write_back(JOB, [cutting()])
    after = rack.entries()
    assert states(rack)["strip"] is RackState.USED
    assert len(after) == 3
    with pytest.raises(RackError, match="has already been cut"):
        rack.write_back(JOB, [cutting()])
    assert rack.entries() == after


def test_a_cutting_of_two_materials_is_written_back_as_one(rack):
    rack.add([piece("strip")])
    taken = Cutting(material="BRD-PB12", used=("gone",), kept=())
    before = rack.entries()
    with pytest.raises(RackError, match="gone: not on the rack"):
        rack.write_back(JOB, [cutting(), taken])
    assert rack.entries() == before
    rack.write_back(JOB, [cutting(), replace(taken, used=())])
    assert len(rack.entries()) == 3


@pytest.mark.skipif(os.name == "nt", reason="a process is killed by a signal Windows lacks")
def test_a_program_killed_at_any_step_leaves_the_rack_as_before_or_as_after(tmp_path):
    killed = 0
    for statements in range(0, 40, 2):
        folder = tmp_path / str(statements)
        rack = Rack(folder)
        rack.add([piece("strip")])
        rack.reserve(["strip"], JOB)
        with hand("die", folder, statements) as other:
            said, _ = other.communicate(timeout=30)
        found = states(rack)
        before = found == {"strip": RackState.RESERVED}
        after = found["strip"] is RackState.USED and len(found) == 3
        assert before or after, f"half done after {statements} statements: {found}"
        if said == "alive":
            assert after
            break
        killed += 1
        rack.release(["strip"], JOB) if before else rack.give_back(["strip"], JOB)
    assert killed >= 5


def test_two_programs_never_take_the_same_offcut(rack, tmp_path):
    rack.add([piece(f"R{number}") for number in range(20)])
    others = [hand("take", tmp_path, code) for code in ("J1", "J2")]
    for other in others:
        assert other.stdout.readline() == "ready\n"
    for other in others:
        other.stdin.write("go\n")
        other.stdin.flush()
    taken = []
    for other in others:
        said, _ = other.communicate(timeout=60)
        taken.append(said.split())
    assert sorted(taken[0] + taken[1]) == sorted(f"R{number}" for number in range(20))
    holders = {entry.piece.label: entry.holder.job for entry in rack.entries()}
    assert holders == {
        label: code for code, got in zip(("J1", "J2"), taken, strict=True) for label in got
    }


@pytest.mark.parametrize(
    "spoil",
    [
        lambda whole: b"This is a letter, not a rack." * 200,
        lambda whole: whole[: len(whole) // 2],
        lambda whole: whole[:4096] + bytes(len(whole) - 4096),
        lambda whole: whole.replace(b"2026-11-02", b"2026-31-02"),
        lambda whole: whole.replace(b"[24400, 0]", b"[24400.5]\x20"),
    ],
    ids=["other content", "cut short", "blank pages", "no such day", "no whole tenths"],
)
def test_a_damaged_file_is_refused_and_left_as_it_is(rack, spoil):
    rack.add([piece(f"R{number}") for number in range(40)])
    spoilt = spoil(rack.file.read_bytes())
    rack.file.write_bytes(spoilt)
    for refused in (
        rack.entries,
        lambda: rack.add([piece("new")]),
        lambda: rack.reserve(["R1"], JOB),
    ):
        with pytest.raises(RackDamagedError, match="It has been left alone"):
            refused()
        assert rack.file.read_bytes() == spoilt


def test_the_file_of_another_program_is_refused(rack):
    with closing(sqlite3.connect(rack.file)) as other:
        other.execute("CREATE TABLE stamps (country TEXT)")
        other.commit()
    before = rack.file.read_bytes()
    with pytest.raises(RackDamagedError, match="not a rack file of this program"):
        rack.add([piece("strip")])
    assert rack.file.read_bytes() == before


def test_a_rack_of_a_newer_program_is_refused_and_of_an_older_one_brought_up_to_date(tmp_path):
    def colour(connection):
        connection.execute("ALTER TABLE piece ADD COLUMN colour TEXT NOT NULL DEFAULT 'white'")

    old = Rack(tmp_path)
    old.add([piece("strip")])
    newer = Rack(tmp_path, steps={**rack_schema.STEPS, 1: colour})
    assert [entry.piece.label for entry in newer.entries()] == ["strip"]
    before = old.file.read_bytes()
    with pytest.raises(RackError, match="newer program"):
        old.entries()
    assert old.file.read_bytes() == before


def test_a_step_that_fails_leaves_the_older_rack(tmp_path):
    def broken(connection):
        connection.execute("ALTER TABLE piece ADD COLUMN colour TEXT")
        connection.execute("ALTER TABLE nothing ADD COLUMN colour TEXT")

    old = Rack(tmp_path)
    old.add([piece("strip")])
    with pytest.raises(RackError):
        Rack(tmp_path, steps={**rack_schema.STEPS, 1: broken}).entries()
    assert [entry.piece.label for entry in old.entries()] == ["strip"]


def test_a_rack_that_is_locked_is_refused_in_words(rack, monkeypatch):
    rack.add([piece("strip")])
    monkeypatch.setattr("roofmodel.storage.rack._WAIT_S", 0.05)
    with closing(sqlite3.connect(rack.file, isolation_level=None)) as other:
        other.execute("BEGIN EXCLUSIVE")
        with pytest.raises(RackError, match="no other program is using it"):
            rack.reserve(["strip"], JOB)
        other.execute("ROLLBACK")
    assert states(rack) == {"strip": RackState.FREE}


def test_a_folder_that_cannot_be_made_is_refused_in_words(tmp_path):
    (tmp_path / "data").write_text("a file in the place of the folder", encoding="utf-8")
    with pytest.raises(RackError, match="could not be opened"):
        Rack(tmp_path / "data" / "roofmodel").add([piece("strip")])


def test_an_empty_file_left_by_a_crash_becomes_a_rack(tmp_path):
    (tmp_path / FILE).write_bytes(b"")
    rack = Rack(tmp_path)
    rack.add([piece("strip")])
    assert states(rack) == {"strip": RackState.FREE}
