"""The U-value a roof is compared with: by nation, case and date, or none where nobody has one."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from functools import cache
from typing import Any

from roofmodel.foundation import resources
from roofmodel.foundation.errors import ResourceError
from roofmodel.foundation.source import Source


class Nation(StrEnum):
    """Whose rules apply."""

    ENGLAND = "England"
    WALES = "Wales"
    SCOTLAND = "Scotland"
    NORTHERN_IRELAND = "Northern Ireland"
    IRELAND = "Ireland"


class Case(StrEnum):
    """What the roof counts as; building control says which."""

    NEW = "new or replaced roof"
    RENOVATED = "renovated roof"
    ANY_POINT = "any one point"


@dataclass(frozen=True, slots=True, kw_only=True)
class UValueLimit:
    """A limit in force since a date; ``u_w_m2k`` None is still to be entered.

    ``own`` marks one that was entered for the job; who set it and since when is its document's.
    """

    nation: Nation
    case: Case
    since: date
    source: Source
    u_w_m2k: float | None = None
    own: bool = False

    def __post_init__(self) -> None:
        """Refuse a limit no roof has."""
        if self.u_w_m2k is not None and not 0.01 <= self.u_w_m2k <= 6.0:
            raise ResourceError(
                f"{self.words}: {self.u_w_m2k:g} W/m²K is not possible as a limit for a roof."
            )

    @property
    def words(self) -> str:
        """What is printed."""
        if self.own:
            return f"limit entered for the job, {self.source.document}"
        return f"{self.nation}, {self.case}, since {self.since.isoformat()}"


@cache
def shipped() -> tuple[UValueLimit, ...]:
    """Return the shipped limits.

    Raises
    ------
    ResourceError
        If the file is wrong.
    """
    table = resources.read_toml(resources.folder() / "standards" / "u_limits.toml")
    return tuple(_row(row) for row in table.get("limit", []))


def limit(nation: Nation, case: Case, on: date) -> UValueLimit | None:
    """Return the limit in force on a date, with or without its figure; None where none is known."""
    fitting = [
        row for row in shipped() if (row.nation, row.case) == (nation, case) and row.since <= on
    ]
    return max(fitting, key=lambda row: row.since, default=None)


def _row(row: dict[str, Any]) -> UValueLimit:
    try:
        return UValueLimit(
            nation=Nation(row["nation"]),
            case=Case(row["case"]),
            since=row["since"],
            source=Source(**row["source"]),
            u_w_m2k=float(row["u_w_m2k"]) if "u_w_m2k" in row else None,
        )
    except (KeyError, TypeError, ValueError) as error:
        raise ResourceError(f"u_limits.toml, {row.get('nation', 'a row')}: {error}.") from error
