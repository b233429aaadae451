"""The option that names a catalogue for any command; reading it is left to who needs it."""

from contextvars import ContextVar
from pathlib import Path
from typing import Annotated

import typer

VARIABLE = "ROOFMODEL_CATALOGUE"

_named: ContextVar[Path | None] = ContextVar("named", default=None)
"""What `choose` was told for the command that runs now."""


def choose(
    *,
    file: Annotated[
        Path | None,
        typer.Option(
            "--catalogue",
            metavar="FILE",
            envvar=VARIABLE,
            help="Catalogue whose rows replace the supplied ones; the firm's own if left out.",
        ),
    ] = None,
) -> None:
    """Keep which catalogue was named; it is read only when a command needs it."""
    _named.set(file)


def named() -> Path | None:
    """Return the catalogue that was named; None when none was."""
    return _named.get()
