"""Cutting plans the tests have made before, kept by their content for the length of a run.

Rooms above the cutting room only need some plan of a job; whether plans are right, and equal
whenever they are made, is for `tests/cutting`, which makes every plan anew.
"""

import hashlib
import io
import os
import pickle
from pathlib import Path
from types import SimpleNamespace

from roofmodel.cutting import plan as cutting_plan


def keeping(folder):
    """Return the door of the cutting room with plans kept in a folder, for all test processes."""
    return SimpleNamespace(
        plan=_kept(cutting_plan.plan, Path(folder)),
        plan_pieces=_kept(cutting_plan.plan_pieces, Path(folder)),
    )


def _kept(make, folder):
    def plan(*what, progress=None, cancelled=None, **how):
        file = folder / digest(make.__name__, what, how)
        if file.exists() and not (cancelled and cancelled()):
            found = pickle.loads(file.read_bytes())
            if progress:
                progress(found.sheets, found.bound.sheets)
            return found
        found = make(*what, progress=progress, cancelled=cancelled, **how)
        # Another process may be about to read: it sees the file whole or not at all.
        part = file.with_suffix(f".{os.getpid()}")
        part.write_bytes(pickle.dumps(found))
        part.replace(file)
        return found

    return plan


def digest(*content):
    """Return a name for some content: equal content has equal names, in every process."""
    stream = io.BytesIO()
    pickler = pickle.Pickler(stream)
    pickler.fast = True  # else it would matter which of two equal things is the same thing
    pickler.dump(content)
    return hashlib.sha256(stream.getvalue()).hexdigest()
