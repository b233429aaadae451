"""The catalogue the program reckons with: the shipped rows, with the firm's own in their place."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from functools import partial
from pathlib import Path

from roofmodel.buildups import catalogue, catalogue_file, catalogue_rows, own
from roofmodel.buildups.catalogue import Catalogue
from roofmodel.buildups.prices import history
from roofmodel.buildups.prices.history import PastPrice
from roofmodel.buildups.prices.price_list import Preview
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
    kept_before = own_rows(path, day=day)
    past = prices_before(path)
    there = kept_before.version
    if there != rows.version:
        raise ResourceError(
            f"{path.name} has been saved by someone else in the meantime, as version "
            f"{there}. Nothing was changed. Open the catalogue again and re-enter your "
            "changes."
        )
    before = path.with_name(f"{path.stem}.before{path.suffix}")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        kept = own.save(rows, path, day=day, write=partial(safe_write.replace_bytes, keep=before))
        _remember(past, kept_before, kept, path, day)
    except OSError as error:
        told = (
            f"The folder {path.parent} cannot be created: {error.strerror}. Nothing was "
            "changed. Choose a folder you can write to."
        )
        raise ResourceError(told) from error
    except JobFileError as error:
        raise ResourceError(str(error)) from error
    return kept


def prices_before(path: Path) -> tuple[PastPrice, ...]:
    """Return what the prices were before, oldest first: the history kept beside own rows.

    Raises
    ------
    ResourceError
        If it cannot be read; the text names the line.
    """
    file = _history_file(path)
    try:
        return history.loads(file.read_text(encoding="utf-8"), name=file.name)
    except FileNotFoundError:
        return ()
    except (OSError, UnicodeDecodeError) as error:
        told = f"{file.name} cannot be read: {error}. Nothing was changed. Put the file aside."
        raise ResourceError(told) from error


def _remember(
    past: Sequence[PastPrice], before: Catalogue, kept: Catalogue, path: Path, day: date
) -> None:
    """Write down every price that changed; nothing where none did."""
    base = catalogue.shipped()
    was, now = (own.merged(base, rows).catalogue for rows in (before, kept))
    grown = history.grown(past, was, now, day=day)
    if len(grown) > len(past):
        safe_write.replace_text(_history_file(path), history.dumps(grown))


def _history_file(path: Path) -> Path:
    return path.with_suffix(".prices.csv")


def with_prices_of(rows: Catalogue, preview: Preview) -> Catalogue:
    """Return the own rows with those in them that a price list changes."""
    base = catalogue.shipped()
    for code in sorted(preview.codes):
        rows = own.with_row(rows, base, preview.catalogue.materials[code])
    return rows


def with_price_days(rows: Catalogue, days: int) -> Catalogue:
    """Return the own rows with how many days a price is good for.

    Raises
    ------
    ResourceError
        If a price cannot be good for so long.
    """
    if not 1 <= days <= catalogue_rows.LONGEST_DAYS:
        told = f"A price cannot be good for {days} days."
        raise ResourceError(f"{told} Enter 1 to {catalogue_rows.LONGEST_DAYS} whole days.")
    return replace(rows, price_days=days)
