"""What the readings of a survey are worth, and its bars and bays, as reports print them."""

from typing import Any

from roofmodel.buildups.minimum_pitch import MinimumPitch
from roofmodel.shapes.bars.bar import Bar
from roofmodel.shapes.bars.bay import Bay
from roofmodel.shapes.bars.members import Members
from roofmodel.shapes.bars.roof_bar import RoofBar
from roofmodel.survey.fit import squareness
from roofmodel.survey.fit.adjustment import Adjusted
from roofmodel.survey.fit.closure import Closure, WouldBe
from roofmodel.survey.fit.pitch_routes import Pitch
from roofmodel.survey.fit.residual import Residual
from roofmodel.survey.fit.suspect import Suspect
from roofmodel.survey.readings.reading import Reading
from roofmodel.survey.verdict import candidate_area
from roofmodel.survey.verdict.candidate_area import AreaEffect
from roofmodel.survey.verdict.examination import Examination
from roofmodel.survey.verdict.state import SurveyState


def of_examination(
    examination: Examination, covering: MinimumPitch | None = None
) -> dict[str, Any]:
    """Return state, residuals, closures, pitches, squareness and twist of a survey.

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
        "closures": [_closure(closure, adjusted) for closure in examination.closures],
        "candidates": [
            _candidate(suspect, adjusted)
            for suspicion in examination.suspicions[:1]
            for suspect in suspicion.suspects
        ],
        "pitches": [_pitch(pitch, covering) for pitch in examination.pitches],
        "corners": _corners(adjusted),
        "out_of_level_mm": round(squareness.out_of_level_mm(adjusted), 1),
        "twists": [{"facet": t.facet, "text": t.text} for t in examination.twists],
    }


def lamp(state: SurveyState) -> str:
    """Return the lamp of a survey: green closed, amber with a question, red blocked."""
    if state.closed:
        return "green"
    return "red" if state.blocked else "amber"


def of_members(members: Members) -> dict[str, Any]:
    """Return bars and bays with marks, lengths, cuts and corners."""
    return {
        "bars": [*(_bar(one) for one in members.bars), *(_line_bar(b) for b in members.roof_bars)],
        "bays": [_bay(bay) for bay in members.bays],
    }


def _residual(residual: Residual) -> dict[str, Any]:
    return {
        "name": residual.name,
        "read": residual.source.value,
        "adjusted": round(residual.adjusted, 2),
        "residual": round(residual.residual, 2),
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
