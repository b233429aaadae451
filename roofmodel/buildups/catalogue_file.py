"""A whole catalogue as a file: read with every fault named, written so that it reads back equal."""

import json
from collections.abc import Mapping
from dataclasses import MISSING, fields
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

from roofmodel.buildups import catalogue_rows
from roofmodel.buildups.catalogue import Catalogue
from roofmodel.buildups.material import Material, Pack, Price, SheetForm, StockSize
from roofmodel.foundation.source import Source

SCHEMA = catalogue_rows.SCHEMA


def read(path: Path) -> Catalogue:
    """Return the catalogue of a file.

    Raises
    ------
    ResourceError
        If the file is missing, breaks off, or is of a newer schema; as `CatalogueFileError` with
        every wrong field of every row.
    """
    return _catalogue(catalogue_rows.tables(path), name=path.name)


def loads(text: str, *, name: str) -> Catalogue:
    """Return the catalogue a text holds; ``name`` is what errors call it. Errors as `read`."""
    return _catalogue(catalogue_rows.parsed(text, name=name), name=name)


def dumps(catalogue: Catalogue) -> str:
    """Return a catalogue as the text of a file; `loads` makes an equal one of it."""
    head = [
        "# Prices in GBP ex VAT, for one pack. Lengths in mm. One [[material]] a row.",
        f"schema = {SCHEMA}",
        f"name = {_value(catalogue.name)}",
        f"version = {catalogue.version}",
        f"valid_from = {catalogue.valid_from.isoformat()}",
    ]
    if catalogue.saw_kerf_mm is not None:
        head.append(f"saw_kerf_mm = {catalogue.saw_kerf_mm}")
    if catalogue.price_days is not None:
        head.append(f"price_days = {catalogue.price_days}")
    if catalogue.withdrawn:
        head.append(f"withdrawn = {_value(catalogue.withdrawn)}")
    if catalogue.copied:
        head.append(f"copied = {_inline(catalogue.copied)}")
    rows = [line for row in catalogue.materials.values() for line in _row(row)]
    return "\n".join([*head, *rows]) + "\n"


def _catalogue(table: dict[str, Any], *, name: str) -> Catalogue:
    head, rows = catalogue_rows.whole(table, name=name)
    return Catalogue(
        name=head["name"],
        version=head["version"],
        valid_from=head["valid_from"],
        materials={row.code: row for row in rows},
        saw_kerf_mm=float(head["saw_kerf_mm"]) if "saw_kerf_mm" in head else None,
        price_days=head.get("price_days"),
        withdrawn=tuple(head.get("withdrawn", ())),
        copied=dict(head.get("copied", {})),
    )


def _row(row: Material) -> list[str]:
    lines = ["", "[[material]]"]
    lines += [f"{name} = {_value(value)}" for name, value in _entered(row).items()]
    if row.sheet is not None:
        lines.append("[material.sheet]")
        lines += [f"{name} = {_value(value)}" for name, value in _entered(row.sheet).items()]
    return lines


def _entered(holder: Material | Pack | Price | SheetForm | StockSize | Source) -> dict[str, object]:
    """Return the fields that differ from what they are when left out; the sheet has its own table.

    Nothing stands for "not known", so that a field with None is left out whatever its default is.
    """
    found: dict[str, object] = {}
    for field in fields(holder):
        value = getattr(holder, field.name)
        if value is None or field.name == "sheet":
            continue
        if field.default is MISSING or value != field.default:
            found[field.name] = value
    return found


def _value(value: object) -> str:
    if isinstance(value, str):  # choices of a few words are texts too
        written = _text(str(value))
    elif isinstance(value, tuple):
        written = f"[{', '.join(_value(one) for one in value)}]"
    elif isinstance(value, bool):
        written = "true" if value else "false"
    elif isinstance(value, float | int | Decimal | date):
        written = str(value)
    elif isinstance(value, Pack | Price | StockSize | Source):
        written = _inline(_entered(value))
    else:
        raise TypeError(f"{type(value).__name__} cannot be written to a catalogue file")
    return written


def row_text(row: Material) -> str:
    """Return a row as a file has it: the same for rows that hold the same."""
    return "\n".join(_row(row))


def _inline(values: Mapping[str, object]) -> str:
    return "{ " + ", ".join(f"{name} = {_value(value)}" for name, value in values.items()) + " }"


def _text(value: str) -> str:
    # Both languages escape alike, but for the one control sign JSON lets through.
    return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")
