"""Starts the command that was typed; every fault ends in a sentence."""

import os
from collections.abc import Callable, Sequence
from pathlib import Path

import typer

from roofmodel.cli import named_catalogue, refusal
from roofmodel.cli.commands import Commands
from roofmodel.cli.refusal import BAD_INPUT
from roofmodel.foundation.errors import RoofModelError

OpenWindow = Callable[[Path | None], int]

OWN_FAULT = 1

app = typer.Typer(
    name="roofmodel",
    cls=Commands,
    help=(
        "From a taped survey of a conservatory roof to figures, cut sheets and drawings. "
        "It calculates and prints; the engineer, building control and the electrician "
        "decide."
    ),
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode="rich",
)
app.callback()(named_catalogue.choose)


def run(arguments: Sequence[str], *, open_window: OpenWindow) -> int:
    """Run one command; every fault ends in a sentence, never in a traceback.

    Parameters
    ----------
    arguments
        What was typed after the program's name.
    open_window
        Called by the `window` command with the job to open, if any; returns the exit code.

    Returns
    -------
    int
        0 when all went well, 2 for bad input, 1 for a fault of the program itself.
    """
    try:
        app(list(arguments), prog_name="roofmodel", obj=open_window)
    except SystemExit as stop:
        return stop.code if isinstance(stop.code, int) else BAD_INPUT
    except RoofModelError as error:
        refusal.refuse(str(error))
        return BAD_INPUT
    except Exception as error:
        if os.environ.get("ROOFMODEL_TRACEBACK"):
            raise
        refusal.own_fault(error)
        return OWN_FAULT
    return 0
