"""Starts the command line, and the window when it is asked for."""

import gc
import sys
from pathlib import Path

from roofmodel.cli import main as command_line
from roofmodel.foundation import plans_folder

_LOOK_THROUGH_AFTER = 50_000
"""Things made before Python looks for those that are in no use any more; its own number is 700."""


def main() -> int:
    """Run one command and return its exit code: 0, 2 for bad input, 1 for a fault of our own."""
    plans_folder.choose_usual()
    # Nearly all that is made while a command loads stays until it ends. Python looks through it for
    # what is not needed any more each time some 700 things were added: a tenth of a short command.
    gc.set_threshold(_LOOK_THROUGH_AFTER)
    return command_line.run(sys.argv[1:], open_window=_open_window)


def _open_window(job_path: Path | None) -> int:
    # Imported here: every other command runs without Qt and starts faster for it.
    from roofmodel.desktop import application

    return application.run(job_path)


if __name__ == "__main__":
    sys.exit(main())
