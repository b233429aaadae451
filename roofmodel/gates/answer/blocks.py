"""Which gate keeps which output from being made, at which verdict: one table for all that binds."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from typing import Any

from roofmodel.foundation import resources
from roofmodel.foundation.errors import ResourceError
from roofmodel.foundation.outcome import Outcome
from roofmodel.gates.answer.result import Gate

FILE = "verdict_blocks.toml"


class Binding(StrEnum):
    """What money, material or somebody's word is spent on."""

    METHOD = "method"
    CUTTING = "cutting"
    PAPERS = "papers"
    PRICE = "price"
    HANDOVER = "handover"


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockRow:
    """One gate of the table: by how its name begins, what it blocks at which verdicts, and why."""

    name: str
    why: str
    at: tuple[tuple[Binding, tuple[Outcome, ...]], ...]

    def names(self, check: Gate) -> bool:
        """Return whether the row is about a check."""
        return check.name == self.name or check.name.startswith((f"{self.name}:", f"{self.name} "))

    def outcomes(self, binding: Binding) -> tuple[Outcome, ...]:
        """Return the verdicts at which an output is blocked; none where it never is."""
        return dict(self.at).get(binding, ())


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockTable:
    """The whole table: outputs with their words, and gates."""

    words: tuple[tuple[Binding, str], ...]
    rows: tuple[BlockRow, ...]

    def row(self, check: Gate) -> BlockRow | None:
        """Return the row of the longest name that fits a check; None where nothing hangs on it."""
        return max(
            (row for row in self.rows if row.names(check)),
            key=lambda row: len(row.name),
            default=None,
        )

    def blocks(self, check: Gate, binding: Binding) -> bool:
        """Return whether a check keeps an output from being made."""
        row = self.row(check)
        return row is not None and check.outcome in row.outcomes(binding)

    def blocking(self, checks: Iterable[Gate], binding: Binding) -> tuple[Gate, ...]:
        """Return every check that keeps an output from being made, in their order."""
        return tuple(check for check in checks if self.blocks(check, binding))

    def blocked_by(self, check: Gate) -> tuple[Binding, ...]:
        """Return every output a check keeps from being made as it stands."""
        return tuple(binding for binding, _ in self.words if self.blocks(check, binding))


@cache
def shipped() -> BlockTable:
    """Return the shipped table.

    Raises
    ------
    ResourceError
        If the file is wrong: an unknown output or verdict, a row that blocks nothing, or a name
        that stands twice.
    """
    table = resources.read_toml(resources.folder() / FILE)
    try:
        words = tuple((Binding(row["id"]), str(row["words"])) for row in table["output"])
        rows = tuple(map(_row, table["gate"]))
    except (KeyError, TypeError, ValueError) as error:
        raise ResourceError(f"{FILE}: {error}.") from error
    _refuse_twice([row.name for row in rows])
    missing = set(Binding) - {binding for binding, _ in words}
    if missing:
        raise ResourceError(f"{FILE}: no words for {', '.join(sorted(missing))}.")
    return BlockTable(words=words, rows=rows)


def reasons(checks: Iterable[Gate], binding: Binding) -> tuple[str, ...]:
    """Return, in whole sentences, what keeps an output from being made."""
    return tuple(
        f"{check.reason} {check.remedy}".strip() for check in shipped().blocking(checks, binding)
    )


def _row(row: dict[str, Any]) -> BlockRow:
    at = tuple(
        (Binding(key), tuple(Outcome(one) for one in value))
        for key, value in row.items()
        if key not in ("name", "why")
    )
    if not at or Outcome.PASS in (one for _, outcomes in at for one in outcomes):
        raise ValueError(f"{row['name']} blocks nothing, or blocks at a pass")
    return BlockRow(name=str(row["name"]), why=str(row["why"]), at=at)


def _refuse_twice(names: Sequence[str]) -> None:
    twice = sorted({name for name in names if names.count(name) > 1})
    if twice:
        raise ResourceError(f"{FILE}: {', '.join(twice)} appears twice.")
