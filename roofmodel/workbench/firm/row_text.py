"""A row of a table as somebody reads and types it: each field by its label, as one text."""

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from roofmodel.foundation.entered import figures
from roofmodel.foundation.errors import ResourceError
from roofmodel.quantities import counts, driver
from roofmodel.quantities.labour import Stage, Trade
from roofmodel.refit.layer import Lie, Zone
from roofmodel.workbench.firm import table
from roofmodel.workbench.firm.table import Table

type Reads = Callable[[str], Any]
type Shows = Callable[[Any], str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """How a value is shown as text and read again; ``reads`` raises ValueError with a remedy."""

    shows: Shows
    reads: Reads
    lines: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """A field of a row: its path in the row, what it is called, and what may be typed.

    ``choices`` are all there are, for a field with few of them; an empty one leaves the field out.
    ``fixed`` names the row and is not changed.
    """

    path: str
    label: str
    kind: Kind
    hint: str = ""
    choices: tuple[str, ...] = ()
    fixed: bool = False

    def shown(self, row: Any) -> str:  # noqa: ANN401 - a row as TOML has it
        """Return what stands in the field; empty where the row leaves it out."""
        value = row
        for name in filter(None, self.path.split(".")):
            value = value.get(name) if isinstance(value, Mapping) else None
        return "" if value is None else self.kind.shows(value)


def fields(one: Table, code: str) -> tuple[Field, ...]:
    """Return the fields of a row of a table, in the order they are shown."""
    if one is table.SUPPLIERS:
        return _SUPPLIER if "." in code else _NOT_ORDERED
    return _FIELDS[one]


def entered(one: Table, code: str, typed: Mapping[str, str], before: Any) -> Any:  # noqa: ANN401
    """Return a row as its fields were typed, by their paths; what has no field stays as it was.

    Raises
    ------
    ResourceError
        With the first field that cannot be read, by its label, and what to type.
    """
    row: Any = dict(before) if isinstance(before, Mapping) else {}
    for field in fields(one, code):
        if field.fixed:
            continue
        text = typed.get(field.path, "").strip()
        if before and text == field.shown(before).strip():
            # What was not touched stays as it is written, so that it is no change.
            if not field.path:
                return before
            continue
        try:
            value = field.kind.reads(text) if text else None
        except ValueError as error:
            raise ResourceError(f"{field.label}: {error}") from error
        if not field.path:
            return value if value is not None else []
        row = _put(row, field.path.split("."), value)
    return row


def named(one: Table, code: str, row: Any) -> Any:  # noqa: ANN401 - a row as TOML has it
    """Return a row under another code."""
    return {one.codes[0]: code, **row, one.codes[0]: code} if one.codes else row


def _put(row: Mapping[str, Any], path: Sequence[str], value: Any) -> dict[str, Any]:  # noqa: ANN401
    name, *rest = path
    inner = row.get(name)
    found = _put(inner if isinstance(inner, Mapping) else {}, rest, value) if rest else value
    if found is None or found == {}:
        return {known: one for known, one in row.items() if known != name}
    return {**row, name: found}


def _words(text: str) -> list[str]:
    return [word.strip() for word in text.split(",") if word.strip()]


def _number(text: str) -> float | int:
    try:
        value = float(text.replace(",", "") if re.fullmatch(r"\d{1,3}(,\d{3})+", text) else text)
    except ValueError:
        raise ValueError(f"“{text}” is not a number. Enter figures, for example 12.5.") from None
    return value


def _count(text: str) -> int:
    if not re.fullmatch(r"\d{1,6}", text):
        raise ValueError(f"“{text}” is not a whole number. Enter figures, for example 2.")
    return int(text)


def _pair(text: str) -> list[float | int]:
    found = [_number(part) for part in _words(text)]
    if len(found) != 2:
        raise ValueError("Enter two thicknesses, such as 0, 60.")
    return found


_TERM = re.compile(
    r"(?:(?P<rate>\d*\.?\d+)\s*[×x*]\s*)?(?P<driver>[a-z][a-z0-9_]*)(?:\s*[÷/]\s*(?P<divide>\d*\.?\d+))?"
)


def _terms(text: str) -> list[dict[str, Any]]:
    found = []
    for part in (part.strip() for part in text.split("+")):
        match = _TERM.fullmatch(part)
        if match is None or (match["rate"] and match["divide"]):
            raise ValueError(
                f"“{part}” is no term. Write such as 0.5 × eaves_m + bar_m ÷ 0.3; the quantities "
                f"are {', '.join(sorted(driver.NAMES))}."
            )
        how = (
            {"divide": float(match["divide"])}
            if match["divide"]
            else {"rate": float(match["rate"] or 1.0)}
        )
        found.append({"driver": match["driver"], **how})
    return found


def _term_text(term: Mapping[str, Any]) -> str:
    if "divide" in term:
        return f"{term['driver']} ÷ {term['divide']:g}"
    return f"{term.get('rate', 1.0):g} × {term['driver']}"


def _parts(text: str, names: Sequence[str]) -> list[dict[str, Any]]:
    """Return groups of fields, one a line, parted by semicolons; the last may hold some itself."""
    found = []
    for line in filter(None, (line.strip() for line in text.splitlines())):
        values = [part.strip() for part in line.split(";", len(names) - 1)]
        found.append({name: value for name, value in zip(names, values, strict=False) if value})
    return found


_LAYER = ("material", "zone", "lie", "thickness_mm", "spacing_mm", "purpose")
_DEARER = ("percent", "categories", "codes")


def _layers(text: str) -> list[dict[str, Any]]:
    return [
        {n: _number(v) if n.endswith("_mm") else v for n, v in row.items()}
        for row in _parts(text, _LAYER)
    ]


def _layer_text(row: Mapping[str, Any]) -> str:
    return "; ".join(_plain(row.get(name)) for name in _LAYER).rstrip("; ")


def _dearer(text: str) -> list[dict[str, Any]]:
    return [
        {n: v if n == "percent" else _words(v) for n, v in row.items()}
        for row in _parts(text, _DEARER)
    ]


def _dearer_text(row: Mapping[str, Any]) -> str:
    return "; ".join(_plain(row.get(name)) for name in _DEARER).rstrip("; ")


def _plain(value: object) -> str:
    if value is None:
        return ""
    if isinstance(value, list | tuple):
        return ", ".join(map(_plain, value))
    if isinstance(value, float | int) and not isinstance(value, bool):
        return figures(float(value))
    return str(value)


def _each(shows: Callable[[Mapping[str, Any]], str], between: str) -> Shows:
    return lambda rows: between.join(map(shows, rows))


TEXT = Kind(shows=str, reads=str)
WORDS = Kind(shows=_plain, reads=_words)
NUMBER = Kind(shows=_plain, reads=_number)
COUNT = Kind(shows=_plain, reads=_count)
PAIR = Kind(shows=_plain, reads=_pair)
YES = Kind(shows=lambda value: "yes" if value else "", reads=lambda text: text == "yes" or None)
TERMS = Kind(shows=_each(_term_text, " + "), reads=_terms)
LAYERS = Kind(shows=_each(_layer_text, "\n"), reads=_layers, lines=True)
DEARER = Kind(shows=_each(_dearer_text, "\n"), reads=_dearer, lines=True)

_METHODS = "new-roof, build-round, panel-swap"
_TERM_HINT = "such as 0.5 × eaves_m + bar_m ÷ 0.3"
_FIELDS: Mapping[Table, tuple[Field, ...]] = {
    table.RECIPES: (
        Field(path="material", label="Material, by its code", kind=TEXT),
        Field(path="methods", label="Methods", kind=WORDS, hint=_METHODS),
        Field(path="group", label="Group of the take-off", kind=TEXT),
        Field(path="terms", label="Quantity", kind=TERMS, hint=_TERM_HINT),
        Field(path="count", label="Or counted as", kind=TEXT, choices=("", *counts.COUNTS)),
        Field(path="waste", label="Waste", kind=TEXT, choices=("", "material", "none")),
        Field(path="round_up", label="Rounded up to", kind=NUMBER),
        Field(path="through_mm", label="Through more than, at most [mm]", kind=PAIR),
        Field(path="note", label="Note", kind=TEXT),
    ),
    table.NORMS: (
        Field(path="id", label="Task", kind=TEXT, fixed=True),
        Field(path="name", label="Name", kind=TEXT),
        Field(path="trade", label="Trade", kind=TEXT, choices=tuple(one.value for one in Trade)),
        Field(path="stage", label="Stage", kind=TEXT, choices=tuple(one.value for one in Stage)),
        Field(path="methods", label="Methods", kind=WORDS, hint=_METHODS),
        Field(path="terms", label="Man-hours", kind=TERMS, hint=_TERM_HINT),
        Field(path="glass_terms", label="Man-hours where glass comes off", kind=TERMS),
        Field(path="site_terms", label="Man-hours where boards are cut on site", kind=TERMS),
        Field(path="after", label="After the tasks", kind=WORDS),
        Field(path="best_after", label="Better after", kind=WORDS),
        Field(path="hold", label="Looked at before going on", kind=TEXT),
        Field(path="opens", label="Opens the room to the weather", kind=YES, choices=("", "yes")),
        Field(path="closes", label="Makes it weathertight", kind=YES, choices=("", "yes")),
        Field(path="wait_h", label="Waits before it [h]", kind=NUMBER),
    ),
    table.EXTRAS: (
        Field(path="name", label="Name", kind=TEXT),
        Field(path="changes", label="What it changes", kind=TEXT),
        Field(path="methods", label="Methods", kind=WORDS, hint=_METHODS),
        Field(path="lights", label="More downlights", kind=COUNT),
        Field(path="window.material", label="Roof window, by its code", kind=TEXT),
        Field(path="window.width_mm", label="Its width [mm]", kind=NUMBER),
        Field(path="window.height_mm", label="Its height [mm]", kind=NUMBER),
        Field(
            path="dearer",
            label="Dearer make",
            kind=DEARER,
            hint="per cent; categories; codes, one make a line",
        ),
        Field(path="source", label="Where sizes and percentages come from", kind=TEXT),
    ),
    table.STACKS: (
        Field(path="kept", label="Kept", kind=TEXT),
        Field(path="replaced", label="Replaced", kind=TEXT),
        Field(path="bar_material", label="New rafters, by code", kind=TEXT),
        Field(path="bar_width_mm", label="Their width [mm]", kind=NUMBER),
        Field(path="bar_depth_mm", label="Their depth [mm]", kind=NUMBER),
        Field(path="bar_spacing_mm", label="Their spacing [mm]", kind=NUMBER),
        Field(
            path="layers",
            label="Layers, from the room outwards",
            kind=LAYERS,
            hint=f"material; zone ({', '.join(Zone)}); lie ({', '.join(Lie)}); thickness mm; "
            "spacing mm; purpose, one layer a line",
        ),
    ),
    table.WAYS: (
        Field(path="name", label="Name", kind=TEXT),
        Field(path="layers", label="For", kind=WORDS, hint="deck, insulation, lining"),
        Field(path="joints", label="Joints", kind=TEXT, choices=("free", "supports")),
        Field(path="bays_spanned_least", label="Bays a piece spans at least", kind=COUNT),
        Field(path="rows", label="Rows", kind=TEXT, choices=("whole", "ripped")),
        Field(path="rows_from", label="Rows from the", kind=TEXT, choices=("eaves", "ridge")),
        Field(path="abutment_gap_mm", label="Gap at walls [mm]", kind=NUMBER),
        Field(path="more_rows", label="Rows more than the fewest", kind=COUNT),
        Field(path="more_joints", label="Joints a row more than the fewest", kind=COUNT),
        Field(path="source.document", label="Where the rule comes from", kind=TEXT),
    ),
}
_SUPPLIER = (
    Field(path="supplier", label="Supplier", kind=TEXT),
    Field(
        path="lead", label="Working days ahead", kind=TEXT, hint="such as 3 or 1-2; ? if unknown"
    ),
)
_NOT_ORDERED = (Field(path="", label="Groups that are not ordered", kind=WORDS),)
TYPED = (table.RECIPES, table.NORMS, table.SUPPLIERS, table.EXTRAS, table.STACKS, table.WAYS)
"""The tables whose rows are typed so; rates and texts have a form of their own."""
