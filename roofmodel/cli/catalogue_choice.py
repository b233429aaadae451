"""Which catalogue a command reckons with: a file named, the one of the firm, or the shipped one."""

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from roofmodel.buildups import catalogue, own
from roofmodel.buildups.catalogue import Catalogue
from roofmodel.buildups.own import Merged
from roofmodel.cli import named_catalogue
from roofmodel.foundation import user_folder
from roofmodel.foundation.errors import ResourceError
from roofmodel.workbench.firm import firm_catalogue


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


def chosen() -> Chosen:
    """Return where the own rows of this command are kept."""
    file = named_catalogue.named()
    if file is not None:
        return Chosen(file=file, named=True)
    return Chosen(file=own.file(user_folder.data()), named=False)


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
        told = (
            f"There is no catalogue {where.file}. Check the name, or leave the option out to "
            "use the firm's own."
        )
        raise ResourceError(told)
    if where.file.exists():
        return firm_catalogue.load_file(where.file)
    return catalogue.shipped()
