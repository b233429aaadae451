"""What lies between the bars: panes of glass as they are, or insulated panels, under their caps."""

from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import shapely

from roofmodel.drawings.scenes import flat
from roofmodel.drawings.scenes.body import Body, Triangles, body, box, rod
from roofmodel.drawings.scenes.finish import Part
from roofmodel.shapes.bars.members import Members
from roofmodel.shapes.roof import Facet, LineKind, Roof

_CAP_MM = 18.0


def between_bars(
    facets: Sequence[Facet], members: Members, *, part: Part, thick_mm: float
) -> tuple[Body, ...]:
    """Return a pane for every bay of the facets; a facet without bars is one pane.

    Parameters
    ----------
    facets
        What is covered.
    members
        The bars; the panes reach from middle to middle.
    part
        Glass or panel.
    thick_mm
        Height of the upper face above the facet; glass has no lower one.
    """
    pieces: list[Triangles] = []
    for facet in facets:
        known = members.of_facet(facet.name)
        outline = shapely.Polygon(facet.outline_mm)
        left, low, right, high = outline.bounds
        cuts = [left, *(known.layout.centres_mm if known else ()), right]
        boxes = [shapely.box(a, low, b, high) for a, b in pairwise(cuts)]
        corners, of = flat.triangles(list(shapely.intersection(boxes, outline)))
        raised = flat.on_frame(facet.frame, corners, np.full(corners.shape[:2], thick_mm))
        pieces += [raised[of == number] for number in range(len(boxes))]
    return (body(part, pieces),)


def bars(
    facets: Sequence[Facet], members: Members, *, part: Part, depth_mm: float
) -> tuple[Body, ...]:
    """Return the bars of facets, with their caps above the glass."""
    rods = []
    for facet in facets:
        out = flat.outward(facet.frame)
        for one in members.bars:
            if one.facet == facet.name:
                low, high = facet.frame.raise_up(
                    np.array([[one.at_mm, one.foot.v_mm], [one.at_mm, one.head.v_mm]])
                )
                rods.append(rod(low, high, out, box(one.width_mm, -depth_mm, 2.0)))
                rods.append(rod(low, high, out, box(one.width_mm * 0.8, 2.0, _CAP_MM)))
    return (body(part, rods),)


def along_lines(
    roof: Roof, facets: Sequence[str], *, part: Part, depth_mm: float
) -> tuple[Body, ...]:
    """Return the bars on ridge, hips and valleys between facets, and the beam at the eaves."""
    rods = []
    for line in roof.lines:
        if not set(line.facets) & set(facets):
            continue
        start, end = np.array(line.start), np.array(line.end)
        if line.kind.shared:
            deep = depth_mm * (1.5 if line.kind is LineKind.RIDGE else 1.2)
            rods.append(rod(start, end, (0.0, 0.0, 1.0), box(70.0, -deep, 30.0)))
        elif line.kind is LineKind.EAVES:
            rods.append(rod(start, end, (0.0, 0.0, 1.0), box(90.0, -60.0, 14.0)))
    return (body(part, rods),)
