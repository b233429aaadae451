"""The roof as one HTML file that opens offline: to be turned, with the old covering and the new."""

import html
import json
from collections.abc import Sequence

import numpy as np
import shapely

from roofmodel.foundation import resources
from roofmodel.foundation.errors import ResourceError
from roofmodel.shapes import solid
from roofmodel.shapes.bars.facet_run import runs_mm
from roofmodel.shapes.bars.members import Members
from roofmodel.shapes.roof import Facet, Roof

_COURSE_MM = 290.0
_DATA, _TITLE = "__DATA__", "__TITLE__"


def content(
    roof: Roof, title: str, *, members: Members | None = None, kept_glazed: Sequence[str] = ()
) -> str:
    """Return the page; it asks for nothing from anywhere.

    Parameters
    ----------
    roof
        The roof.
    title
        What stands above it.
    members
        The bars of the glazed roof, where they are known.
    kept_glazed
        Facets that stay glazed.

    Raises
    ------
    ResourceError
        If the template that ships with the program is missing.
    """
    path = resources.folder() / "roof_page.html"
    try:
        template = path.read_text(encoding="utf-8")
    except OSError as error:
        raise ResourceError(
            f"The file {path.name} is missing. Install the program again."
        ) from error
    corners = np.array([corner for facet in roof.facets for corner in facet.corners])
    low, high = corners.min(axis=0), corners.max(axis=0)
    low[2] = -roof.eaves_height_mm
    data = {
        "centre": _point((low + high) / 2.0),
        "size": round(float(np.linalg.norm(high - low)), 1),
        "walls": [[_point(c) for c in wall] for wall in solid.walls(roof)],
        "facets": [_facet(facet, members, facet.name in kept_glazed) for facet in roof.facets],
    }
    # A closing tag inside the data would end the script.
    written = json.dumps(data, separators=(",", ":")).replace("</", "<\\/")
    return template.replace(_DATA, written).replace(_TITLE, html.escape(title))


def _facet(facet: Facet, members: Members | None, glazed: bool) -> dict[str, object]:  # noqa: FBT001
    return {
        "corners": [_point(corner) for corner in facet.corners],
        "glazed": glazed,
        "label": f"{facet.name} {facet.pitch_deg:.1f}° {facet.area_m2:.2f} m²",
        "bars": _bars(facet, members),
        "courses": _courses(facet),
    }


def _bars(facet: Facet, members: Members | None) -> list[list[list[float]]]:
    known = members.of_facet(facet.name) if members else None
    found = []
    for u in known.layout.centres_mm if known else ():
        for foot, head in runs_mm(facet, u):
            ends = facet.frame.raise_up(np.array([[u, foot], [u, head]]))
            found.append([_point(end) for end in ends])
    return found


def _courses(facet: Facet) -> list[list[list[float]]]:
    outline = shapely.Polygon(facet.outline_mm)
    left, low, right, high = outline.bounds
    found = []
    for v in np.arange(low + _COURSE_MM, high, _COURSE_MM):
        cut = outline.intersection(shapely.LineString([(left - 1.0, v), (right + 1.0, v)]))
        for part in shapely.get_parts(cut):
            if part.length > 1.0:
                ends = facet.frame.raise_up(shapely.get_coordinates(part))
                found.append([_point(end) for end in ends])
    return found


def _point(point: Sequence[float] | np.ndarray) -> list[float]:
    return [round(float(c), 1) for c in point]
