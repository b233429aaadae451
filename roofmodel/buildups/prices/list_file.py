"""A price list as a file, CSV or XLSX by its ending: written, and opened with care."""

from pathlib import Path

from roofmodel.buildups.catalogue import Catalogue
from roofmodel.buildups.prices import csv_list, listed, price_list, workbook
from roofmodel.buildups.prices.listed import ListedRow
from roofmodel.foundation import csv_text
from roofmodel.foundation.errors import ResourceError

MOST_BYTES = 20_000_000
ENDINGS = (".csv", ".xlsx")


def content(catalogue: Catalogue, path: Path) -> bytes:
    """Return the price list in the form the ending of a file asks for.

    Raises
    ------
    ResourceError
        If it ends in neither .csv nor .xlsx.
    """
    listing = price_list.rows(catalogue)
    if _ending(path) == ".xlsx":
        return workbook.content(listing)
    return csv_text.text(listing).encode(csv_list.ENCODING)


def open_list(path: Path, *, has_date: bool = False) -> tuple[ListedRow, ...]:
    """Return the rows of a list in a file; ``has_date`` when it needs no column of dates.

    Raises
    ------
    ResourceError
        If it cannot be opened, is no list or too large; as `CatalogueFileError` if columns are
        missing.
    """
    ending = _ending(path)
    try:
        if path.stat().st_size > MOST_BYTES:
            told = (
                f"{path.name} has more than {MOST_BYTES / 1e6:g} MB, which is too large "
                "for a price list."
            )
            raise ResourceError(f"{told} Copy the prices into a new file, and read that.")
        stored = path.read_bytes()
    except OSError as error:
        raise ResourceError(f"{path} cannot be opened: {error.strerror}.") from error
    reader = workbook.lines if ending == ".xlsx" else csv_list.lines
    return listed.rows(reader(stored, name=path.name), name=path.name, has_date=has_date)


def _ending(path: Path) -> str:
    ending = path.suffix.lower()
    if ending not in ENDINGS:
        told = f"{path.name}: a price list ends in {' or '.join(ENDINGS)}."
        raise ResourceError(f"{told} Save it as “CSV UTF-8” or XLSX, or correct the name.")
    return ending
