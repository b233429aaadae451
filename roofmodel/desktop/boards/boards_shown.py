"""What is cut on one facet of one sheet layer: the plan's pieces, the bays, or the laid boards."""

from collections.abc import Sequence
from dataclasses import dataclass

from roofmodel.cutting.laying import laying
from roofmodel.cutting.laying.board import Board
from roofmodel.cutting.laying.covered import covered
from roofmodel.cutting.parts.part import Part
from roofmodel.cutting.plan import Plan
from roofmodel.desktop.kit.flat_canvas import Flat
from roofmodel.shapes.bars import bar_layout
from roofmodel.shapes.roof import Facet
from roofmodel.workbench.job.options import Option
from roofmodel.workbench.job.sheet_layers import SheetLayer

_TENTHS = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownPiece:
    """One piece as it lies on the facet; ``mark`` without job, facet and material."""

    mark: str
    corners_mm: tuple[Flat, ...]

    @property
    def size(self) -> str:
        """Extent along the eaves and up the slope [mm]."""
        across, up = ([corner[i] for corner in self.corners_mm] for i in (0, 1))
        return f"{max(across) - min(across):.0f} × {max(up) - min(up):.0f}"


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardedFacet:
    """What the drawing shows: the facet on the layer's own surface and what lies on it.

    ``boards`` are what is laid before there is a plan; ``bars_mm`` are centre-lines of bars.
    """

    facet: Facet
    colour: str
    pieces: tuple[ShownPiece, ...]
    material: str
    boards: tuple[Board, ...] = ()
    bars_mm: tuple[float, ...] = ()


def on_facet(
    layer: SheetLayer, option: Option, own: Facet, plan: Plan | None, *, colour: str
) -> BoardedFacet | None:
    """Return what is cut on a facet; None for a facet the layer does not cover.

    Raises
    ------
    RoofModelError
        If no boards can be laid on it.
    """
    facet = next((one for one in layer.facets if one.name == own.name), None)
    if facet is None:
        return None
    boards: tuple[Board, ...] = ()
    if plan is not None:
        parts = [part for part in plan.problem.parts if part.facet == facet.name]
        pieces = tuple(_of_part(part, layer.good.short) for part in parts)
    elif layer.bays:
        pieces = tuple(
            ShownPiece(mark=_short(bay.mark, facet.name), corners_mm=tuple(bay.corners_mm))
            for bay in layer.bays
            if bay.facet == facet.name
        )
    else:
        supports = layer.supports_mm.get(facet.name, ())
        boards = laying.lay(
            covered(facet, layer.laying_rules).outline_mm,
            layer.laying_rules,
            facet=facet.name,
            supports_mm=supports,
        ).boards
        pieces = tuple(
            ShownPiece(mark=f"C{board.course}P{board.position}", corners_mm=board.corners_mm)
            for board in boards
        )
    return BoardedFacet(
        facet=facet,
        colour=colour,
        pieces=pieces,
        material=layer.good.short,
        boards=boards,
        bars_mm=bars_mm(layer, option, own, facet),
    )


def bars_mm(layer: SheetLayer, option: Option, own: Facet, facet: Facet) -> tuple[float, ...]:
    """Return where bars and bearers stand on a layer's facet, in its own frame [mm]."""
    if facet.name in layer.supports_mm:
        return tuple(layer.supports_mm[facet.name])
    known = option.refit.members.of_facet(facet.name) if option.refit else None
    if known is None:
        return ()
    return tuple(bar_layout.on_layer(known.layout, own, facet).centres_mm)


def _of_part(part: Part, short: str) -> ShownPiece:
    u, v = part.at_mm
    corners: Sequence[Flat] = [(u + x / _TENTHS, v + y / _TENTHS) for x, y in part.corners]
    return ShownPiece(mark=_short(part.mark, part.facet, short), corners_mm=tuple(corners))


def _short(mark: str, facet: str, short: str = "") -> str:
    """Return what of a mark tells the pieces of one facet apart."""
    _, _, after = mark.partition(f"-{facet}-")
    words = (after or mark).replace(f"-{short}", "") if short else after or mark
    return words.removesuffix("-N")
