"""The figures of a roof under the names and in the units that reports print."""

from collections.abc import Sequence
from typing import Any

from roofmodel.drawings.paper.release import Release
from roofmodel.shapes.roof import DATUM, Facet, Line, Roof
from roofmodel.survey.taped.findings import Finding


def of_roof(roof: Roof) -> dict[str, Any]:
    """Return facets, lines, areas and angles of a roof, rounded to what can be counted on.

    Lengths to 0.01 mm, angles to 0.001°, areas to 0.0001 m²; computed with full accuracy.
    """
    return {
        "datum": DATUM,
        "area_m2": round(roof.area_m2, 4),
        "plan_area_m2": round(roof.plan_area_m2, 4),
        "rise_mm": round(roof.rise_mm, 2),
        "eaves_height_mm": roof.eaves_height_mm,
        "facets": [_facet(facet) for facet in roof.facets],
        "lines": [_line(line) for line in roof.lines],
    }


def of_findings(findings: Sequence[Finding]) -> list[dict[str, str]]:
    """Return findings as field, severity, text and remedy."""
    return [
        {
            "field": finding.field,
            "severity": finding.severity.value,
            "text": finding.text,
            "remedy": finding.remedy,
        }
        for finding in findings
    ]


def of_release(release: Release) -> dict[str, Any]:
    """Return whether a method may be cut from, what a release holds for, and why not."""
    return {
        "status": release.status,
        "content": release.content,
        "reasons": list(release.reasons),
    }


def _facet(facet: Facet) -> dict[str, Any]:
    return {
        "name": facet.name,
        "pitch_deg": round(facet.pitch_deg, 3),
        "area_m2": round(facet.area_m2, 4),
        "plan_area_m2": round(facet.plan_area_m2, 4),
        "slope_length_mm": round(facet.slope_length_mm, 2),
        "corners_mm": [_point(corner) for corner in facet.corners],
        "outline_mm": [[round(float(c), 2) + 0.0 for c in row] for row in facet.outline_mm],
        "corner_angles_deg": [round(angle, 3) for angle in facet.corner_angles_deg],
        "sides": [edge.kind.value for edge in facet.edges],
    }


def _line(line: Line) -> dict[str, Any]:
    figures: dict[str, Any] = {
        "kind": line.kind.value,
        "length_mm": round(line.length_mm, 2),
        "plan_length_mm": round(line.plan_length_mm, 2),
        "pitch_deg": round(line.pitch_deg, 3),
        "facets": list(line.facets),
        "bevel_deg": 0.0,
        "ends_mm": [_point(line.start), _point(line.end)],
    }
    if line.joint is not None:
        figures["bevel_deg"] = round(line.joint.bevel_deg, 3)
        figures["dihedral_deg"] = round(line.joint.dihedral_deg, 3)
        figures["plan_angles_deg"] = [round(a, 3) for a in line.joint.plan_angles_deg]
        figures["backings_deg"] = [round(a, 3) for a in line.joint.backings_deg]
    return figures


def _point(point: tuple[float, float, float]) -> list[float]:
    return [round(c, 2) + 0.0 for c in point]
