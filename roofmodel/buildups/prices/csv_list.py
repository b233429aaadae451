"""A price list as text: read as any spreadsheet in Britain saves it."""

import csv
import io
from collections.abc import Iterator, Sequence

from roofmodel.foundation import csv_text
from roofmodel.foundation.errors import ResourceError

ENCODING = "utf-8-sig"
"""With the mark a spreadsheet needs to read £ and ² aright."""
_OLDER = "cp1252"
"""What “CSV (comma delimited)” is saved in by an older spreadsheet; £ is one byte there."""


def lines(content: bytes, *, name: str) -> Iterator[Sequence[str]]:
    """Yield the rows of a list separated by comma, semicolon or tab, from the first.

    Raises
    ------
    ResourceError
        If the content is no text, or is no list.
    """
    text = _text(content, name)
    marked = next((line for line in text.splitlines() if _marks(line)), "")
    mark = max(",;\t", key=marked.count)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=mark)
    try:
        for row in reader:
            yield [csv_text.as_typed(cell) for cell in row]
    except csv.Error as error:
        told = f"{name} is not a list: {error}."
        raise ResourceError(f"{told} Save it again as “CSV UTF-8”.") from error


def _marks(line: str) -> bool:
    return any(mark in line for mark in ",;\t")


def _text(content: bytes, name: str) -> str:
    for encoding in (
        ("utf-16",) if content[:2] in (b"\xff\xfe", b"\xfe\xff") else (ENCODING, _OLDER)
    ):
        try:
            text = content.decode(encoding)
        except UnicodeDecodeError:
            continue
        if "\0" not in text:
            return text
    told = f"{name} is not a CSV list. Save it from the spreadsheet as “CSV UTF-8” or XLSX."
    raise ResourceError(told)
