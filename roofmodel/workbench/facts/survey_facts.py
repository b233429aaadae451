"""What the readings of a survey are worth, and its bars and bays, as reports print them."""

import math
from collections.abc import Mapping, Sequence
from typing import Any

from roofmodel.buildups.minimum_pitch import MinimumPitch
from roofmodel.refit.refit import Refit
from roofmodel.shapes.bars.bar import Bar
from roofmodel.shapes.bars.bay import Bay
from roofmodel.shapes.bars.members import Members
from roofmodel.shapes.bars.roof_bar import RoofBar
from roofmodel.survey.fit import squareness, twist
from roofmodel.survey.fit.adjustment import Adjusted
from roofmodel.survey.fit.closure import Closure, WouldBe
from roofmodel.survey.fit.pitch_routes import Pitch
from roofmodel.survey.fit.residual import Residual
from roofmodel.survey.fit.suspect import Suspect
from roofmodel.survey.fit.twist import Grade, Twist
from roofmodel.survey.readings.reading import Reading
from roofmodel.survey.verdict import candidate_area, protection
from roofmodel.survey.verdict.candidate_area import AreaEffect
from roofmodel.survey.verdict.examination import Examination
from roofmodel.survey.verdict.protection import LineProtection
from roofmodel.survey.verdict.state import SurveyState


def of_examination(
    examination: Examination, members: Members, covering: MinimumPitch | None = None
) -> dict[str, Any]:
    """Return state, residuals, closures, protection, pitches, squareness and twist of a survey.

    ``members`` are the bars that stand on the roof: a twisted facet is packed out under them.
    ``covering`` is what the chosen method lays; the pitches are held against its minimum.
    """
    adjusted = examination.adjusted
    return {
        "state": lamp(examination.state),
        "reasons": [reason.text for reason in examination.state.reasons],
        "answered": [list(pair) for pair in examination.state.answered],
        "notes": list(examination.state.notes),
        "extra_reading": examination.extra.text if examination.extra else None,
        "residuals": [_residual(r) for r in adjusted.residuals if isinstance(r.source, Reading)],
        "protection": of_protection(examination),
        "next_reading": next_reading(examination),
        "closures": [_closure(closure, adjusted) for closure in examination.closures],
        "unchecked": [
            {"closure": title, "missing": list(lines)} for title, lines in examination.unchecked
        ],
        "candidates": [
            _candidate(suspect, adjusted)
            for suspicion in examination.suspicions[:1]
            for suspect in suspicion.suspects
        ],
        "pitches": [_pitch(pitch, covering) for pitch in examination.pitches],
        "corners": _corners(adjusted),
        "out_of_level_mm": round(squareness.out_of_level_mm(adjusted), 1),
        "twists": [
            {"facet": one.facet, "text": one.text, "shims": shims(one, adjusted, members)}
            for one in examination.twists
        ],
    }


def lamp(state: SurveyState) -> str:
    """Return the lamp of a survey: green closed, grey unchecked, amber asked, red blocked."""
    if state.open:
        return "red" if state.blocked else "amber"
    return "green" if state.closed else "grey"


def next_reading(examination: Examination) -> str:
    """Return what to read next so that a slip would show; empty where nothing is needed for it."""
    line = examination.protection.next_line
    return "" if line is None else f"{line.name} ({line.label})"


def of_protection(examination: Examination) -> list[dict[str, Any]]:
    """Return for each line read what a slip in it would show, and the chances that it would."""
    return [_protection(one) for one in examination.protection.lines]


def _protection(one: LineProtection) -> dict[str, Any]:
    return {
        "name": one.line.name,
        "smallest_slip": None if math.isinf(one.smallest_slip) else round(one.smallest_slip, 2),
        "text": one.text,
        "stated_slip": protection.stated(one.line),
        "unit": one.line.unit.value,
        "chances": one.chances,
        "chance_to_detect": round(one.chance_to_detect, 3),
        "chance_to_locate": round(one.chance_to_locate, 3),
        "protected": one.protected,
    }


def shims(one: Twist, adjusted: Adjusted, members: Members) -> list[dict[str, float]]:
    """Return what to pack under the bars of a twisted facet; none where it is flat enough."""
    (facet,) = (corners for corners in adjusted.network.facets if corners.name == one.facet)
    if one.grade is not Grade.SHIM or len(facet.top) < 2:
        return []
    ends = twist.ends_mm(adjusted, facet)
    bars = sorted({bar.at_mm for bar in members.bars if bar.facet == one.facet})
    at_mm = [ends[0], *bars, ends[-1]] if bars else ends
    return [
        {"from_left_mm": round(shim.from_left_mm, 1), "height_mm": round(shim.height_mm, 1)}
        for shim in twist.shims(adjusted, facet, at_mm)
    ]


def shims_text(packed: Sequence[Mapping[str, float]]) -> str:
    """Return what to pack as one line."""
    return ", ".join(f"{s['height_mm']:.0f} mm at {s['from_left_mm']:.0f}" for s in packed)


def of_members(members: Members) -> dict[str, Any]:
    """Return bars and bays with marks, lengths, cuts and corners."""
    return {
        "bars": [*(_bar(one) for one in members.bars), *(_line_bar(b) for b in members.roof_bars)],
        "bays": [_bay(bay) for bay in members.bays],
    }


def of_new_timbers(refit: Refit | None) -> dict[str, Any] | None:
    """Return the timbers of a new roof, with marks of their own; None where the old bars stay."""
    if refit is None or refit.default.new_bars is None:
        return None
    found = of_members(refit.members)
    return {name: value for name, value in found.items() if name != "bays"}


def _residual(residual: Residual) -> dict[str, Any]:
    return {
        "name": residual.name,
        "read": residual.source.value,
        "adjusted": round(residual.adjusted, 2),
        "residual": round(residual.residual, 2),
        "usual": round(residual.usual, 2),
        "in_standard_errors": round(residual.normalised, 2),
        "checked": residual.checked,
    }


def _candidate(suspect: Suspect, adjusted: Adjusted) -> dict[str, Any]:
    return {
        "name": suspect.name,
        "read": suspect.reading.value,
        "would_be": round(suspect.would_be, 2),
        "share": round(suspect.share, 3),
        "text": suspect.text,
        **_area(candidate_area.of_suspect(adjusted, suspect)),
    }


def _way(way: WouldBe, adjusted: Adjusted) -> dict[str, Any]:
    return {
        "name": way.line,
        "would_be": round(way.would_be, 2),
        **_area(candidate_area.of_way(adjusted, way)),
    }


def _area(effect: AreaEffect | None) -> dict[str, Any]:
    """Return the roof area a candidate leads to; nothing where that cannot be told."""
    if effect is None:
        return {"area_m2": None, "area_difference_m2": None, "area": ""}
    return {
        "area_m2": round(effect.area_m2, 4),
        "area_difference_m2": round(effect.difference_m2, 4),
        "area": effect.text,
    }


def _closure(closure: Closure, adjusted: Adjusted) -> dict[str, Any]:
    return {
        "title": closure.title,
        "verdict": closure.verdict.value,
        "out_by": round(closure.misclosure, 2),
        "limit": round(closure.limit, 2),
        "text": closure.text,
        "would_be": [way.text for way in closure.explanations],
        "candidates": [_way(way, adjusted) for way in closure.explanations],
    }


def _pitch(pitch: Pitch, covering: MinimumPitch | None) -> dict[str, Any]:
    return {
        "name": pitch.name,
        "routes": [
            {
                "by": route.name,
                "pitch_deg": round(route.pitch_deg, 3),
                "standard_error_deg": round(route.standard_error_deg, 3),
            }
            for route in pitch.routes
        ],
        "covering": pitch.text(covering.deg if covering else None),
    }


def _corners(adjusted: Adjusted) -> list[dict[str, Any]]:
    return [
        {
            "name": corner.name,
            "angle_deg": round(corner.angle_deg, 2),
            "standard_error_deg": round(corner.standard_error_deg, 2),
            "at_mm": [round(c, 1) for c in adjusted.point(corner.name)],
        }
        for corner in squareness.corners(adjusted)
    ]


def _bar(one: Bar) -> dict[str, Any]:
    return {
        "mark": one.mark,
        "kind": one.kind.value,
        "facet": one.facet,
        "at_mm": round(one.at_mm, 1),
        "length_mm": round(one.line_length_mm, 1),
        "net_length_mm": round(one.net_length_mm, 1),
        "plumb_cut_deg": round(one.plumb_cut_deg, 2),
        "side_cuts_deg": [round(cut.on_face_deg, 2) for cut in one.head.side_cuts],
        "hand": one.hand,
    }


def _line_bar(bar: RoofBar) -> dict[str, Any]:
    return {
        "mark": bar.mark,
        "kind": bar.kind.value,
        "facet": " ".join(bar.line.facets),
        "length_mm": round(bar.line_length_mm, 1),
        "net_length_mm": round(bar.net_length_mm, 1),
        "plumb_cut_deg": round(bar.plumb_cut_deg, 2),
        "side_cuts_deg": [round(bar.head_side_cut_deg, 2)],
        "backings_deg": [round(angle, 2) for angle in bar.backings_deg],
    }


def _bay(bay: Bay) -> dict[str, Any]:
    return {
        "mark": bay.mark,
        "facet": bay.facet,
        "hand": bay.hand,
        "width_mm": round(bay.width_mm, 1),
        "height_mm": round(bay.height_mm, 1),
        "corners_mm": [[round(u, 1), round(v, 1)] for u, v in bay.ordinates_mm],
        "diagonals_mm": [round(d, 1) for d in bay.diagonals_mm],
        "area_m2": round(bay.area_m2, 4),
    }
