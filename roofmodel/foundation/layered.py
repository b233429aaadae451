"""The firm's rows over the shipped ones: one rule for every table that ships and may be the firm's.

A row of the firm stands in the place of the shipped row of its code, a shipped row may be
withdrawn, and rows of other codes are added at the end. Beside each own or withdrawn row stands a
mark of the shipped row as it was then, so that a later version of the program that ships another
one is noticed, and changes nothing.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum


class Standing(StrEnum):
    """Whose a row is, as lists print it."""

    SHIPPED = "supplied"
    OWN = "own"
    NEW = "own, new"
    WITHDRAWN = "withdrawn"


@dataclass(frozen=True, slots=True, kw_only=True)
class Own[Row]:
    """What a firm keeps of one table: its rows by code, and what it withdrew.

    ``copied`` is the mark of the shipped row as it was when the firm's own was made, or when it was
    withdrawn; a row that never shipped has none.
    """

    rows: Mapping[str, Row] = field(default_factory=dict)
    withdrawn: tuple[str, ...] = ()
    copied: Mapping[str, str] = field(default_factory=dict)

    def __bool__(self) -> bool:
        """Return whether the firm has anything of its own here."""
        return bool(self.rows or self.withdrawn)


@dataclass(frozen=True, slots=True, kw_only=True)
class Layered[Row]:
    """A table as it is used, and whose each row is, withdrawn ones among them.

    ``outdated`` are codes whose shipped row is another one since, or is shipped no more.
    """

    rows: Mapping[str, Row]
    standing: Mapping[str, Standing]
    outdated: frozenset[str] = frozenset()

    def of(self, standing: Standing) -> frozenset[str]:
        """Return the codes that stand so."""
        return frozenset(code for code, found in self.standing.items() if found is standing)


@dataclass(frozen=True, slots=True, kw_only=True)
class Layers[Row]:
    """A shipped table and how a row of it is marked; makes own rows and lays them over it.

    ``mark`` gives equal marks to rows that hold the same, whatever the order of their fields. Of a
    table that is kept ``whole``, a row that says what ships is the firm's all the same.
    """

    shipped: Mapping[str, Row]
    mark: Callable[[Row], str]
    whole: bool = False

    def under(self, own: Own[Row]) -> Layered[Row]:
        """Return the table with the firm's rows over it."""
        gone = set(own.withdrawn)
        rows = {c: own.rows.get(c, row) for c, row in self.shipped.items() if c not in gone}
        rows |= {code: row for code, row in own.rows.items() if code not in gone}
        standing = {code: self._standing(code, own) for code in (*self.shipped, *own.rows)}
        return Layered(rows=rows, standing=standing, outdated=self._outdated(own))

    def with_row(self, own: Own[Row], code: str, row: Row) -> Own[Row]:
        """Return own rows with one more or another; one that says what ships is not kept."""
        ships = code in self.shipped and self.mark(self.shipped[code]) == self.mark(row)
        if ships and not self.whole:
            return self.restored(own, code)
        kept = self.restored(own, code) if code in own.withdrawn else own
        copied = {**kept.copied, **self._marks(kept, code)}
        return replace(kept, rows={**kept.rows, code: row}, copied=copied)

    def withdrawn(self, own: Own[Row], code: str) -> Own[Row]:
        """Return own rows with a shipped one withdrawn; a row that never shipped is just gone."""
        bare = self.restored(own, code)
        if code not in self.shipped:
            return bare
        copied = {**bare.copied, **self._marks(bare, code)}
        return replace(bare, withdrawn=(*bare.withdrawn, code), copied=copied)

    def restored(self, own: Own[Row], code: str) -> Own[Row]:
        """Return own rows without one, so that what ships stands there again."""
        return Own(
            rows={known: row for known, row in own.rows.items() if known != code},
            withdrawn=tuple(known for known in own.withdrawn if known != code),
            copied={known: mark for known, mark in own.copied.items() if known != code},
        )

    def looked_at(self, own: Own[Row], code: str) -> Own[Row]:
        """Return own rows that know of the shipped row as it is today, and stay as they are."""
        rest = {known: mark for known, mark in own.copied.items() if known != code}
        return replace(own, copied={**rest, **self._marks(replace(own, copied=rest), code)})

    def _standing(self, code: str, own: Own[Row]) -> Standing:
        if code in own.withdrawn:
            return Standing.WITHDRAWN
        if code not in own.rows:
            return Standing.SHIPPED
        return Standing.OWN if code in self.shipped else Standing.NEW

    def _outdated(self, own: Own[Row]) -> frozenset[str]:
        return frozenset(
            code
            for code, mark in own.copied.items()
            if (code in own.rows or code in own.withdrawn)
            and (code not in self.shipped or self.mark(self.shipped[code]) != mark)
        )

    def _marks(self, own: Own[Row], code: str) -> dict[str, str]:
        """Return the mark to note for a code: none where one is known already, or none ships."""
        if code in own.copied or code not in self.shipped:
            return {}
        return {code: self.mark(self.shipped[code])}
