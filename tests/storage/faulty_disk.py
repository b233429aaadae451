"""A disk that refuses, or a machine that stops, at the n-th thing asked of the disk."""

import errno
import os
import tempfile
from contextlib import contextmanager

ASKED = (
    (os, "open"),
    (os, "fsync"),
    (os, "replace"),
    (os, "rename"),
    (os, "mkdir"),
    (os, "chmod"),
    (os, "unlink"),
    (os, "fdopen"),
    (tempfile, "mkstemp"),
    (tempfile, "mkdtemp"),
)
"""What is asked of the disk when a file or a folder is written."""

ERRORS = (errno.ENOSPC, errno.EIO, errno.EACCES)


class Counter:
    """Counts what is asked of the disk; at the n-th it does something else."""

    def __init__(self, at, instead):
        self.asked, self.at, self.instead = 0, at, instead

    def around(self, true):
        def asked(*args, **named):
            self.asked += 1
            if self.asked == self.at:
                self.instead()
            return true(*args, **named)

        return asked


@contextmanager
def refusing(at, number):
    """Give a disk that answers the n-th thing asked of it with an error; yields the counter."""

    def refuse():
        raise OSError(number, os.strerror(number))

    with _counting(Counter(at, refuse)) as counter:
        yield counter


def stopped(at, work):
    """Do work in a process that stops without a word at the n-th thing; return whether it did."""
    child = os.fork()
    if child == 0:
        try:
            with _counting(Counter(at, lambda: os._exit(9))):
                work()
            os._exit(0)
        finally:
            os._exit(1)
    _, status = os.waitpid(child, 0)
    code = os.waitstatus_to_exitcode(status)
    assert code in (0, 9)
    return code == 9


@contextmanager
def _counting(counter):
    true = [(module, name, getattr(module, name)) for module, name in ASKED]
    for module, name, function in true:
        setattr(module, name, counter.around(function))
    try:
        yield counter
    finally:
        for module, name, function in true:
            setattr(module, name, function)
