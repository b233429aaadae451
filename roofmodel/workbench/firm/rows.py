"""The rows of every table one by one: whose each is, and what a firm does with one."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from roofmodel.foundation.errors import ResourceError
from roofmodel.foundation.layered import Own, Standing
from roofmodel.workbench.firm import firm, table
from roofmodel.workbench.firm.table import TABLES, Table

type Act = Callable[[Table, str, Path], None]
"""What a firm does with one row of a table in its folder."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RowState:
    """A row of a table: whose it is, and whether what ships in its place is another one since."""

    table: Table
    code: str
    title: str
    standing: Standing
    outdated: bool

    @property
    def remark(self) -> str:
        """What somebody should know of it; empty for nothing."""
        return "the supplied row has changed since this one was made" if self.outdated else ""


def of(one: Table, folder: Path | None) -> tuple[RowState, ...]:
    """Return every row of a table, withdrawn ones too. Errors as `Table.own`."""
    laid = one.laid(folder)
    known = {**one.layers.shipped, **laid.rows}
    return tuple(
        RowState(
            table=one,
            code=code,
            title=title(one, known[code]),
            standing=standing,
            outdated=code in laid.outdated,
        )
        for code, standing in laid.standing.items()
    )


def title(one: Table, row: Any) -> str:  # noqa: ANN401 - a row as TOML has it
    """Return a row in a few words."""
    if isinstance(row, Mapping):
        words = _TITLES.get(one, _name)(row)
    else:
        words = "; ".join(map(str, row)) if isinstance(row, list) else str(row)
    return words if len(words) <= 60 else f"{words[:57]}…"


def _name(row: Mapping[str, Any]) -> str:
    return str(row.get("name", ""))


def _methods(row: Mapping[str, Any]) -> str:
    return ", ".join(map(str, row.get("methods", ())))


_TITLES: Mapping[Table, Callable[[Mapping[str, Any]], str]] = {
    table.RECIPES: lambda row: f"{row.get('group', '')}: {_methods(row)}",
    table.NORMS: lambda row: f"{row.get('name', '')} ({_methods(row)})",
    table.SUPPLIERS: lambda row: f"{row.get('supplier', '')}, {row.get('lead', '')} working days",
    table.STACKS: lambda row: f"layers: {len(row.get('layers', ()))}",
}


def table_named(name: str) -> Table:
    """Return a table by the name it is typed as.

    Raises
    ------
    ResourceError
        If there is none; the text lists them.
    """
    found = next((one for one in TABLES if one.name == name), None)
    if found is None:
        known = ", ".join(one.name for one in TABLES)
        raise ResourceError(f"There is no table “{name}”. Choose one of {known}.")
    return found


def copied(one: Table, code: str, folder: Path) -> None:
    """Keep a shipped row as the firm's own, as it is, to be changed there.

    Raises
    ------
    ResourceError
        If there is no such shipped row, or it is the firm's already.
    """
    own = one.own(folder)
    row = _shipped(one, code)
    if code in own.rows:
        told = f"{code} is already the firm's own."
        raise ResourceError(f"{told} Change it in {folder / one.file}.")
    whole = one.layers.restored(own, code)
    marks = {**whole.copied, code: one.layers.mark(row)}
    kept: Own[Any] = Own(rows={**whole.rows, code: row}, withdrawn=whole.withdrawn, copied=marks)
    save(one, kept, folder)


def withdrawn(one: Table, code: str, folder: Path) -> None:
    """Do without a row from now on.

    Raises
    ------
    ResourceError
        If there is no such row, or the table cannot do without one.
    """
    own = one.own(folder)
    if code not in own.rows:
        _shipped(one, code)
    if one.fixed or one.whole:
        told = f"“{one.title}” cannot do without {code}."
        raise ResourceError(f"{told} Change the row instead.")
    save(one, one.layers.withdrawn(own, code), folder)


def restored(one: Table, code: str, folder: Path) -> None:
    """Let what ships stand again; an own row that never shipped is gone.

    Raises
    ------
    ResourceError
        If the row is not the firm's.
    """
    own = one.own(folder)
    if code not in own.rows and code not in own.withdrawn:
        raise ResourceError(f"{code} is as supplied. There is nothing to restore.")
    save(one, one.layers.restored(own, code), folder)


def looked_at(one: Table, code: str, folder: Path) -> None:
    """Keep the firm's row and take note of what ships in its place today. Errors as `restored`."""
    own = one.own(folder)
    if code not in own.rows and code not in own.withdrawn:
        raise ResourceError(f"{code} is as supplied. There is nothing to keep.")
    save(one, one.layers.looked_at(own, code), folder)


def save(one: Table, own: Own[Any], folder: Path) -> None:
    """Keep a firm's rows of a table once they can stand; else nothing is changed.

    Raises
    ------
    ResourceError
        If a row cannot stand, or the file cannot be written.
    """
    firm.check(one, own, folder)
    one.save(own, folder)


def _shipped(one: Table, code: str) -> Any:  # noqa: ANN401 - a row as TOML has it
    try:
        return one.layers.shipped[code]
    except KeyError:
        remedy = f"List the codes with: roofmodel firm list {one.name} --all"
        raise ResourceError(f"“{one.title}” has no row {code}. {remedy}") from None
