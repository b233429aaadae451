"""The firm's own rows: kept apart from the shipped ones, and used in their place."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from roofmodel.buildups import catalogue_file
from roofmodel.buildups.catalogue import Catalogue
from roofmodel.buildups.material import Material

FILE_NAME = "catalogue.toml"
NAME = "Own catalogue"

type Write = Callable[[Path, bytes], None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Merged:
    """The shipped catalogue with the firm's rows in it.

    ``replaced`` are the codes of own rows that stand in the place of a shipped one, ``added`` of
    those the shipped catalogue does not have.
    """

    catalogue: Catalogue
    replaced: frozenset[str]
    added: frozenset[str]

    @property
    def own(self) -> frozenset[str]:
        """Codes of all own rows."""
        return self.replaced | self.added


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
    if own is None or not (own.materials or own.saw_kerf_mm is not None):
        return Merged(catalogue=base, replaced=frozenset(), added=frozenset())
    rows = {**base.materials, **own.materials}
    codes = frozenset(own.materials)
    return Merged(
        catalogue=Catalogue(
            name=f"{base.name}, version {base.version}, with {own.name}, version {own.version}",
            version=base.version + own.version,
            valid_from=max(base.valid_from, own.valid_from),
            materials=rows,
            saw_kerf_mm=base.saw_kerf_mm if own.saw_kerf_mm is None else own.saw_kerf_mm,
        ),
        replaced=codes & frozenset(base.materials),
        added=codes - frozenset(base.materials),
    )


def with_row(own: Catalogue, base: Catalogue, row: Material) -> Catalogue:
    """Return the own rows with one more or another; one equal to the shipped row is not kept."""
    if base.materials.get(row.code) == row:
        return own.without(row.code) if row.code in own.materials else own
    return own.with_material(row)
