"""The prices of a catalogue as a list for a spreadsheet, and what a list would change in them.

Nothing is taken while a list is read: `read` says what it would change, and the catalogue it would
make. One wrong row keeps the whole list out.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal

from roofmodel.buildups import catalogue_words
from roofmodel.buildups.catalogue import Catalogue
from roofmodel.buildups.catalogue_words import CatalogueFileError, RowFault
from roofmodel.buildups.material import Material, Price, StockSize
from roofmodel.buildups.prices import listed, price_entry
from roofmodel.buildups.prices.listed import ListedRow
from roofmodel.foundation.errors import ResourceError

SOURCE = "the firm's price list"
_BIG_STEP = Decimal("0.5")
"""A price that moves by more than half is pointed out: a point may be missing."""
_SIZE = re.compile(r"(\d+(?:\.\d+)?)\s*[x×*]\s*(\d+(?:\.\d+)?)\s*(?:mm)?", re.IGNORECASE)

type Size = tuple[float, float] | None
"""A size of sheet that has a price of its own [mm]; None for the price of the material."""
type Words = tuple[str, str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceChange:
    """What a list would change in one row: its price, its supplier's code, or both.

    ``before`` and ``after`` are None where there is no price; ``supplier_code`` is the new one,
    None where it stays.
    """

    code: str
    size: Size
    before: Price | None
    after: Price | None
    supplier_code: str | None = None

    @property
    def named(self) -> str:
        """The code, and the size where the price is that of one."""
        return self.code if self.size is None else f"{self.code} {size_words(self.size)}"

    @property
    def percent(self) -> Decimal | None:
        """By how much the price moves [%]; None where there was none, or it was nothing."""
        if self.before is None or self.after is None or not self.before.amount:
            return None
        return (self.after.amount / self.before.amount - 1) * 100

    @property
    def remark(self) -> str:
        """What somebody should look at before the change is taken; empty for nothing."""
        if self.before is None or self.after is None:
            return "first price" if self.after is not None else ""
        if self.after.dated < self.before.dated:
            return f"older than the price of {self.before.dated}"
        percent = self.percent
        if percent is not None and abs(percent) > _BIG_STEP * 100:
            return "changes by more than half: check the decimal point"
        if not self.after.amount:
            return "costs nothing"
        return ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Preview:
    """What a list would change, and the catalogue it would make; nothing is taken yet.

    ``same`` counts prices that stay, ``passed_over`` rows of materials the firm does not have.
    """

    catalogue: Catalogue
    changes: tuple[PriceChange, ...]
    same: int
    passed_over: int

    @property
    def codes(self) -> frozenset[str]:
        """The codes of the rows that change."""
        return frozenset(change.code for change in self.changes)


def rows(catalogue: Catalogue) -> list[Sequence[object]]:
    """Return the price list: headings, then one row a price, GBP ex VAT for one pack."""
    found: list[Sequence[object]] = [listed.HEADS]
    for one in catalogue.materials.values():
        about = (one.code, one.name, one.unit, one.pack.name, one.pack.holds)
        found.append((*about, *_money(one.price), "", one.supplier_code))
        sizes = one.sheet.sizes if one.sheet is not None else ()
        for number, size in enumerate(sizes):
            if number or size.price is not None:
                words = size_words((size.length_mm, size.width_mm))
                found.append((*about[:4], "", *_money(size.price), words, one.supplier_code))
    return found


def read(
    found: Sequence[ListedRow],
    catalogue: Catalogue,
    *,
    name: str,
    today: date,
    dated: date | None = None,
    only_known: bool = False,
) -> Preview:
    """Return what the rows of a list would change; nothing is taken.

    Parameters
    ----------
    found
        The rows. One without price and date says nothing about its material.
    catalogue
        What the codes belong to. A row without a code is found by its supplier's code.
    name
        What errors call the list.
    today
        A price dated later is refused.
    dated
        The day of every price whose row has none.
    only_known
        Pass over rows of materials the catalogue does not have, instead of refusing the list.

    Raises
    ------
    CatalogueFileError
        With every wrong field of every row; nothing is taken from such a list.
    """
    by_supplier = _by_supplier(catalogue)
    faults = [row.fault for row in found if row.fault is not None]
    entries: dict[tuple[str, Size], tuple[int, PriceChange]] = {}
    passed_over = 0
    for row in (one for one in found if one.fault is None):
        code = row.cells.get(listed.CODE, "") or _of_supplier(row, by_supplier)
        if only_known and code not in catalogue.materials:
            passed_over += 1
            continue
        change, wrong = _change(row, code, catalogue, today=today, dated=dated)
        if change is not None:
            first, _ = entries.setdefault((code, change.size), (row.number, change))
            if first != row.number:
                told = f"{change.named} is in rows {first} and {row.number}."
                wrong.append((listed.CODE, told, "Keep one of them."))
        faults += [RowFault(row.number, code or "without a code", *words) for words in wrong]
    faults.sort(key=lambda fault: fault.row)
    if faults:
        raise CatalogueFileError(name, faults)
    if passed_over == len(found):
        told = f"{name}: no row has the code of a material of the catalogue."
        raise ResourceError(f"{told} Use the codes `roofmodel catalogue` lists, or supplier codes.")
    changes = tuple(one for _, one in entries.values() if _changes(one))
    for change in changes:
        catalogue = catalogue.with_material(_changed(catalogue.materials[change.code], change))
    return Preview(
        catalogue=catalogue,
        changes=changes,
        same=len(entries) - len(changes),
        passed_over=passed_over,
    )


def size_words(size: tuple[float, float]) -> str:
    """Return a size as lists have it."""
    return f"{size[0]:g} × {size[1]:g}"


def _money(price: Price | None) -> tuple[object, object, object]:
    return ("", "", "") if price is None else (price.amount, price.dated, price.source)


def _by_supplier(catalogue: Catalogue) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for one in catalogue.materials.values():
        if one.supplier_code:
            found.setdefault(one.supplier_code.casefold(), []).append(one.code)
    return found


def _of_supplier(row: ListedRow, by_supplier: Mapping[str, list[str]]) -> str:
    """Return the code of the one material a supplier's code belongs to; empty for none or two."""
    known = by_supplier.get(row.cells.get(listed.SUPPLIER_CODE, "").casefold(), [])
    return known[0] if len(known) == 1 else ""


def _change(
    row: ListedRow, code: str, catalogue: Catalogue, *, today: date, dated: date | None
) -> tuple[PriceChange | None, list[Words]]:
    """Return what a row says of its material, if anything, and what is wrong with the row."""
    material = catalogue.materials.get(code)
    if material is None:
        return None, [_unknown(row, code, catalogue)]
    size, wrong = _size(row, material)
    if wrong:
        return None, wrong
    before = _price_of(material, size)
    given = row.cells.get(listed.SUPPLIER_CODE, "")
    new_code = given if given and given != material.supplier_code else None
    after, wrong = _price(row, before, today=today, dated=dated)
    if wrong:
        return None, wrong
    return PriceChange(
        code=code, size=size, before=before, after=after or before, supplier_code=new_code
    ), []


def _unknown(row: ListedRow, code: str, catalogue: Catalogue) -> Words:
    if not code:
        by = row.cells.get(listed.SUPPLIER_CODE, "")
        told = (
            f"No single material has the supplier's code “{by}”." if by else "The row has no code."
        )
        return listed.CODE, told, "Enter the code of the catalogue, or delete the row."
    remedy = catalogue_words.did_you_mean(
        code, catalogue.materials, "Look it up, add it to the catalogue first, or delete the row."
    )
    return listed.CODE, f"There is no material “{code}” in the catalogue.", remedy


def _size(row: ListedRow, material: Material) -> tuple[Size, list[Words]]:
    """Return which size of a sheet a row is about; None for the material itself."""
    written = row.cells.get(listed.SIZE, "")
    if not written:
        return None, []
    sizes = material.sheet.sizes if material.sheet is not None else ()
    found = _SIZE.fullmatch(written)
    wanted = (float(found[1]), float(found[2])) if found else None
    for size in sizes:
        if wanted == (size.length_mm, size.width_mm):
            return wanted, []
    known = ", ".join(size_words((one.length_mm, one.width_mm)) for one in sizes)
    told = f"{material.code} is not sold in the size “{written}”."
    remedy = f"Write one of {known}." if known else "Leave the size empty."
    return None, [(listed.SIZE, told, remedy)]


def _price_of(material: Material, size: Size) -> Price | None:
    return material.price if size is None else _stock(material, size).price


def _stock(material: Material, size: Size) -> StockSize:
    assert material.sheet is not None
    return next(one for one in material.sheet.sizes if (one.length_mm, one.width_mm) == size)


def _price(
    row: ListedRow, before: Price | None, *, today: date, dated: date | None
) -> tuple[Price | None, list[Words]]:
    """Return the price in a row, if any, and what is wrong with it."""
    written, day_written = row.cells[listed.PRICE], row.cells.get(listed.DATE, "")
    currency = row.cells.get(listed.CURRENCY, "")
    if currency and currency.upper() not in ("GBP", "£"):
        told = f"The price is in {currency}, not in pounds."
        return None, [(listed.CURRENCY, told, "Enter what it costs in GBP, ex VAT.")]
    if not written and not day_written and before is None:
        return None, []
    amount, wrong = price_entry.amount_of(written)
    if day_written or dated is None:
        day, wrong_day = price_entry.date_of(day_written, today=today)
    else:
        day, wrong_day = dated, None
    faults = [
        (column, *words)
        for column, words in ((listed.PRICE, wrong), (listed.DATE, wrong_day))
        if words
    ]
    if amount is None or day is None:
        return None, faults
    kept = before.source if before and (before.amount, before.dated) == (amount, day) else SOURCE
    source = row.cells.get(listed.SOURCE, "")
    # A new price is not invented any more because the list still says so of the old one.
    if not source or (before is not None and source == before.source):
        source = kept
    return Price(amount=amount, dated=day, source=source), faults


def _changes(one: PriceChange) -> bool:
    return one.before != one.after or one.supplier_code is not None


def _changed(material: Material, change: PriceChange) -> Material:
    if change.supplier_code is not None:
        material = replace(material, supplier_code=change.supplier_code)
    if change.size is None or material.sheet is None:
        return replace(material, price=change.after)
    sizes = tuple(
        replace(one, price=change.after) if (one.length_mm, one.width_mm) == change.size else one
        for one in material.sheet.sizes
    )
    return replace(material, sheet=replace(material.sheet, sizes=sizes))
