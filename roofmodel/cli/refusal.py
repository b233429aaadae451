"""How the command line says that it did not do what it was asked to."""

from rich.console import Console
from rich.text import Text

BAD_INPUT = 2
"""Exit code where the input has to change."""


def refuse(text: str) -> None:
    """Print why a command was not carried out."""
    Console(stderr=True, highlight=False).print(Text(text, style="red"))


def own_fault(error: Exception) -> None:
    """Print that the program itself failed, and what the user can do."""
    text = (
        f"This is a program error: {type(error).__name__}: {error}. Your job file has not "
        "been changed. Please report the error and include the job file; "
        "ROOFMODEL_TRACEBACK=1 shows where it happened."
    )
    refuse(text)
