"""A shipped table that a firm may lay rows of its own over: how its file is read, laid and written.

A file of the firm has the form of the shipped one and holds the firm's rows only; ``withdrawn``
lists codes that are not to be used, ``[copied]`` the marks of the shipped rows they stand for.
"""

import json
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from roofmodel.foundation import fingerprint, resources, toml_text
from roofmodel.foundation.errors import JobFileError, ResourceError
from roofmodel.foundation.layered import Layered, Layers, Own
from roofmodel.storage import door, safe_write

WITHDRAWN, COPIED = "withdrawn", "copied"
_MARK_LETTERS = 8

Row = Any
"""A row as TOML has it: a group of fields, or one value of a file that is fields only."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """What is called how, in which file, and what makes a row the one it is.

    Parameters
    ----------
    name
        As it is typed on the command line.
    title
        As it is read in lists.
    file
        Its file, among the shipped data and in the firm's folder.
    key
        Name of the list of rows; empty where the file is fields, each of which is a row.
    codes
        Fields of a row that may name it, the first that is there; empty where the file is fields.
    fixed
        Rows may be replaced, none added and none withdrawn.
    whole
        The firm's file holds every row, so that nothing it has read and accepted changes unasked.
    """

    name: str
    title: str
    file: str
    key: str = ""
    codes: tuple[str, ...] = ()
    fixed: bool = False
    whole: bool = False

    @property
    def layers(self) -> Layers[Row]:
        """The shipped rows, and how they are marked."""
        return _layers(self)

    def code_of(self, row: Row) -> str:
        """Return the code of a row of a list; empty where it has none."""
        found = (row.get(field) for field in self.codes) if isinstance(row, Mapping) else ()
        return next((code for code in found if isinstance(code, str) and code), "")

    def own(self, folder: Path | None) -> Own[Row]:
        """Return what a firm keeps of this table in its folder; nothing where there is no file.

        Raises
        ------
        ResourceError
            If the file cannot be read, or holds what is no row of this table.
        """
        if folder is None or not (folder / self.file).exists():
            return Own()
        return self._own(read(folder / self.file))

    def laid(self, folder: Path | None) -> Layered[Row]:
        """Return the table with the firm's rows over it. Errors as `own`."""
        return self.layers.under(self.own(folder))

    def as_read(self, rows: Mapping[str, Row]) -> dict[str, Any]:
        """Return rows in the form of the shipped file, ready for its reader."""
        if self.key:
            return {self.key: list(rows.values())}
        found: dict[str, Any] = {}
        for code, value in rows.items():
            group, dot, name = code.partition(".")
            if dot:
                found.setdefault(group, {})[name] = value
            else:
                found[code] = value
        return found

    def save(self, own: Own[Row], folder: Path) -> None:
        """Keep the firm's rows; the version before stays beside them, and nothing is no file.

        Raises
        ------
        ResourceError
            If they cannot be written; the file is then the one from before.
        """
        path = folder / self.file
        try:
            folder.mkdir(parents=True, exist_ok=True)
            if own or path.exists():
                safe_write.replace_text(path, self.text(own), keep=before(path))
        except OSError as error:
            reason = error.strerror or str(error)
            told = "Nothing was changed. Choose a folder you can write to."
            raise ResourceError(f"{path} could not be saved: {reason}. {told}") from error
        except JobFileError as error:
            raise ResourceError(str(error)) from error

    def text(self, own: Own[Row]) -> str:
        """Return the firm's rows as the text of a file."""
        marks = {
            code: own.copied[code] for code in (*own.rows, *own.withdrawn) if code in own.copied
        }
        notes = {WITHDRAWN: list(own.withdrawn) or None, COPIED: marks or None}
        head = (
            f"{self.title}: the firm's own rows, in place of those supplied. Prices in GBP ex VAT."
        )
        return toml_text.dumps({**notes, **self.as_read(own.rows)}, head=head)

    def _own(self, table: Mapping[str, Any]) -> Own[Row]:
        rest = {name: value for name, value in table.items() if name not in (WITHDRAWN, COPIED)}
        rows = dict(self._rows(rest))
        withdrawn, copied = table.get(WITHDRAWN, []), table.get(COPIED, {})
        codes_are_texts = isinstance(withdrawn, list) and all(isinstance(x, str) for x in withdrawn)
        if not (codes_are_texts and isinstance(copied, Mapping)):
            told = f"{self.file}, {WITHDRAWN}: this is not a list of codes. Write codes in quotes."
            raise ResourceError(told)
        strange = [code for code in (*rows, *withdrawn) if code not in self.layers.shipped]
        if self.fixed and (withdrawn or strange):
            named = (strange or withdrawn)[0]
            raise ResourceError(
                f"{self.file}, {named}: in “{self.title}” rows can be replaced, but none added or "
                f"withdrawn. Remove it; the rows are {', '.join(self.layers.shipped)}."
            )
        return Own(
            rows=rows,
            withdrawn=tuple(dict.fromkeys(withdrawn)),
            copied={str(code): str(mark) for code, mark in copied.items()},
        )

    def _rows(self, table: Mapping[str, Any]) -> Iterator[tuple[str, Row]]:
        """Yield code and row of a file, refusing what is none."""
        if not self.key:
            yield from fields(table)
            return
        for name in table:
            if name != self.key:
                told = f"{self.file}: “{name}” does not belong here."
                raise ResourceError(f"{told} Head every row with [[{self.key}]].")
        rows = table.get(self.key, [])
        if not isinstance(rows, list) or not all(isinstance(row, dict) for row in rows):
            told = f"{self.file}: “{self.key}” is not a list of rows."
            raise ResourceError(f"{told} Head every row with [[{self.key}]].")
        codes = [self.code_of(row) for row in rows]
        for number, code in enumerate(codes, start=1):
            if not code:
                told = f"{self.file}, {self.key} {number}: the row has no code."
                raise ResourceError(f"{told} Add “{self.codes[-1]}”.")
        self._refuse_twice(codes)
        yield from zip(codes, rows, strict=True)

    def _refuse_twice(self, codes: Sequence[str]) -> None:
        for code, count in Counter(codes).items():
            if count > 1:
                raise ResourceError(
                    f"{self.file}: “{code}” appears {count} times. Keep one of them, or "
                    "give each a code of its own."
                )


def read(path: Path) -> dict[str, Any]:
    """Return the tables of a file of the firm.

    Raises
    ------
    ResourceError
        If it is too large, or cannot be read as TOML.
    """
    try:
        size = path.stat().st_size
    except OSError as error:
        raise ResourceError(f"{path} cannot be opened: {error.strerror}.") from error
    if size > door.MOST_BYTES:
        told = f"{path.name} has {size / 1e6:.1f} MB, which is too large for a table of the firm."
        raise ResourceError(f"{told} Put the file from before in its place.")
    return resources.read_toml(path)


def before(path: Path) -> Path:
    """Return where the version before the last save of a file is kept."""
    return path.with_name(f"{path.stem}.before{path.suffix}")


def mark(row: Row) -> str:
    """Return a short name for what a row says, whatever the order of its fields."""
    return fingerprint.letters(
        json.dumps(row, sort_keys=True, ensure_ascii=False, default=str), _MARK_LETTERS
    )


def fields(table: Mapping[str, Any]) -> Iterator[tuple[str, Row]]:
    """Yield the values of a table under their names, those of a group as ``group.name``."""
    for name, value in table.items():
        if isinstance(value, Mapping):
            yield from ((f"{name}.{inner}", one) for inner, one in value.items())
        else:
            yield name, value


@cache
def _layers(table: Table) -> Layers[Row]:
    shipped = resources.read_toml(resources.folder() / table.file)
    return Layers(shipped=dict(table._rows(shipped)), mark=mark, whole=table.whole)  # noqa: SLF001


STACKS = Table(
    name="presets",
    title="Presets of the methods",
    file="methods.toml",
    key="method",
    codes=("id",),
    fixed=True,
)
WAYS = Table(
    name="laying",
    title="Ways of laying boards",
    file="laying_rules.toml",
    key="rule_set",
    codes=("code",),
)
RECIPES = Table(
    name="recipes", title="Recipes", file="recipes.toml", key="recipe", codes=("code", "material")
)
NORMS = Table(
    name="norms", title="Labour norms", file="labour_norms.toml", key="task", codes=("code", "id")
)
SUPPLIERS = Table(name="suppliers", title="Suppliers and lead times", file="suppliers.toml")
EXTRAS = Table(
    name="extras",
    title="Extras of the offer",
    file="offered_extras.toml",
    key="extra",
    codes=("id",),
)
RATES = Table(name="rates", title="Rates", file="rates.toml", whole=True)
TEXTS = Table(name="texts", title="Texts of the offer", file="offer_texts.toml", whole=True)
TABLES = (RECIPES, NORMS, SUPPLIERS, EXTRAS, STACKS, WAYS, RATES, TEXTS)
"""Every table a firm may have rows of its own in, besides the catalogue."""
