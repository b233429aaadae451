"""How firm rise and area of a roof are, as reports print it.

The errors are those every figure of the roof carries, from the values that were entered. What one
corner or pitch does by itself stands beside them; it is no second error of the same figure.
"""

from typing import Any

from roofmodel.survey.verdict.sensitivity import Effect, Sensitivity
from roofmodel.workbench.facts import fact_figures
from roofmodel.workbench.job.reckoning import Drawn

_MOST = 5


def of_roof(drawn: Drawn, firmness: Sensitivity) -> dict[str, Any]:
    """Return the errors of rise and area, the values they hang on most, and knife edges."""
    rise_mm, area_m2 = errors(drawn)
    most = sorted(firmness.effects, key=lambda one: -one.area_m2)[:_MOST]
    return {
        "text": text(drawn, firmness),
        "rise_error_mm": round(rise_mm, 1),
        "area_error_m2": round(area_m2, 4),
        "most": [_effect(one) for one in most if not one.jumps],
        "knife_edges": list(firmness.knife_edges),
    }


def errors(drawn: Drawn) -> tuple[float, float]:
    """Return the standard errors of rise [mm] and area [m²], those of the facts themselves."""
    figures = fact_figures.of_roof(drawn)
    return figures["rise_mm"].error or 0.0, figures["area_m2"].error or 0.0


def text(drawn: Drawn, firmness: Sensitivity) -> str:
    """Return the errors of rise and area and what they hang on most, as one line."""
    rise_mm, area_m2 = errors(drawn)
    most = max(
        (one for one in firmness.effects if not one.jumps),
        key=lambda one: one.area_m2,
        default=None,
    )
    words = (
        f"Rise ±{rise_mm:.0f} mm, area ±{area_m2:.3f} m², by one standard error of every value "
        "entered."
    )
    if most is None:
        return words
    return (
        f"{words} Of all corners and pitches by themselves, {most.what} changes the area most: "
        f"±{most.error:g}{most.unit} is ±{most.area_m2:.3f} m²."
    )


def _effect(one: Effect) -> dict[str, Any]:
    return {
        "what": one.what,
        "error": one.error,
        "unit": one.unit.strip(),
        "rise_mm": round(one.rise_mm, 2),
        "area_m2": round(one.area_m2, 5),
    }
