"""The catalogue the program reckons with: the shipped rows, with the firm's own in their place."""

from dataclasses import replace
from datetime import date
from functools import partial
from pathlib import Path

from roofmodel.buildups import catalogue, catalogue_file, own
from roofmodel.buildups.catalogue import Catalogue
from roofmodel.foundation.errors import JobFileError, ResourceError
from roofmodel.storage import safe_write


def load(folder: Path | None) -> Catalogue:
    """Return the shipped catalogue with the own rows kept in a folder, if there are any.

    Raises
    ------
    ResourceError
        If the own rows cannot be read; the text names every row and column.
    """
    return own.merged(catalogue.shipped(), None if folder is None else own.load(folder)).catalogue


def load_file(path: Path) -> Catalogue:
    """Return the shipped catalogue with the rows of a file in their place. Errors as `load`."""
    return own.merged(catalogue.shipped(), catalogue_file.read(path)).catalogue


def own_rows(path: Path, *, day: date) -> Catalogue:
    """Return the own rows of a file; none, valid from a day, where there is no such file yet."""
    return catalogue_file.read(path) if path.exists() else own.empty(day)


def save(rows: Catalogue, path: Path, *, day: date) -> Catalogue:
    """Keep own rows as the next version; the version before stays beside it.

    Raises
    ------
    ResourceError
        If they cannot be written or could not be read back; if the file cannot be read, or was
        saved by someone else since these rows were: neither is written over.
    """
    there = own_rows(path, day=day).version
    if there != rows.version:
        raise ResourceError(
            f"{path.name} has been saved by someone else in the meantime, as version "
            f"{there}. Nothing was changed. Open the catalogue again and re-enter your "
            "changes."
        )
    before = path.with_name(f"{path.stem}.before{path.suffix}")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        return own.save(rows, path, day=day, write=partial(safe_write.replace_bytes, keep=before))
    except OSError as error:
        told = (
            f"The folder {path.parent} cannot be created: {error.strerror}. Nothing was "
            "changed. Choose a folder you can write to."
        )
        raise ResourceError(told) from error
    except JobFileError as error:
        raise ResourceError(str(error)) from error


def with_prices_of(rows: Catalogue, priced: Catalogue, codes: frozenset[str]) -> Catalogue:
    """Return the own rows with those of another catalogue in them that have one of the codes."""
    taken = {code: priced.materials[code] for code in priced.materials if code in codes}
    return replace(rows, materials={**rows.materials, **taken})
