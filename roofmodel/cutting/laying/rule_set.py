"""Ways of laying that can be chosen by name; the rest of the rules comes from the material."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any, Literal

from pydantic import ConfigDict, TypeAdapter

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.laying.rule import Joints, LayingRules, Rows, RowsFrom, rules_for
from roofmodel.foundation import resources, toml_rows
from roofmodel.foundation.errors import CuttingError, ResourceError
from roofmodel.foundation.source import Source


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleSet:
    """One way of laying: for which layers, where joints lie, and how rows run.

    ``abutment_gap_mm`` is given only where the way leaves another gap at walls than the material.
    """

    code: str
    name: str
    layers: tuple[Literal["deck", "insulation", "lining"], ...]
    joints: Joints
    bays_spanned_least: int
    rows: Rows
    rows_from: RowsFrom
    source: Source
    abutment_gap_mm: float | None = None
    more_rows: int = 1
    more_joints: int = 2

    def rules(self, good: SheetGood) -> LayingRules:
        """Return the rules for laying a material in this way.

        Raises
        ------
        CuttingError
            If the way is not for the material's layer.
        """
        if good.layer not in self.layers:
            raise CuttingError(
                f"{self.code} is not for the {good.layer}, but for {' and '.join(self.layers)}. "
                f"Choose another way of laying for {good.code}."
            )
        return rules_for(
            good,
            joints=self.joints,
            bays_spanned_least=self.bays_spanned_least,
            rows=self.rows,
            rows_from=self.rows_from,
            more_rows=self.more_rows,
            more_joints=self.more_joints,
            abutment_gap_mm=self.abutment_gap_mm,
        )


KEY = "rule_set"
"""What a row is called in a file."""
_ROWS = TypeAdapter(list[RuleSet], config=ConfigDict(extra="forbid", defer_build=True))


def read(path: Path) -> dict[str, RuleSet]:
    """Return the ways of laying of a TOML file; errors as `of_table`, and if it cannot be read."""
    return of_table(resources.read_toml(path), name=path.name)


def of_table(table: Mapping[str, Any], *, name: str) -> dict[str, RuleSet]:
    """Return the ways of laying of a table by code, in its order; ``name`` is that of its file.

    Raises
    ------
    ResourceError
        If a field is wrong, or two ways share a code.
    """
    rows = toml_rows.of_rows(table, KEY, _ROWS, name=name)
    twice = [code for code, count in Counter(row.code for row in rows).items() if count > 1]
    if twice:
        raise ResourceError(
            f"{name}: two ways of laying have the code {twice[0]}. Give each its own code."
        )
    return {row.code: row for row in rows}


@cache
def shipped() -> dict[str, RuleSet]:
    """Return the ways of laying that come with the program."""
    return read(resources.folder() / "laying_rules.toml")
