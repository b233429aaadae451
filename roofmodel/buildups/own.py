"""The firm's own rows: kept apart from the shipped ones, and used in their place."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from roofmodel.buildups import catalogue_file
from roofmodel.buildups.catalogue import Catalogue
from roofmodel.buildups.material import Material
from roofmodel.foundation import fingerprint
from roofmodel.foundation.layered import Layers, Own, Standing

FILE_NAME = "catalogue.toml"
NAME = "Own catalogue"

type Write = Callable[[Path, bytes], None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Merged:
    """The shipped catalogue with the firm's rows in it.

    ``standing`` says of every code whose it is; ``outdated`` are own rows whose shipped row is
    another one since.
    """

    catalogue: Catalogue
    standing: Mapping[str, Standing]
    outdated: frozenset[str] = frozenset()


def empty(day: date) -> Catalogue:
    """Return a catalogue of own rows without any; its first save makes version 1."""
    return Catalogue(name=NAME, version=0, valid_from=day, materials={})


def file(folder: Path) -> Path:
    """Return where the own rows are kept in a folder."""
    return folder / FILE_NAME


def load(folder: Path) -> Catalogue | None:
    """Return the own rows kept in a folder; None where there are none.

    Raises
    ------
    ResourceError
        If the file cannot be read, or with every wrong field of every row.
    """
    path = file(folder)
    return catalogue_file.read(path) if path.exists() else None


def save(own: Catalogue, path: Path, *, day: date, write: Write) -> Catalogue:
    """Keep the own rows as the next version, valid from a day; return them as they are kept.

    Parameters
    ----------
    own
        The rows, with the version they were loaded as.
    path
        The file they are kept in.
    day
        From when they are valid.
    write
        Puts bytes in the place of a file; whole or not at all is its business.

    Raises
    ------
    ResourceError
        If a row could not be read back.
    """
    kept = replace(own, version=own.version + 1, valid_from=day)
    text = catalogue_file.dumps(kept)
    # What cannot be read tomorrow is refused today.
    catalogue_file.loads(text, name=path.name)
    write(path, text.encode())
    return kept


def merged(base: Catalogue, own: Catalogue | None) -> Merged:
    """Return the shipped catalogue with the own rows in it; an own row wins.

    The version counts the changes of both, so that it rises with either.
    """
    laid = _layers(base).under(Own() if own is None else _own(own))
    if own is None or not _says_anything(own):
        return Merged(catalogue=base, standing=laid.standing)
    return Merged(
        catalogue=Catalogue(
            name=f"{base.name}, version {base.version}, with {own.name}, version {own.version}",
            version=base.version + own.version,
            valid_from=max(base.valid_from, own.valid_from),
            materials=laid.rows,
            saw_kerf_mm=base.saw_kerf_mm if own.saw_kerf_mm is None else own.saw_kerf_mm,
            price_days=base.price_days if own.price_days is None else own.price_days,
        ),
        standing=laid.standing,
        outdated=laid.outdated,
    )


def with_row(own: Catalogue, base: Catalogue, row: Material) -> Catalogue:
    """Return the own rows with one more or another; one equal to the shipped row is not kept."""
    return _kept(own, _layers(base).with_row(_own(own), row.code, row))


def withdrawn(own: Catalogue, base: Catalogue, code: str) -> Catalogue:
    """Return the own rows with a shipped one withdrawn; an own, new one is just gone."""
    return _kept(own, _layers(base).withdrawn(_own(own), code))


def restored(own: Catalogue, base: Catalogue, code: str) -> Catalogue:
    """Return the own rows without one, so that what ships stands there again."""
    return _kept(own, _layers(base).restored(_own(own), code))


def _says_anything(own: Catalogue) -> bool:
    return bool(own.materials or own.withdrawn) or not (
        own.saw_kerf_mm is None and own.price_days is None
    )


def _layers(base: Catalogue) -> Layers[Material]:
    return Layers(shipped=base.materials, mark=_mark)


def _mark(row: Material) -> str:
    return fingerprint.letters(catalogue_file.row_text(row), 8)


def _own(own: Catalogue) -> Own[Material]:
    return Own(rows=own.materials, withdrawn=own.withdrawn, copied=own.copied)


def _kept(own: Catalogue, rows: Own[Material]) -> Catalogue:
    return replace(own, materials=rows.rows, withdrawn=rows.withdrawn, copied=rows.copied)
