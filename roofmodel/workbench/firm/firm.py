"""What an offer is written and priced with: the firm's words, logo, rates and tables."""

import shutil
from collections.abc import Mapping
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from typing import Any

from roofmodel.drawings.offer import offer_text
from roofmodel.drawings.offer.offer_text import OfferText
from roofmodel.foundation.errors import ResourceError
from roofmodel.foundation.layered import Own
from roofmodel.pricing import rates as pricing_rates
from roofmodel.pricing.rates import Rates
from roofmodel.workbench.firm import table, tables
from roofmodel.workbench.firm.table import RATES, TEXTS, Table
from roofmodel.workbench.firm.tables import Tables


@dataclass(frozen=True, slots=True, kw_only=True)
class Firm:
    """What an offer is written and priced with; ``own`` says whether any of it is the firm's."""

    text: OfferText
    rates: Rates
    tables: Tables
    own: bool = False


def load(folder: Path | None) -> Firm:
    """Return words, rates and tables of a folder, the shipped, invented ones where it has none.

    Raises
    ------
    ResourceError
        If a file of it is wrong; the text names file and field.
    """
    own_tables = tables.load(folder)
    words, rates = TEXTS.laid(folder), RATES.laid(folder)
    text = (
        offer_text.of_table(TEXTS.as_read(words.rows), file=folder / TEXTS.file)
        if folder is not None and TEXTS.own(folder)
        else offer_text.read()
    )
    return Firm(
        text=text,
        rates=pricing_rates.of_table(RATES.as_read(rates.rows), name=RATES.file),
        tables=own_tables,
        own=folder is not None and any(one.own(folder) for one in table.TABLES),
    )


def check(one: Table, own: Own[Any], folder: Path) -> None:
    """Refuse rows of a table that cannot stand.

    Raises
    ------
    ResourceError
        If one cannot; the text names file, row and field.
    """
    if one is TEXTS:
        laid = one.as_read(one.layers.under(own).rows)
        offer_text.of_table(laid, file=folder / one.file)
    else:
        tables.read(one, own)


def save(firm: Firm, folder: Path) -> None:
    """Keep words, logo and rates in a folder; each file that was there stays beside it.

    Raises
    ------
    ResourceError
        If something cannot be written; the file concerned is then the one from before.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
        text = replace(firm.text, firm=replace(firm.text.firm, logo=_logo(firm.text, folder)))
    except OSError as error:
        reason = error.strerror or str(error)
        raise ResourceError(
            f"The firm's settings could not be saved in {folder}: {reason}. Choose a "
            "folder you can write to, or another picture."
        ) from error
    _save(TEXTS, asdict(text), folder)
    _save(RATES, asdict(firm.rates), folder)


def _save(one: Table, entered: Mapping[str, Any], folder: Path) -> None:
    """Keep every field of a table; what it was copied from stays known."""
    own = one.own(folder)
    for code, value in table.fields(entered):
        if value is not None:
            own = one.layers.with_row(own, code, value)
    one.save(own, folder)


def _logo(text: OfferText, folder: Path) -> str:
    """Return the name of the logo, which is copied into the folder."""
    if not text.firm.logo:
        return ""
    source = Path(text.firm.logo)
    if source.parent.resolve() != folder.resolve():
        target = folder / f"logo{source.suffix.lower()}"
        shutil.copyfile(source, target)
        return target.name
    return source.name
