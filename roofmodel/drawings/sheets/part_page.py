"""Pages of parts with every dimension a bench man needs; parts that are alike are drawn once."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from roofmodel.cutting.nesting.bench import has_notch
from roofmodel.cutting.parts.part import Part
from roofmodel.drawings.paper.pen import Spot
from roofmodel.drawings.pdf.pdf_page import LEFT_MM, RIGHT_MM, TOP_MM, PdfPage
from roofmodel.drawings.pdf.pdf_sheet import PagePen
from roofmodel.drawings.sheets import part_cell
from roofmodel.drawings.sheets.bevel_note import key
from roofmodel.drawings.sheets.cut_on_facet import CutPlan
from roofmodel.drawings.sheets.part_cell import PartCell

_GAP_MM, _BOTTOM_MM = 6.0, 70.0
_LIES = (
    "As on the roof: outside face up, eaves at the bottom. Figures run from 0 at the lower left; "
    "figures in brackets are checks."
)


@dataclass(slots=True)
class _Shelf:
    """A row of cells on a page: its upper edge, its height, and how far it is filled [mm]."""

    top: float
    height: float
    right: float = LEFT_MM


@dataclass(slots=True)
class _Filled:
    """One page as it fills up."""

    shelves: list[_Shelf] = field(default_factory=list)
    cells: list[tuple[PartCell, Spot]] = field(default_factory=list)

    def takes(self, cell: PartCell) -> bool:
        """Put a cell where there is room; return whether there was."""
        wide, tall = cell.size_mm
        for shelf in self.shelves:
            if tall <= shelf.height and shelf.right + wide <= RIGHT_MM:
                self._put(cell, shelf)
                return True
        last = self.shelves[-1] if self.shelves else None
        top = TOP_MM if last is None else last.top - last.height - _GAP_MM
        if last is not None and top - tall < _BOTTOM_MM:
            return False
        self.shelves.append(_Shelf(top, tall))
        self._put(cell, self.shelves[-1])
        return True

    def _put(self, cell: PartCell, shelf: _Shelf) -> None:
        self.cells.append((cell, (shelf.right, shelf.top)))
        shelf.right += cell.size_mm[0] + _GAP_MM


def pages(plans: Sequence[CutPlan], *, odd_only: bool = False) -> Iterator[PdfPage]:
    """Yield the pages of a job's parts, material by material, from the room outwards.

    ``odd_only`` leaves out those a cutting sheet says all about.
    """
    for plan in plans:
        filled: list[_Filled] = []
        for cell in part_cell.cells(plan):
            if odd_only and not is_odd(cell.first.placed.part):
                continue
            if not any(page.takes(cell) for page in filled):
                filled.append(_Filled())
                filled[-1].takes(cell)
        for number, page in enumerate(filled, start=1):
            yield _page(plan, page, f"{plan.good.short} parts {number} of {len(filled)}")


def is_odd(part: Part) -> bool:
    """Return whether a part needs a drawing of its own: bevelled, notched, or raked twice."""
    ends = zip(part.cut_corners, (*part.cut_corners[1:], part.cut_corners[0]), strict=True)
    raked = sum(min(abs(x1 - x0), abs(y1 - y0)) > 1 for (x0, y0), (x1, y1) in ends)
    return any(part.bevels_deg) or has_notch(part.corners) or raked > 1


def _page(plan: CutPlan, filled: _Filled, title: str) -> PdfPage:
    pieces = sum(len(cell.sheets) for cell, _ in filled.cells)
    leans = {bevel.inward for cell, _ in filled.cells for bevel in cell.bevels}

    def draw(pen: PagePen) -> None:
        for cell, at in filled.cells:
            part_cell.draw(cell, at, pen)

    return PdfPage(
        title=title,
        scales=tuple({cell.scale for cell, _ in filled.cells}),
        draw=draw,
        rows=(("Material", f"{plan.good.name}, {pieces} piece{'' if pieces == 1 else 's'}"),),
        notes=(_LIES, *(key(leans) if leans else ())),
    )
