"""What the materials of a method are good for: each figure that has an error, and the roof with it.

A material is not measured here; how far it may be from its row says
`roofmodel/buildups/material_error.py`. Its figures move gates as a reading does.
"""

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from roofmodel.buildups import material_error
from roofmodel.buildups.material import Material
from roofmodel.gates.every_gate import Asked
from roofmodel.gates.weight import old_glazing
from roofmodel.refit import refit as refits
from roofmodel.refit.refit import Refit
from roofmodel.workbench.job.measured import Measured

PLACE, GLAZING = "material", "glazing"
"""What a path to a material's figure, and to the old glazing's, begins with."""

MADE_OF = (PLACE, GLAZING)
"""Both: figures that stand in tables, not in the job."""

CATALOGUE = "catalogue"
"""What stands where a reading names its tool."""

_FIGURES = {
    "conductivity_w_mk": ("conductivity", "W/mK"),
    "resistance_m2k_w": ("resistance", "m²K/W"),
    "thickness_mm": ("thickness", "mm"),
    "mass_kg": ("mass", "kg"),
}


def of_refit(refit: Refit, asked: Asked) -> tuple[Measured, ...]:
    """Return every figure of a method's materials, and of the old glazing, that has an error."""
    materials = {layer.material.code: layer.material for layer in refit.layers}
    if refit.default.new_bars is not None:
        code = refit.default.new_bars.material
        if code in asked.catalogue.materials:
            materials.setdefault(code, asked.catalogue.materials[code])
    thick = {layer.material.code: layer.thickness_mm for layer in refit.layers}
    return tuple(
        one for code, material in materials.items() for one in _of(material, thick.get(code))
    ) + tuple(_old(refit))


def moved(refit: Refit, asked: Asked, one: Measured, by: float) -> tuple[Refit, Asked]:
    """Return a method, and what its gates are answered from, with one figure moved."""
    if one.path[0] == GLAZING:
        old = old_glazing.of_standing(refit.site.standing)
        if old is None:
            return refit, asked
        return refit, replace(asked, glazing=replace(old, mass_kg_m2=old.mass_kg_m2 + by))
    _, code, field = one.path
    known = next(
        (layer.material for layer in refit.layers if layer.material.code == code),
        asked.catalogue.materials.get(str(code)),
    )
    if known is None:
        return refit, asked
    if field == "thickness_mm":
        return refits.with_material(refit, known, thicker_mm=by), asked
    changes: dict[str, Any] = {str(field): one.value + by}
    other = replace(known, **changes)
    catalogue = replace(asked.catalogue, materials={**asked.catalogue.materials, other.code: other})
    return refits.with_material(refit, other), replace(asked, catalogue=catalogue)


def _of(material: Material, thickness_mm: float | None) -> Iterator[Measured]:
    error = material_error.of(material)
    if error is None:
        return
    # What is declared as a resistance holds the thickness already.
    heat = "conductivity_w_mk" if material.resistance_m2k_w is None else "resistance_m2k_w"
    found = [
        (heat, getattr(material, heat), error.conductivity_share),
        ("mass_kg", material.mass_kg, error.mass_share),
    ]
    for field, value, share in found:
        if value and share:
            yield _measured(material, field, value, share * value)
    if thickness_mm and error.thickness_mm:
        sharp_mm = min(error.thickness_mm, thickness_mm / 4.0)  # a film stays a film
        yield _measured(material, "thickness_mm", thickness_mm, sharp_mm)


def _measured(material: Material, field: str, value: float, error: float) -> Measured:
    name, unit = _FIGURES[field]
    return Measured(
        path=(PLACE, material.code, field),
        label=f"{name} of {material.name}",
        value=value,
        unit=unit,
        tool=CATALOGUE,
        standard_error=error,
        source=material.source,
    )


def _old(refit: Refit) -> Iterator[Measured]:
    old, share = old_glazing.of_standing(refit.site.standing), material_error.old_glazing()
    if old is not None and share.mass_share:
        yield Measured(
            path=(GLAZING,),
            label=f"mass of the old glazing, {old.words}",
            value=old.mass_kg_m2,
            unit="kg/m²",
            tool=CATALOGUE,
            standard_error=share.mass_share * old.mass_kg_m2,
            source=old.source,
        )
