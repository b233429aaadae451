"""The chosen method on the roof, as reports print it: layers, depths, lights, what is refused."""

from typing import Any

from roofmodel.refit import depth
from roofmodel.refit.light_layout import LightReport
from roofmodel.refit.refit import Refit
from roofmodel.refit.stack import Placed
from roofmodel.workbench.job.options import Option


def of_option(option: Option) -> dict[str, Any]:
    """Return a method's layers with their own areas, its depths, its lights and its refusal."""
    figures: dict[str, Any] = {
        "method": option.method.value,
        "title": option.method.printed,
        "refused": option.refused,
    }
    refit = option.refit
    if refit is None:
        return figures
    return {
        **figures,
        "kept": refit.default.kept,
        "replaced": refit.default.replaced,
        "facets": list(refit.facets),
        "layers": [_layer(refit, layer) for layer in refit.layers],
        "depths": [
            {
                "where": one.where,
                "plumb_mm": round(one.plumb_mm, 1),
                "surface_mm": round(one.surface_mm, 1),
                "ceiling_mm": round(one.ceiling_mm, 1),
                "room_below_sill_mm": None if one.room_mm is None else round(one.room_mm, 1),
                "text": one.words,
            }
            for one in depth.depths(refit)
        ],
        "headroom_lost_mm": round(depth.headroom_lost_mm(refit), 1),
        "lights": [_lights(report) for report in option.lights],
    }


def _layer(refit: Refit, layer: Placed) -> dict[str, Any]:
    surface = refit.surfaces.get(layer.number)
    return {
        "number": layer.number,
        "material": layer.material.code,
        "name": layer.material.name,
        "lies": layer.layer.lie.words,
        "thickness_mm": round(layer.thickness_mm, 2),
        "inside_mm": round(layer.inside_mm, 2),
        "outside_mm": round(layer.outside_mm, 2),
        "area_m2": round(refit.area_m2(layer), 4),
        "measured_on": surface.words if surface else "datum surface, less bars and fitting gap",
        "purpose": layer.layer.purpose,
    }


def _lights(report: LightReport) -> dict[str, Any]:
    return {
        "facet": report.facet,
        "wanted_mm": [[round(c, 1) for c in light.spot] for light in report.wanted],
        "offered_mm": [[round(c, 1) for c in light.spot] for light in report.arranged],
        "passes": report.passes,
        "said": list(report.sentences),
        "cautions": list(report.cautions),
    }
