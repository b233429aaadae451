"""How much snow lies on the roof, and how much drifts against the taller house?"""

from dataclasses import dataclass

from roofmodel.foundation.source import Source
from roofmodel.gates.answer.result import Check, Outcome
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.refit.refit import Refit
from roofmodel.shapes.roof import LineKind
from roofmodel.standards import en_1991_1_1_2002 as en_1991_1_1
from roofmodel.standards import en_1991_1_3_2003 as en_1991_1_3
from roofmodel.standards.en_1991_1_3_2003 import Drift

DRIFT_REMEDY = (
    "Give the drift to the structural engineer: it is local, lies along the wall, and can govern "
    "rafters, wall plate and box gutter."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Snow:
    """Snow on one roof [kN/m² on plan]; a drift is None where the wall above is not read.

    ``drift`` is the drift of 5.3.6, ``exceptional`` that of Annex B.3, which the UK takes as an
    accidental load instead (from memory).
    """

    ground_kn_m2: float
    even_kn_m2: float
    uneven_kn_m2: float
    drift: Drift | None
    exceptional: Drift | None

    @property
    def drift_kn_m2(self) -> float | None:
        """Snow at the wall by 5.3.6."""
        return None if self.drift is None else self.drift.coefficient * self.ground_kn_m2

    @property
    def exceptional_kn_m2(self) -> float | None:
        """Snow at the wall by Annex B.3."""
        if self.exceptional is None:
            return None
        return self.exceptional.coefficient * self.ground_kn_m2


def snow_of(refit: Refit, facts: SiteFacts) -> Snow | None:
    """Return the snow on a roof; None where zone or altitude is not entered."""
    if facts.snow_zone is None or facts.altitude_m is None:
        return None
    ground = en_1991_1_3.ground_uk_kn_m2(facts.snow_zone, facts.altitude_m)
    pitches = [facet.pitch_deg for facet in refit.covered_facets]
    even = max(en_1991_1_3.shape_coefficient(p, held=facts.snow_held) for p in pitches)
    two_sided = bool(refit.site.roof.lines_of(LineKind.RIDGE))
    uneven = max(en_1991_1_3.drifted_uk(p) for p in pitches) if two_sided else even
    drifts = _drifts(refit, facts, ground)
    return Snow(
        ground_kn_m2=ground,
        even_kn_m2=en_1991_1_3.on_roof_kn_m2(even, ground),
        uneven_kn_m2=en_1991_1_3.on_roof_kn_m2(max(even, uneven), ground),
        drift=drifts[0],
        exceptional=drifts[1],
    )


def of_refit(refit: Refit, facts: SiteFacts) -> tuple[Check, ...]:
    """Return snow against the imposed load, and the drift against the house, always."""
    snow = snow_of(refit, facts)
    if snow is None:
        remedy = "Enter the snow zone off the national map, and the altitude of the site."
        reason = "Snow zone or altitude is not entered; no web table stands in for them."
        return (
            _open("load: snow", reason, remedy),
            _open("load: snow drift", reason, remedy),
        )
    return _even(refit, facts, snow), _drift(refit, facts, snow)


def _even(refit: Refit, facts: SiteFacts, snow: Snow) -> Check:
    live = _imposed(refit)
    most = max(snow.even_kn_m2, snow.uneven_kn_m2)
    holds = most <= live + 1e-9
    return Check(
        name="load: snow",
        question="Does the snow stay below the imposed load?",
        outcome=Outcome.HOLDS if holds else Outcome.DOES_NOT_HOLD,
        value=most,
        unit="kN/m²",
        limit=live,
        reason=f"{most:.2f} kN/m² of snow on plan, drifts against the house left aside, and "
        f"{live:g} kN/m² imposed; the two never act together.",
        remedy="" if holds else "Snow governs: have the engineer take it instead of the imposed.",
        source=en_1991_1_3.GROUND_UK,
        details=(
            (
                "ground",
                f"zone {facts.snow_zone}, {facts.altitude_m:g} m: sk = {snow.ground_kn_m2:.4f}",
            ),
            ("even", f"{snow.even_kn_m2:.3f} kN/m² ({en_1991_1_3.SHAPE})"),
            ("drifted over a ridge", f"{snow.uneven_kn_m2:.3f} kN/m² ({en_1991_1_3.DRIFTED_UK})"),
        ),
    )


def _drift(refit: Refit, facts: SiteFacts, snow: Snow) -> Check:
    value, other = snow.drift_kn_m2, snow.exceptional_kn_m2
    if value is None or other is None or snow.drift is None or snow.exceptional is None:
        ground = snow.ground_kn_m2
        reason = (
            "The height of the wall above this roof is not read. Whatever it is, the drift at the "
            f"wall is at most {en_1991_1_3.MOST_BLOWN * ground:.2f} kN/m² by 5.3.6, what slides "
            f"left aside, and {en_1991_1_3.MOST_EXCEPTIONAL * ground:.2f} kN/m² by Annex B.3."
        )
        remedy = "Enter how high the house wall stands above this roof, up to its eaves."
        return _open("load: snow drift", reason, remedy)
    live = _imposed(refit)
    most = max(value, other)
    holds = most <= live + 1e-9
    width = "entered" if facts.house_depth_m is not None else "not entered, the greatest is taken"
    return Check(
        name="load: snow drift",
        question="Does the snow drifted against the house stay below the imposed load?",
        outcome=Outcome.HOLDS if holds else Outcome.DOES_NOT_HOLD,
        value=most,
        unit="kN/m²",
        limit=live,
        reason=f"At the wall {value:.2f} kN/m² by 5.3.6 and {other:.2f} kN/m² by Annex B.3.",
        remedy="" if holds else DRIFT_REMEDY,
        source=en_1991_1_3.TALLER,
        details=(
            (
                "5.3.6, persistent",
                f"μw {snow.drift.blown:.2f} + μs {snow.drift.sliding:.2f}, "
                f"{value:.2f} kN/m² falling over {snow.drift.length_m:.1f} m",
            ),
            (
                "Annex B.3, accidental in the UK (from memory)",
                f"μ {snow.exceptional.blown:.2f}, {other:.2f} kN/m² falling over "
                f"{snow.exceptional.length_m:.1f} m ({en_1991_1_3.EXCEPTIONAL})",
            ),
            ("depth of the house", width),
        ),
    )


def _drifts(refit: Refit, facts: SiteFacts, ground: float) -> tuple[Drift | None, Drift | None]:
    standing = refit.site.standing
    if not standing.wall_above_mm > 0.0:
        return None, None
    away = [corner[1] for facet in refit.site.roof.facets for corner in facet.corners]
    lower_m, height_m = (max(away) - min(away)) / 1e3, standing.wall_above_mm / 1e3
    blown = en_1991_1_3.drift_at_taller(
        height_m=height_m,
        lower_m=lower_m,
        ground_kn_m2=ground,
        upper_m=facts.house_depth_m,
        upper_pitch_deg=standing.house_roof_pitch_deg,
    )
    exceptional = en_1991_1_3.exceptional_at_taller(
        height_m=height_m, lower_m=lower_m, ground_kn_m2=ground, upper_m=facts.house_depth_m
    )
    return blown, exceptional


def _imposed(refit: Refit) -> float:
    return en_1991_1_1.imposed_uk_kn_m2(min(f.pitch_deg for f in refit.covered_facets))


def _open(name: str, reason: str, remedy: str) -> Check:
    source: Source = en_1991_1_3.GROUND_UK
    return Check(
        name=name,
        question="How much snow does the roof get?",
        outcome=Outcome.RE_MEASURE,
        unit="kN/m²",
        reason=reason,
        remedy=remedy,
        source=source,
    )
