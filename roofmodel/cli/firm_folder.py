"""Where the firm's own is kept, and its tables: what every command that opens a job needs of it."""

import os
from pathlib import Path

from roofmodel.foundation import user_folder
from roofmodel.workbench.firm import tables
from roofmodel.workbench.firm.tables import Tables

VARIABLE = "ROOFMODEL_FIRM"


def folder() -> Path:
    """Return the folder of the firm's own; it need not exist."""
    named = os.environ.get(VARIABLE)
    return Path(named) if named else user_folder.data() / tables.FOLDER


def own_tables() -> Tables:
    """Return the tables a command reckons with.

    Raises
    ------
    ResourceError
        If the firm's own cannot be read.
    """
    return tables.load(folder())
