"""Which catalogue a command reckons with: a file named, the one of the firm, or the shipped one."""

from contextvars import ContextVar
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Annotated

import typer
from platformdirs import user_data_path

from roofmodel.buildups import catalogue, own
from roofmodel.buildups.catalogue import Catalogue
from roofmodel.buildups.own import Merged
from roofmodel.foundation.errors import ResourceError
from roofmodel.workbench.job import firm_catalogue

VARIABLE = "ROOFMODEL_CATALOGUE"

_named: ContextVar[Path | None] = ContextVar("named", default=None)
"""What `choose` was told for the command that runs now."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """Where own rows are kept; ``named`` when the user said so."""

    file: Path
    named: bool

    def own_rows(self, *, day: date) -> Catalogue:
        """Return the own rows; none, valid from a day, where nothing was kept yet.

        Raises
        ------
        ResourceError
            If the file cannot be read, or with every wrong field of every row.
        """
        return firm_catalogue.own_rows(self.file, day=day)


def choose(
    *,
    file: Annotated[
        Path | None,
        typer.Option(
            "--catalogue",
            metavar="FILE",
            envvar=VARIABLE,
            help="Own rows in the place of the shipped ones; the firm's own when left out.",
        ),
    ] = None,
) -> None:
    """Keep which catalogue was named; it is read only when a command needs it."""
    _named.set(file)


def chosen() -> Chosen:
    """Return where the own rows of this command are kept."""
    named = _named.get()
    if named is not None:
        return Chosen(file=named, named=True)
    folder = user_data_path("roofmodel", appauthor=False)
    return Chosen(file=own.file(folder), named=False)


def merged(*, day: date) -> Merged:
    """Return the shipped catalogue with the own rows of this command in it; errors as `current`."""
    return own.merged(catalogue.shipped(), chosen().own_rows(day=day))


def current() -> Catalogue:
    """Return the catalogue this command reckons with.

    Raises
    ------
    ResourceError
        If a file was named and is not there, or cannot be read.
    """
    where = chosen()
    if where.named and not where.file.exists():
        told = f"There is no catalogue {where.file}. Name one that is there, or leave it out."
        raise ResourceError(told)
    if where.file.exists():
        return firm_catalogue.load_file(where.file)
    return catalogue.shipped()
