"""What a worker may do to a batch in the tests, besides planning."""

import os
import time
from pathlib import Path

from roofmodel.workbench.many import batch
from roofmodel.workbench.many.batch import Outcome

WAITED = "ROOFMODEL_TEST_WAITED"
"""The variable that names the file a slow job leaves if it was let go on to its end."""


def done_unless_told_to_die(task):
    """End the process on some jobs, as a crash or a lack of memory would."""
    if "killer" in task.name:
        os._exit(9)
    return batch.done(task)


def slow(task):
    """Take so long that a test waits in vain, unless the work is broken off."""
    time.sleep(60.0)
    Path(os.environ[WAITED]).touch()
    return Outcome(name=task.name)


def slow_unless_first(task):
    """Do the first job at once, and take a minute for any other."""
    return batch.done(task) if task.name.startswith("a.") else slow(task)
