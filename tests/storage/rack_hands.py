"""What other processes do to a rack in the tests: take offcuts, or die in the middle."""

import os
import signal
import sqlite3
import sys
from datetime import date
from pathlib import Path

from roofmodel.cutting.rack.offcut import RackPiece, rectangle
from roofmodel.storage.rack import Rack
from roofmodel.storage.rack_entry import Cutting, Holder, RackError

DAY = date(2026, 11, 2)
JOB = Holder(job="J11", revision="A")


def piece(label, *, material="BRD-OSB18", size=(2440, 610), **changes):
    return RackPiece.of_mm(label, material, rectangle(*size), **{"since": DAY, **changes})


def cutting():
    """One material cut: a strip is used up, two offcuts are kept."""
    kept = (piece("J11-A-OSB18-S1-1", size=(600, 400)), piece("J11-A-OSB18-S2-1", size=(900, 300)))
    return Cutting(material="BRD-OSB18", used=("strip",), kept=kept)


class _Mortal(sqlite3.Connection):
    """A connection whose process is killed before its n-th statement."""

    left = 0

    def execute(self, *arguments):
        type(self).left -= 1
        if type(self).left < 0:
            os.kill(os.getpid(), signal.SIGKILL)
        return super().execute(*arguments)

    def executemany(self, *arguments):
        type(self).left -= 1
        if type(self).left < 0:
            os.kill(os.getpid(), signal.SIGKILL)
        return super().executemany(*arguments)


def die_while_writing_back(folder, statements):
    """Write a cutting back, and be killed after so many statements; say so if it was not."""
    _Mortal.left = statements
    connect = sqlite3.connect
    sqlite3.connect = lambda *a, **k: connect(*a, **k, factory=_Mortal)
    Rack(folder).write_back(JOB, [cutting()])
    sys.stdout.write("alive")


def take_all(folder, code):
    """Try to reserve every offcut, one at a time; say which were taken."""
    rack = Rack(folder)
    sys.stdout.write("ready\n")
    sys.stdout.flush()
    sys.stdin.readline()
    for number in range(20):
        try:
            rack.reserve([f"R{number}"], Holder(job=code, revision="A"))
            sys.stdout.write(f"R{number}\n")
        except RackError:
            continue


if __name__ == "__main__":
    what, where, how = sys.argv[1:]
    if what == "die":
        die_while_writing_back(Path(where), int(how))
    else:
        take_all(Path(where), how)
