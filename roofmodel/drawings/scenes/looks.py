"""The two looks of a roof: as it stands, glazed on its bars, and finished by one of the methods."""

from collections.abc import Sequence
from enum import StrEnum

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from roofmodel.drawings.scenes import (
    cappings,
    covers,
    flat,
    ground,
    openings,
    roofline,
    shadow,
    sides,
    tiles,
    walls,
)
from roofmodel.drawings.scenes.body import Body, body
from roofmodel.drawings.scenes.finish import Part
from roofmodel.drawings.scenes.tiles import Coursing
from roofmodel.geometry.frame import Frame
from roofmodel.refit.layer import Zone
from roofmodel.refit.method import Method
from roofmodel.refit.refit import ASSUMED_BAR_DEPTH_MM, Refit, Site
from roofmodel.shapes import solid
from roofmodel.shapes.roof import Facet, Roof


class Look(StrEnum):
    """The ways to look at a roof."""

    FACETS = "facets"
    STANDING = "as-it-stands"
    FINISHED = "finished"
    BOTH = "before-and-after"

    @property
    def printed(self) -> str:
        """What is printed."""
        return _PRINTED[self]

    @property
    def hint(self) -> str:
        """What is seen, in a few words."""
        return _HINTS[self]


_PRINTED = {
    Look.FACETS: "Facets",
    Look.STANDING: "As it stands",
    Look.FINISHED: "Finished",
    Look.BOTH: "Before and after",
}
_HINTS = {
    Look.FACETS: "Facets in colours, with pitch and area",
    Look.STANDING: "The glazed roof on its bars",
    Look.FINISHED: "The roof as the chosen method makes it",
    Look.BOTH: "Before on the left, after on the right; drag the line between them",
}

_GLASS_MM, _PANEL_MM = 6.0, 10.0
_CAP_ON_GLASS_MM, _CAP_ON_TILES_MM = 55.0, 120.0


def as_it_stands(site: Site) -> tuple[Body, ...]:
    """Return the glazed roof on its bars, its walls, the house and the ground."""
    roof = site.roof
    return (
        *_around(roof, roof),
        *_glazed(roof, roof.facets, site),
        *_trims(roof),
    )


def finished(refit: Refit) -> tuple[Body, ...]:
    """Return the roof a method makes, with what stands round it."""
    if refit.method is Method.PANEL_SWAP:
        return _panelled(refit)
    return _tiled(refit)


def _panelled(refit: Refit) -> tuple[Body, ...]:
    site, roof = refit.site, refit.site.roof
    covered = [facet for facet in roof.facets if facet.name in refit.facets]
    glazed = [facet for facet in roof.facets if facet.name not in refit.facets]
    names = [facet.name for facet in covered]
    return (
        *_around(roof, roof),
        *covers.between_bars(covered, site.members, part=Part.PANEL, thick_mm=_PANEL_MM),
        *covers.bars(covered, site.members, part=Part.PANEL_CAP, depth_mm=refit.bar_depth_mm),
        *covers.along_lines(roof, names, part=Part.PANEL_CAP, depth_mm=refit.bar_depth_mm),
        *cappings.on_lines(
            roof, Part.PANEL_CAP, width_mm=_CAP_ON_GLASS_MM, above_mm=_PANEL_MM + 8.0
        ),
        *_glazed(roof, glazed, site),
        *_trims(roof),
    )


def _tiled(refit: Refit) -> tuple[Body, ...]:
    site, datum = refit.site, refit.site.roof
    surface = _outermost(refit)
    covered = [facet for facet in surface.facets if facet.name in refit.facets]
    glazed = [facet for facet in datum.facets if facet.name not in refit.facets]
    coursing = _coursing(refit)
    above = 2.0 * coursing.thick_mm
    windows = [
        (facet, openings.outline(one, datum.facet(facet.name), facet))
        for facet in covered
        for one in refit.entry.roof_windows
        if one.facet == facet.name
    ]
    outlines = [
        (facet.frame, _without(facet, [hole for at, hole in windows if at is facet]))
        for facet in covered
    ]
    return (
        *_around(datum, surface),
        _boarding(outlines),
        *tiles.laid(outlines, coursing),
        *cappings.on_lines(
            _only(surface, refit.facets), Part.CAPPING, width_mm=_CAP_ON_TILES_MM, above_mm=above
        ),
        *openings.bodies(windows, above_mm=above),
        *_glazed(datum, glazed, site),
        *_lining(refit),
        *roofline.bodies(
            sides.of_roof(surface),
            walls_out_mm=-refit.entry.eaves_overhang_mm,
            floor_mm=-datum.eaves_height_mm,
            thick_mm=above,
        ),
    )


def _trims(roof: Roof) -> tuple[Body, ...]:
    """Return gutters and lead of a roof whose edges stay as they are: no fascia, soffit or trim."""
    return roofline.bodies(
        sides.of_roof(roof),
        walls_out_mm=0.0,
        floor_mm=-roof.eaves_height_mm,
        thick_mm=_PANEL_MM,
    )[3:]


def _glazed(roof: Roof, facets: Sequence[Facet], site: Site) -> tuple[Body, ...]:
    if not facets:
        return ()
    depth = site.standing.bar_depth_mm or ASSUMED_BAR_DEPTH_MM
    names = [facet.name for facet in facets]
    return (
        *covers.bars(facets, site.members, part=Part.GLAZING_BAR, depth_mm=depth),
        *covers.along_lines(roof, names, part=Part.GLAZING_BAR, depth_mm=depth),
        *cappings.on_lines(
            _only(roof, names),
            Part.GLAZING_BAR,
            width_mm=_CAP_ON_GLASS_MM,
            above_mm=_GLASS_MM + 8.0,
        ),
        *covers.between_bars(facets, site.members, part=Part.ROOF_GLASS, thick_mm=_GLASS_MM),
    )


def _around(datum: Roof, surface: Roof) -> tuple[Body, ...]:
    """Return walls, house and ground; the shadow is that of walls and covering."""
    floor = -datum.eaves_height_mm
    edges = sides.of_roof(datum)
    dark = shadow.thrown(
        [*solid.walls(datum), *(facet.corners for facet in surface.facets)], floor_mm=floor
    )
    room = walls.floor_of(edges)
    return (
        *ground.bodies(room, dark, floor),
        *walls.of_house(edges, floor_mm=floor, top_mm=surface.rise_mm, shadow=dark),
        *walls.of_conservatory(edges, floor),
    )


def _boarding(outlines: Sequence[tuple[Frame, BaseGeometry]]) -> Body:
    """Return what is seen through the joints of the tiles."""
    pieces = []
    for frame, outline in outlines:
        corners, _ = flat.triangles([outline])
        pieces.append(flat.on_frame(frame, corners, np.full(corners.shape[:2], -4.0)))
    return body(Part.CAPPING, pieces)


def _lining(refit: Refit) -> tuple[Body, ...]:
    """Return the face the room sees."""
    inner = [layer for layer in refit.layers if layer.layer.zone is Zone.ROOM]
    known = [layer for layer in inner if layer.number in refit.surfaces]
    if not known:
        return ()
    surface = refit.surfaces[min(known, key=lambda one: one.inside_mm).number]
    outer = _outermost(refit)
    pieces = []
    for facet in surface.facets(refit.facets):
        datum, over = refit.site.roof.facet(facet.name), outer.facet(facet.name)
        windows = [one for one in refit.entry.roof_windows if one.facet == facet.name]
        holes = [openings.outline(one, datum, facet) for one in windows]
        corners, _ = flat.triangles([_without(facet, holes)])
        pieces.append(flat.on_frame(facet.frame, corners, np.zeros(corners.shape[:2]))[:, ::-1])
        for one, hole in zip(windows, holes, strict=True):
            pieces.append(openings.reveal(facet, hole, over, openings.outline(one, datum, over)))
    return (body(Part.PLASTER, pieces),)


def _outermost(refit: Refit) -> Roof:
    """Return the surface the covering lies on; the datum where nothing lies outside."""
    outside = [layer for layer in refit.layers if layer.number in refit.surfaces]
    outer = [layer for layer in outside if layer.layer.zone is Zone.OUTSIDE]
    if not outer:
        return refit.site.roof
    return refit.surfaces[max(outer, key=lambda one: one.cut_face_mm).number].roof


def _coursing(refit: Refit) -> Coursing:
    layer = refit.layer("tile")
    material = layer.material if layer is not None else None
    return Coursing(
        gauge_mm=(material.gauge_most_mm if material else None) or 290.0,
        cover_mm=(material.cover_mm if material else None) or 330.0,
    )


def _without(facet: Facet, holes: Sequence[shapely.Polygon]) -> BaseGeometry:
    outline = shapely.Polygon(facet.outline_mm)
    return outline.difference(shapely.unary_union(holes)) if holes else outline


def _only(roof: Roof, names: Sequence[str]) -> Roof:
    """Return a roof with only the lines between facets that are named."""
    lines = tuple(line for line in roof.lines if set(line.facets) <= set(names))
    return Roof(facets=roof.facets, lines=lines, eaves_height_mm=roof.eaves_height_mm)
