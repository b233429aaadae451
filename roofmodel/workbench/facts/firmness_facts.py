"""How firm rise and area of a roof are, as reports print it."""

from typing import Any

from roofmodel.survey.verdict.sensitivity import Effect, Sensitivity

_MOST = 5


def of_sensitivity(firmness: Sensitivity) -> dict[str, Any]:
    """Return the errors of rise and area, the values they hang on most, and knife edges."""
    most = sorted(firmness.effects, key=lambda one: -one.area_m2)[:_MOST]
    return {
        "text": text(firmness),
        "rise_error_mm": round(firmness.rise_error_mm, 1),
        "area_error_m2": round(firmness.area_error_m2, 4),
        "most": [_effect(one) for one in most if not one.jumps],
        "knife_edges": list(firmness.knife_edges),
    }


def text(firmness: Sensitivity) -> str:
    """Return the errors of rise and area and what they hang on most, as one line."""
    most = max(
        (one for one in firmness.effects if not one.jumps),
        key=lambda one: one.area_m2,
        default=None,
    )
    words = f"Rise ±{firmness.rise_error_mm:.0f} mm, area ±{firmness.area_error_m2:.3f} m²"
    if most is None:
        return f"{words}."
    return (
        f"{words} (one standard error of every corner and pitch); most of the area from "
        f"{most.what}: ±{most.error:g}{most.unit} is ±{most.area_m2:.3f} m²."
    )


def _effect(one: Effect) -> dict[str, Any]:
    return {
        "what": one.what,
        "error": one.error,
        "unit": one.unit.strip(),
        "rise_mm": round(one.rise_mm, 2),
        "area_m2": round(one.area_m2, 5),
    }
