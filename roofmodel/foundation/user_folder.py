"""The folder that this program keeps what is the user's in: the one place that knows where.

In it stand the firm's own tables and logo, its materials and prices, the rack, and unsaved work.
Jobs stand where the user saves them.
"""

from pathlib import Path

from platformdirs import user_data_path


def data() -> Path:
    """Return the folder; it need not exist."""
    return user_data_path("roofmodel", appauthor=False)
