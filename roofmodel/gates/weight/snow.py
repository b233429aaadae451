"""How much snow lies on the roof, and how much drifts against the taller house?"""

from dataclasses import dataclass

from roofmodel.foundation.outcome import Outcome
from roofmodel.foundation.source import Source
from roofmodel.gates.answer.result import Gate, Sense
from roofmodel.gates.answer.site_facts import SiteFacts
from roofmodel.refit.refit import Refit
from roofmodel.shapes.roof import LineKind, Roof
from roofmodel.standards import en_1991_1_1_2002 as en_1991_1_1
from roofmodel.standards import en_1991_1_3_2003 as en_1991_1_3
from roofmodel.standards.en_1991_1_3_2003 import Drift

DRIFT_REMEDY = (
    "Give the drift to the structural engineer: it is local, lies along the wall, and can govern "
    "rafters, wall plate and box gutter."
)


VALLEY_REMEDY = (
    "Give the drift to the structural engineer: it lies along the valley, and can govern the "
    "valley, the jack rafters beside it and what carries its foot."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Snow:
    """Snow on one roof [kN/m² on plan]; a drift is None where the wall above is not read.

    ``drift`` is the drift of 5.3.6; ``exceptional`` are both readings of Annex B.3, which the UK
    takes as an accidental load instead (from memory). The valley's figures are 0 without a valley.
    """

    ground_kn_m2: float
    even_kn_m2: float
    uneven_kn_m2: float
    drift: Drift | None
    exceptional: tuple[Drift, Drift] | None
    valley_kn_m2: float = 0.0
    valley_exceptional_kn_m2: float = 0.0

    @property
    def drift_kn_m2(self) -> float | None:
        """Snow at the wall by 5.3.6."""
        return None if self.drift is None else self.drift.coefficient * self.ground_kn_m2

    @property
    def exceptional_kn_m2(self) -> float | None:
        """Snow at the wall by Annex B.3, the larger of both readings."""
        if self.exceptional is None:
            return None
        return max(one.coefficient for one in self.exceptional) * self.ground_kn_m2

    @property
    def complete(self) -> bool:
        """Whether every case is known, the drift against the house included."""
        return self.drift is not None

    @property
    def lasting_kn_m2(self) -> float:
        """Greatest load that is no accident: even, over a ridge, at the wall, in a valley."""
        return max(self.even_kn_m2, self.uneven_kn_m2, self.drift_kn_m2 or 0.0, self.valley_kn_m2)

    @property
    def accidental_kn_m2(self) -> float:
        """Greatest accidental load, by Annex B; 0 where none is known."""
        return max(self.exceptional_kn_m2 or 0.0, self.valley_exceptional_kn_m2)

    @property
    def governing_kn_m2(self) -> float:
        """The one figure for bars, members, posts and deck alike: the greatest that is known."""
        return max(self.lasting_kn_m2, self.accidental_kn_m2)

    @property
    def words(self) -> str:
        """The governing figure and what it leaves out."""
        left_out = "" if self.complete else "; the drift against the house is not known"
        return f"snow {self.governing_kn_m2:.2f} kN/m² on plan where it lies deepest{left_out}"


def snow_of(refit: Refit, facts: SiteFacts) -> Snow | None:
    """Return the snow on a roof; None where zone or altitude is not entered."""
    if facts.snow_zone is None or facts.altitude_m is None:
        return None
    ground = en_1991_1_3.ground_uk_kn_m2(facts.snow_zone, facts.altitude_m)
    pitches = [facet.pitch_deg for facet in refit.covered_facets]
    # The flattest slope holds most snow, so the greatest coefficient covers them all.
    even = max(en_1991_1_3.shape_coefficient(p, held=facts.snow_held) for p in pitches)
    # Wind can carry snow over a ridge only where there is one.
    two_sided = bool(refit.site.roof.lines_of(LineKind.RIDGE))
    uneven = max(en_1991_1_3.drifted_uk(p) for p in pitches) if two_sided else even
    drift, exceptional = _drifts(refit, facts, ground)
    valleys = _valleys(refit.site.roof, ground)
    return Snow(
        ground_kn_m2=ground,
        even_kn_m2=en_1991_1_3.on_roof_kn_m2(even, ground),
        uneven_kn_m2=en_1991_1_3.on_roof_kn_m2(max(even, uneven), ground),
        drift=drift,
        exceptional=exceptional,
        valley_kn_m2=en_1991_1_3.on_roof_kn_m2(valleys[0], ground),
        valley_exceptional_kn_m2=en_1991_1_3.on_roof_kn_m2(valleys[1], ground),
    )


def live_kn_m2(refit: Refit, facts: SiteFacts) -> tuple[float, str]:
    """Return the greater of imposed load and snow on plan [kN/m²], and which it is.

    The two never act together. Snow counts with its one governing figure; where zone or altitude
    is not entered, the words say that it is not in it.
    """
    live, snow = imposed_kn_m2(refit), snow_of(refit, facts)
    if snow is None:
        return live, f"imposed {live:g} kN/m² on plan; snow is not entered and not included"
    if snow.governing_kn_m2 > live:
        return snow.governing_kn_m2, snow.words
    return live, f"imposed {live:g} kN/m² on plan, more than {snow.words}"


def of_refit(refit: Refit, facts: SiteFacts) -> tuple[Gate, ...]:
    """Return snow against the imposed load, and the drift against the house, always."""
    snow = snow_of(refit, facts)
    if snow is None:
        remedy = "Enter the snow zone from the national map, and the altitude of the site."
        reason = (
            "Snow zone or altitude is not entered; no table off the web is used in their place."
        )
        return (
            _open("load: snow", reason, remedy),
            _open("load: snow drift", reason, remedy),
        )
    return (
        _even(refit, facts, snow),
        _drift(refit, facts, snow),
        *([_valley(refit, snow)] if snow.valley_kn_m2 else []),
    )


def _even(refit: Refit, facts: SiteFacts, snow: Snow) -> Gate:
    live = imposed_kn_m2(refit)
    most = max(snow.even_kn_m2, snow.uneven_kn_m2)
    holds = most <= live + 1e-9
    return Gate(
        name="load: snow",
        question="Is the snow load below the imposed load?",
        outcome=Outcome.PASS if holds else Outcome.FAIL,
        value=most,
        unit="kN/m²",
        limit=live,
        sense=Sense.AT_MOST,
        reason=f"{most:.2f} kN/m² of snow on plan, excluding drift against the house, and "
        f"{live:g} kN/m² imposed; the two never act together.",
        remedy=""
        if holds
        else ("Snow governs: have the engineer use it instead of the imposed load."),
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


def _drift(refit: Refit, facts: SiteFacts, snow: Snow) -> Gate:
    value, other = snow.drift_kn_m2, snow.exceptional_kn_m2
    if value is None or other is None or snow.drift is None or snow.exceptional is None:
        ground = snow.ground_kn_m2
        reason = (
            "The height of the wall above this roof has not been measured. Whatever it is, the "
            f"drift at the wall is at most {en_1991_1_3.MOST_BLOWN * ground:.2f} kN/m² by 5.3.6, "
            f"excluding what slides, and {en_1991_1_3.MOST_EXCEPTIONAL * ground:.2f} kN/m² by "
            "Annex B.3."
        )
        remedy = "Enter how high the house wall stands above this roof, up to its eaves."
        return _open("load: snow drift", reason, remedy)
    live = imposed_kn_m2(refit)
    most = max(value, other)
    holds = most <= live + 1e-9
    width = "entered" if facts.house_depth_m is not None else "not entered; the greatest is taken"
    return Gate(
        name="load: snow drift",
        question="Is the snow drifted against the house below the imposed load?",
        outcome=Outcome.PASS if holds else Outcome.FAIL,
        value=most,
        unit="kN/m²",
        limit=live,
        sense=Sense.AT_MOST,
        reason=f"At the wall {value:.2f} kN/m² by 5.3.6 and {other:.2f} kN/m² by Annex B.3, the "
        "larger of two readings of it; which one is meant could not be checked, for want "
        "of the standard.",
        remedy="" if holds else DRIFT_REMEDY,
        source=en_1991_1_3.TALLER,
        details=(
            (
                "5.3.6, persistent",
                f"μw {snow.drift.blown:.2f} + μs {snow.drift.sliding:.2f}, "
                f"{value:.2f} kN/m² falling over {snow.drift.length_m:.1f} m",
            ),
            *(
                (
                    f"Annex B.3, accidental in the UK (from memory), {how}",
                    f"μ {one.blown:.2f}, {one.blown * snow.ground_kn_m2:.2f} kN/m² falling over "
                    f"{one.length_m:.1f} m ({en_1991_1_3.EXCEPTIONAL})",
                )
                for how, one in zip(_READINGS, snow.exceptional, strict=True)
            ),
            ("depth of the house", width),
        ),
    )


_READINGS = (
    "its length limited by this roof's width",
    "its length limited by the larger width",
)


def _valley(refit: Refit, snow: Snow) -> Gate:
    live = imposed_kn_m2(refit)
    most = max(snow.valley_kn_m2, snow.valley_exceptional_kn_m2)
    holds = most <= live + 1e-9
    return Gate(
        name="load: snow in valleys",
        question="Is the snow drifted into a valley below the imposed load?",
        outcome=Outcome.PASS if holds else Outcome.FAIL,
        value=most,
        unit="kN/m²",
        limit=live,
        sense=Sense.AT_MOST,
        reason=f"In the valley {snow.valley_kn_m2:.2f} kN/m² by 5.3.4 and "
        f"{snow.valley_exceptional_kn_m2:.2f} kN/m² by Annex B.2, leaving out its limit "
        "by the widths of the slopes; both clauses are for rows of roofs, from memory.",
        remedy="" if holds else VALLEY_REMEDY,
        source=en_1991_1_3.VALLEY,
    )


def _valleys(roof: Roof, ground: float) -> tuple[float, float]:
    """Return the coefficients of the deepest valley by 5.3.4 and Annex B.2; 0 without one."""
    valleys = roof.lines_of(LineKind.VALLEY)
    if not valleys:
        return 0.0, 0.0
    ridges_mm = [min(line.start[2], line.end[2]) for line in roof.lines_of(LineKind.RIDGE)]
    # The lowest ridge limits how deep a valley can fill; without one the whole rise does.
    top_mm = min(ridges_mm, default=roof.rise_mm)
    drifted = exceptional = 0.0
    for line in valleys:
        pitches = [roof.facet(name).pitch_deg for name in line.facets]
        drifted = max(drifted, en_1991_1_3.drifted_in_valley(*pitches))
        foot_mm = min(line.start[2], line.end[2])
        depth_m = (top_mm if top_mm > foot_mm else roof.rise_mm) - foot_mm
        exceptional = max(
            exceptional,
            en_1991_1_3.exceptional_in_valley(depth_m=depth_m / 1e3, ground_kn_m2=ground),
        )
    return drifted, exceptional


def _drifts(
    refit: Refit, facts: SiteFacts, ground: float
) -> tuple[Drift | None, tuple[Drift, Drift] | None]:
    standing = refit.site.standing
    if not standing.wall_above_mm > 0.0:
        return None, None
    away = [corner[1] for facet in refit.site.roof.facets for corner in facet.corners]
    # How far the roof reaches from the house wall, whatever its shape: y runs away from it.
    lower_m, height_m = (max(away) - min(away)) / 1e3, standing.wall_above_mm / 1e3
    blown = en_1991_1_3.drift_at_taller(
        height_m=height_m,
        lower_m=lower_m,
        ground_kn_m2=ground,
        upper_m=facts.house_depth_m,
        upper_pitch_deg=standing.house_roof_pitch_deg,
    )
    exceptional = en_1991_1_3.exceptional_readings_at_taller(
        height_m=height_m, lower_m=lower_m, ground_kn_m2=ground, upper_m=facts.house_depth_m
    )
    return blown, exceptional


def imposed_kn_m2(refit: Refit) -> float:
    """Return the imposed load of the flattest slope, which is the greatest [kN/m² on plan]."""
    return en_1991_1_1.imposed_uk_kn_m2(min(f.pitch_deg for f in refit.covered_facets))


def _open(name: str, reason: str, remedy: str) -> Gate:
    source: Source = en_1991_1_3.GROUND_UK
    return Gate(
        name=name,
        question="How much snow does the roof get?",
        outcome=Outcome.MEASURE_AGAIN,
        unit="kN/m²",
        reason=reason,
        remedy=remedy,
        source=source,
    )
