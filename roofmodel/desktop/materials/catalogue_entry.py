"""What is done to own rows on the catalogue page, with undo; knows nothing of a screen."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date

from roofmodel.buildups import own, row_check
from roofmodel.buildups.catalogue import Catalogue
from roofmodel.buildups.material import Material
from roofmodel.buildups.own import Merged
from roofmodel.buildups.prices.price_list import Preview
from roofmodel.desktop.materials import catalogue_columns
from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.workbench.firm import firm_catalogue
from roofmodel.workbench.job.history import History

type Save = Callable[[Catalogue], Catalogue]


@dataclass(frozen=True, slots=True)
class Rejected:
    """A text that cannot stand in its cell, and why."""

    typed: str
    fault: Fault


class CatalogueEntry:
    """Own rows over the shipped ones; an entry that cannot stand is kept aside, never lost."""

    def __init__(self, base: Catalogue, rows: Catalogue, *, today: date, save: Save) -> None:
        """Start with the own rows as they are kept.

        Parameters
        ----------
        base
            The shipped catalogue.
        rows
            The own rows, `own.empty` where there are none.
        today
            The day prices are dated and judged by.
        save
            Keeps own rows and returns them as kept.
        """
        self.base, self.today = base, today
        self.rejected: dict[tuple[str, int], Rejected] = {}
        self.said = self.trouble = ""
        self.history: History[Catalogue] = History(rows)
        self._kept, self._save = rows, save

    @property
    def own_rows(self) -> Catalogue:
        """The own rows as they are now."""
        kept = self._kept
        return replace(self.history.value, version=kept.version, valid_from=kept.valid_from)

    @property
    def own_codes(self) -> frozenset[str]:
        """The codes of the own rows."""
        return frozenset(self.history.value.materials)

    @property
    def withdrawn_rows(self) -> tuple[Material, ...]:
        """The shipped rows the firm does without."""
        return tuple(self.base.material(code) for code in self.history.value.withdrawn)

    @property
    def merged(self) -> Merged:
        """The catalogue as it is now."""
        return own.merged(self.base, self.own_rows)

    def remark(self, row: Material) -> str:
        """Return what is doubtful about the price of a row."""
        if row.price is None:
            return "No price"
        days = (self.today - row.price.dated).days
        stale = self.merged.catalogue.is_stale(row, self.today)
        return f"Out of date: {days} days old" if stale else ""

    def type(self, code: str, column: int, typed: str) -> None:
        """Take a text typed into a cell, or keep it aside with what is wrong with it."""
        row = self.merged.catalogue.material(code)
        self.said = ""
        try:
            found = catalogue_columns.edited(row, column, typed, today=self.today)
        except DimensionError as error:
            self.rejected[code, column] = Rejected(typed, error.faults[0])
            return
        self.rejected.pop((code, column), None)
        if found.row != row:
            self._put(found.row)
            self.said = found.said

    def copy(self, code: str, new_code: str) -> None:
        """Add a row like another one under a code of its own.

        Raises
        ------
        DimensionError
            If the code cannot be one or is taken.
        """
        known = self.merged.catalogue
        if new_code in known.materials:
            text = f"There is already a material {new_code}."
            raise DimensionError([Fault("code", text, "Enter a different code.")])
        row = replace(known.material(code), code=new_code, short=self._free_short(new_code))
        faults = [fault for fault in row_check.faults(row) if fault.field == "code"]
        if faults:
            raise DimensionError(faults)
        self._put(row)
        self.said = (
            f"{new_code} is a copy of {code}; its pieces are marked {row.short}. "
            "Enter its name, pack and price."
        )

    def withdraw(self, code: str) -> None:
        """Do without a shipped row: no recipe finds its material any more."""
        self._forget(code)
        self.history.replace(own.withdrawn(self.own_rows, self.base, code))
        self.said = (
            f"{code} is withdrawn. It is listed under “Withdrawn rows” until it is restored."
        )

    def drop(self, code: str) -> None:
        """Take an own row away: a shipped one of its code stands in its place again."""
        self._forget(code)
        self.history.replace(own.restored(self.own_rows, self.base, code))
        back = code in self.base.materials
        self.said = f"{code} is back to the supplied row." if back else f"{code} has been removed."

    def take(self, preview: Preview) -> None:
        """Take what a price list changes, as one step."""
        for code in preview.codes:
            self._forget(code)
        rows = firm_catalogue.with_prices_of(self.own_rows, preview)
        self.history.replace(rows)
        self.said = (
            f"{len(preview.changes)} prices have been taken. Save the catalogue to keep them."
        )

    def good_for(self, days: int) -> None:
        """Mark prices as out of date after so many days."""
        self.history.replace(firm_catalogue.with_price_days(self.own_rows, days), merge="days")
        self.said = f"Prices are out of date after {days} days. Save the catalogue to keep this."

    def undo(self) -> None:
        """Drop the entries that cannot stand; where there are none, take the last step back."""
        self.said = ""
        if self.rejected:
            self.rejected.clear()
        else:
            self.history.undo()

    def redo(self) -> None:
        """Take a step forward again."""
        self.rejected.clear()
        self.said = ""
        self.history.redo()

    def save(self) -> None:
        """Keep the own rows as their next version.

        Raises
        ------
        RoofModelError
            If they cannot be kept; nothing is lost here then.
        """
        self._kept = self._save(self.own_rows)
        self.history.mark_saved()
        self.said = f"Saved as version {self._kept.version} of your own catalogue."
        if self.rejected:
            self.said += " Entries that are not valid yet were left out."

    def _free_short(self, code: str) -> str:
        """Return what pieces of a new material are marked by: no two materials share a mark."""
        taken = {row.short for row in self.merged.catalogue.materials.values()}
        end = code.partition("-")[2]
        return end if end and end not in taken else code

    def _put(self, row: Material) -> None:
        self.history.replace(own.with_row(self.own_rows, self.base, row))

    def _forget(self, code: str) -> None:
        for place in [place for place in self.rejected if place[0] == code]:
            del self.rejected[place]
