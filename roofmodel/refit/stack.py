"""The build-up of a method: its layers from the room outwards, and where each one lies.

Offsets are measured square to the facet from the datum, the outside of the bars: outwards
positive. What lies between the bars reaches out to the datum; the bars' own depth, or the layers
between them where those are thicker, is the depth of that zone.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

from pydantic import ConfigDict, TypeAdapter

from roofmodel.buildups.catalogue import Catalogue
from roofmodel.buildups.material import Material
from roofmodel.foundation import resources, toml_rows
from roofmodel.foundation.errors import DimensionError, Fault, ResourceError
from roofmodel.refit.layer import Layer, Lie, Zone
from roofmodel.refit.method import Method


@dataclass(frozen=True, slots=True, kw_only=True)
class NewBars:
    """The rafters a new roof is built on."""

    material: str
    width_mm: float
    depth_mm: float
    spacing_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class MethodStack:
    """What a method keeps, replaces and lays, before a job changes any of it."""

    method: Method
    kept: str
    replaced: str
    new_bars: NewBars | None
    layers: tuple[Layer, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A layer with its material and its faces, ``inside_mm`` and ``outside_mm`` from the datum."""

    number: int
    layer: Layer
    material: Material
    inside_mm: float
    outside_mm: float

    @property
    def thickness_mm(self) -> float:
        """Thickness [mm]."""
        return self.outside_mm - self.inside_mm

    @property
    def cut_face_mm(self) -> float:
        """Offset of the face its pieces are measured on [mm].

        A lining is cut to the face the room sees; everything outside the bars to its outside,
        where a bevelled board is largest, but for what is screwed down on top of it.
        """
        if self.layer.zone is Zone.ROOM:
            return self.inside_mm
        if self.layer.zone is Zone.BARS:
            return 0.0
        return self.outside_mm if self.material.sheet is not None else self.inside_mm


def placed(
    layers: Sequence[Layer], catalogue: Catalogue, *, bar_depth_mm: float
) -> tuple[Placed, ...]:
    """Return layers, given from the room outwards, with their offsets from the datum.

    Raises
    ------
    DimensionError
        With every layer whose material is unknown or has no thickness, or that is out of order.
    """
    faults: list[Fault] = []
    known: list[tuple[Layer, Material, float]] = []
    for i, layer in enumerate(layers):
        material = catalogue.materials.get(layer.material)
        if material is None:
            text = f"There is no material “{layer.material}” in the catalogue."
            faults.append(Fault(f"layers.{i}.material", text, "Choose one from the catalogue."))
            continue
        thickness_mm = layer.thickness_mm or material.thickness_mm
        if thickness_mm is None:
            text = f"{layer.material} has no thickness in the catalogue."
            faults.append(
                Fault(f"layers.{i}.thickness_mm", text, "Enter the thickness for this layer.")
            )
            continue
        known.append((layer, material, thickness_mm))
    faults += _order_faults(layers)
    if faults:
        raise DimensionError(faults)
    return _with_offsets(known, bar_depth_mm)


def with_material(
    layers: Sequence[Placed], material: Material, *, thicker_mm: float, bar_depth_mm: float
) -> tuple[Placed, ...]:
    """Return layers with another material of the same code, each layer of it so much thicker."""
    known = [
        (one.layer, material, one.thickness_mm + thicker_mm)
        if one.material.code == material.code
        else (one.layer, one.material, one.thickness_mm)
        for one in layers
    ]
    return _with_offsets(known, bar_depth_mm)


def zone_depth_mm(layers: Sequence[Placed], bar_depth_mm: float) -> float:
    """Return how deep the zone of the bars is: the bars, or what lies between them if deeper."""
    between = sum(one.thickness_mm for one in layers if one.layer.lie is Lie.BETWEEN)
    return max(bar_depth_mm, between)


def _with_offsets(
    known: Sequence[tuple[Layer, Material, float]], bar_depth_mm: float
) -> tuple[Placed, ...]:
    between_mm = sum(t for layer, _, t in known if layer.lie is Lie.BETWEEN)
    room_mm = sum(t for layer, _, t in known if layer.zone is Zone.ROOM)
    at_mm = {
        Zone.ROOM: -max(bar_depth_mm, between_mm) - room_mm,
        Zone.BARS: -between_mm,
        Zone.OUTSIDE: 0.0,
    }
    offset_layers = []
    for number, (layer, material, thickness_mm) in enumerate(known, start=1):
        inside_mm = at_mm[layer.zone]
        at_mm[layer.zone] = inside_mm + thickness_mm
        offset_layers.append(
            Placed(
                number=number,
                layer=layer,
                material=material,
                inside_mm=inside_mm,
                outside_mm=inside_mm + thickness_mm,
            )
        )
    return tuple(offset_layers)


_ORDER = (Zone.ROOM, Zone.BARS, Zone.OUTSIDE)


def _order_faults(layers: Sequence[Layer]) -> list[Fault]:
    if not layers:
        text = "This build-up has no layers."
        return [Fault("layers", text, "Add at least one, or go back to the method's own.")]
    ranks = [_ORDER.index(layer.zone) for layer in layers]
    return [
        Fault(
            f"layers.{i}.zone",
            f"{layers[i].material} ({layers[i].zone}) is outside a layer of "
            f"“{layers[i - 1].zone}”.",
            "List the layers from the room outwards.",
        )
        for i in range(1, len(ranks))
        if ranks[i] < ranks[i - 1]
    ]


@cache
def shipped() -> Mapping[Method, MethodStack]:
    """Return what each method lays unless a job says otherwise.

    Raises
    ------
    ResourceError
        If the shipped file is wrong.
    """
    table = resources.read_toml(resources.folder() / "methods.toml")
    return of_table(table, name="methods.toml")


def of_table(table: Mapping[str, Any], *, name: str) -> Mapping[Method, MethodStack]:
    """Return what each method of a table lays; ``name`` is what errors call its file.

    Raises
    ------
    ResourceError
        If a method is missing, or a field of one is wrong.
    """
    by_method = {
        one.method: one for one in (_method_stack(row, name) for row in table.get(KEY, []))
    }
    missing = [method.printed for method in Method if method not in by_method]
    if missing:
        raise ResourceError(f"{name} is missing {', '.join(missing)}. Put it back.")
    return by_method


KEY = "method"
"""What a row is called in a file."""
_LAYERS = TypeAdapter(tuple[Layer, ...], config=ConfigDict(extra="forbid"))


def _method_stack(row: Mapping[str, Any], file: str) -> MethodStack:
    name = row.get("id", "?")
    told = f"{file}, method “{name}”"
    layers = toml_rows.of_rows(row, "layers", _LAYERS, name=told)
    try:
        new_bars = None
        if row["bars"] == "new":
            new_bars = NewBars(
                material=row["bar_material"],
                width_mm=float(row["bar_width_mm"]),
                depth_mm=float(row["bar_depth_mm"]),
                spacing_mm=float(row["bar_spacing_mm"]),
            )
        return MethodStack(
            method=Method(name),
            kept=row["kept"],
            replaced=row["replaced"],
            new_bars=new_bars,
            layers=layers,
        )
    except KeyError as error:
        raise ResourceError(f"{told}, {error.args[0]}: this field is missing. Add it.") from error
    except (TypeError, ValueError) as error:
        raise ResourceError(f"{told}: {error}. Correct it.") from error
