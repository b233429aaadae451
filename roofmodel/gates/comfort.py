"""What the room will be like, as bands with their assumptions: summer heat, rain, daylight.

Indications for choosing between methods, not promises.
"""

import math
from dataclasses import dataclass
from functools import cache

from roofmodel.foundation import resources
from roofmodel.foundation.errors import DimensionError, Fault, ResourceError
from roofmodel.foundation.outcome import Outcome
from roofmodel.foundation.source import Source
from roofmodel.gates.answer.result import Gate
from roofmodel.gates.heat import settings as thermal_settings
from roofmodel.gates.heat import u_value as thermal
from roofmodel.gates.heat.heat_loss import READ_GLAZING, band, band_w_m2k
from roofmodel.refit.refit import Refit

SUMMER = "summer peak"
RAIN = "rain noise"
DAYLIGHT = "daylight left"
_SUMMER_ASKED = "Does less of the summer sun's heat come through the roof than before?"
_RAIN_ASKED = "Does the rain sound quieter than before?"
_DAYLIGHT_ASKED = "How much of the daylight is left?"

NO_PROMISE = (
    "Give this to the customer as an indication only; there is no measurement or model behind it."
)

INDICATION = Source("an indication, common practice, no source", "", verified=False)

HALF = 0.5
"""Share of glazing below which a room is called darker (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ComfortSettings:
    """Assumptions of the comfort bands."""

    sun_w_m2: float
    covering_c: float
    room_c: float
    summer_source: Source
    spread_db: float
    rain_source: Source


@cache
def shipped() -> ComfortSettings:
    """Return the shipped assumptions.

    Raises
    ------
    ResourceError
        If the file is wrong.
    """
    table = resources.read_toml(resources.folder() / "standards" / "comfort.toml")
    try:
        summer, rain = table["summer"], table["rain"]
        return ComfortSettings(
            sun_w_m2=float(summer["sun_w_m2"]),
            covering_c=float(summer["covering_c"]),
            room_c=float(summer["room_c"]),
            summer_source=Source(**summer["source"]),
            spread_db=float(rain["spread_db"]),
            rain_source=Source(**rain["source"]),
        )
    except (KeyError, TypeError, ValueError) as error:
        raise ResourceError(f"comfort.toml: {error}.") from error


def sun_through_glazing_w(g: float, area_m2: float, sun_w_m2: float) -> float:
    """Return the sun's heat that comes through glazing at its peak [W].

    Examples
    --------
    >>> round(sun_through_glazing_w(0.55, 11.6, 700.0))
    4466
    """
    return g * area_m2 * sun_w_m2


def heat_through_roof_w(u_w_m2k: float, area_m2: float, fall_k: float) -> float:
    """Return the heat that comes through a solid roof at its peak [W].

    Examples
    --------
    >>> round(heat_through_roof_w(0.21, 11.6, 34.0))
    83
    """
    return u_w_m2k * area_m2 * fall_k


def quieter_db(old_kg_m2: float, new_kg_m2: float) -> float:
    """Return how much quieter the heavier of two roofs is by the mass law [dB].

    Raises
    ------
    DimensionError
        If either has no mass.

    Examples
    --------
    >>> round(quieter_db(20.0, 36.6), 1)
    5.2
    """
    if not (0.0 < old_kg_m2 < math.inf and 0.0 < new_kg_m2 < math.inf):
        text = f"Masses of {old_kg_m2:g} and {new_kg_m2:g} kg/m² cannot be compared."
        raise DimensionError([Fault("mass_kg_m2", text, "Enter both as more than 0.")])
    return 20.0 * math.log10(new_kg_m2 / old_kg_m2)


def summer(refit: Refit, settings: ComfortSettings | None = None) -> Gate:
    """Return the peak of heat through the covered facets, before and after."""
    known = settings or shipped()
    heat = thermal.heat(refit)
    if heat is None:
        return _unknown(SUMMER, _SUMMER_ASKED, "The bars are not known.", thermal.NO_BARS)
    old = thermal_settings.of_standing(refit.site.standing)
    if old is None:
        text = "How much sun the old glazing lets through is not known."
        return _unknown(SUMMER, _SUMMER_ASKED, text, READ_GLAZING)
    area_m2 = sum(facet.area_m2 for facet in refit.covered_facets)
    before = sun_through_glazing_w(old.g, area_m2, known.sun_w_m2)
    fall_k = known.covering_c - known.room_c
    best, worst = (heat_through_roof_w(u, area_m2, fall_k) for u in band_w_m2k(refit, heat))
    less = worst < before
    return Gate(
        name=SUMMER,
        question=_SUMMER_ASKED,
        outcome=Outcome.NOT_CALCULABLE if less else Outcome.MEASURE_AGAIN,
        reason=f"About {before / 1000.0:.1f} kW before, {band(best, worst, 0)} W after, at the "
        "peak; windows in the walls are not included.",
        remedy=NO_PROMISE if less else "Get declared values of the glazing and of the new layers.",
        value=(best + worst) / 2.0,
        unit="W",
        limit=before,
        band=(best, worst),
        source=known.summer_source,
        details=(
            ("area", f"{area_m2:.3f} m², outside of the bars"),
            ("old glazing", f"{old.words}, g {old.g:g}, {old.source}"),
            ("sun on the slope", f"{known.sun_w_m2:g} W/m²"),
            ("covering and room", f"{known.covering_c:g} °C and {known.room_c:g} °C"),
            ("before", f"{old.g:g} × {area_m2:.2f} m² × {known.sun_w_m2:g} W/m² = {before:.0f} W"),
            ("after", f"U × {area_m2:.2f} m² × {fall_k:g} K = {band(best, worst, 0)} W"),
        ),
    )


def rain(
    old_kg_m2: float | None, new_kg_m2: float | None, settings: ComfortSettings | None = None
) -> Gate:
    """Return how much quieter rain is by the mass law; None where a mass is not known."""
    known = settings or shipped()
    if old_kg_m2 is None or new_kg_m2 is None:
        text = f"What the {'old' if old_kg_m2 is None else 'new'} roof weighs is not known."
        ask = "Enter what the old glazing is, and the mass of every new layer."
        return _unknown(RAIN, _RAIN_ASKED, text, ask)
    value = quieter_db(old_kg_m2, new_kg_m2)
    surely = value >= known.spread_db
    return Gate(
        name=RAIN,
        question=_RAIN_ASKED,
        outcome=Outcome.NOT_CALCULABLE if surely else Outcome.MEASURE_AGAIN,
        reason=f"About {value:.0f} dB quieter by the mass alone, give or take "
        f"{known.spread_db:g}; the noise is reduced, not removed.",
        remedy=NO_PROMISE
        if surely
        else "Promise nothing; a soft layer under the covering dulls drumming.",
        value=value,
        unit="dB",
        limit=0.0,
        band=(value - known.spread_db, value + known.spread_db),
        source=known.rain_source,
        details=(
            ("mass before and after", f"{old_kg_m2:.1f} and {new_kg_m2:.1f} kg/m²"),
            ("by the mass law", f"20 log10({new_kg_m2:.1f} / {old_kg_m2:.1f}) = {value:.1f} dB"),
        ),
    )


def daylight(refit: Refit, wall_glazing_m2: float | None) -> Gate:
    """Return the share of glazing that is left: walls, kept facets and roof windows.

    ``wall_glazing_m2`` None where nobody measured the glazed walls.
    """
    if wall_glazing_m2 is None:
        text = "How much of the walls is glazed is not known."
        return _unknown(DAYLIGHT, _DAYLIGHT_ASKED, text, "Measure the glazed walls [m²].")
    roof_m2 = sum(facet.area_m2 for facet in refit.site.roof.facets)
    covered_m2 = sum(facet.area_m2 for facet in refit.covered_facets)
    windows_m2 = sum(one.width_mm * one.height_mm / 1e6 for one in refit.entry.roof_windows)
    left_m2 = wall_glazing_m2 + roof_m2 - covered_m2 + windows_m2
    share = left_m2 / (wall_glazing_m2 + roof_m2)
    bright = share >= HALF
    return Gate(
        name=DAYLIGHT,
        question=_DAYLIGHT_ASKED,
        outcome=Outcome.PASS if bright else Outcome.FAIL,
        reason=f"{100.0 * share:.0f} % of the glazing is left. Light from above is brighter than "
        "light from the side, so this room, and the one behind it, darken by more than "
        "the area alone suggests.",
        remedy="" if bright else "Offer a roof window, or keep a facet glazed.",
        value=100.0 * share,
        unit="%",
        limit=100.0 * HALF,
        source=Source("share of area; common practice, no source", "", verified=False),
        details=(
            ("glazed before", f"{wall_glazing_m2:.2f} m² of wall, {roof_m2:.2f} m² of roof"),
            ("glazed after", f"{left_m2:.2f} m², including {windows_m2:.2f} m² of roof windows"),
        ),
    )


def _unknown(name: str, question: str, reason: str, remedy: str) -> Gate:
    return Gate(
        name=name,
        question=question,
        outcome=Outcome.MEASURE_AGAIN,
        reason=reason,
        remedy=remedy,
        source=INDICATION,
    )
