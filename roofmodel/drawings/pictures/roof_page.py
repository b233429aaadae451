"""The roof as one HTML file that opens offline: walked round, before and after, way by way."""

import base64
import html
import json
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from roofmodel.drawings.scenes import light
from roofmodel.drawings.scenes.body import Body
from roofmodel.drawings.scenes.finish import finishes
from roofmodel.drawings.views import facet_style
from roofmodel.foundation import resources
from roofmodel.foundation.errors import ResourceError
from roofmodel.shapes.roof import Roof

_DATA, _TITLE, _TABLE = "__DATA__", "__TITLE__", "__TABLE__"

_FARTHEST_MM = 32_000.0
"""Corners are written as whole millimetres in 16 bits; what lies farther off is brought nearer."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """One way to see the roof: what its button says, and what is seen."""

    name: str
    bodies: tuple[Body, ...]


def content(roof: Roof, title: str, shown: Sequence[Shown]) -> str:
    """Return the page; it asks for nothing from anywhere and forbids itself to.

    Parameters
    ----------
    roof
        The roof as measured.
    title
        What stands above it.
    shown
        The ways to see it, the roof as it stands first.

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
    middle = (low + high) / 2.0
    data = {
        "size": round(float(np.linalg.norm(high - low)) / 2.0, 1),
        "scenes": [_scene(one, middle) for one in shown],
        "facets": [
            {
                "label": facet_style.facet_label(facet),
                "centre": [round(float(c), 1) for c in np.array(facet.centre) - middle],
            }
            for facet in roof.facets
        ],
    }
    # A closing tag inside the data would end the script.
    written = json.dumps(data, separators=(",", ":")).replace("</", "<\\/")
    page = template.replace(_TABLE, _table(roof)).replace(_TITLE, html.escape(title))
    return page.replace(_DATA, written)


def _scene(shown: Shown, middle: NDArray[np.float64]) -> dict[str, object]:
    by_clear: dict[float, list[Body]] = {}
    for body in shown.bodies:
        if len(body.triangles):
            by_clear.setdefault(finishes()[body.part].clear, []).append(body)
    return {
        "name": shown.name,
        "groups": [_group(by_clear[clear], clear, middle) for clear in sorted(by_clear)],
    }


def _group(bodies: Sequence[Body], clear: float, middle: NDArray[np.float64]) -> dict[str, object]:
    """Return triangles of one clearness: corners from the middle [mm], and a colour each."""
    corners = np.concatenate([body.triangles for body in bodies]) - middle
    whole = np.clip(corners, -_FARTHEST_MM, _FARTHEST_MM).round().astype("<i2")
    colours = np.concatenate([light.colours(body) for body in bodies])
    return {
        "solid": round(1.0 - clear, 3),
        "corners": base64.b64encode(whole.tobytes()).decode("ascii"),
        "colours": base64.b64encode(colours.tobytes()).decode("ascii"),
    }


def _table(roof: Roof) -> str:
    """Return the facets in figures, for a browser that draws nothing."""
    rows = "".join(
        f"<tr><td>{html.escape(facet.name)}</td><td>{facet.pitch_deg:.1f}°</td>"
        f"<td>{facet.area_m2:.2f} m²</td></tr>"
        for facet in roof.facets
    )
    return (
        f"<table><tr><th>Facet</th><th>Pitch</th><th>Area on the slope</th></tr>{rows}"
        f"<tr><td>Roof</td><td></td><td>{roof.area_m2:.2f} m²</td></tr></table>"
    )
