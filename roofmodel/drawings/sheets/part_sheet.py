"""One part on a drawing of its own, at full size from its lower left corner, outside face up.

The part lies as on the roof: eaves at the bottom, up-slope upwards, never turned over.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from math import dist

import shapely

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.parts.layout import Placed
from roofmodel.drawings.paper import layer, lettering
from roofmodel.drawings.paper.heading import Heading
from roofmodel.drawings.paper.lettering import Words
from roofmodel.drawings.paper.pen import Pen, Spot
from roofmodel.drawings.sheets import bevel_note, face_note, part_drawing
from roofmodel.drawings.sheets.cut_on_facet import CutPlan, Stock
from roofmodel.drawings.sheets.part_drawing import DrawnPart
from roofmodel.shapes.roof import Facet

_TITLE_MM, _FACT_MM = 24.0, 16.0
_BELOW_MM = 40.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PartSheet:
    """A placed part, drawn alone; ``stock`` is what it is cut from."""

    heading: Heading
    good: SheetGood
    facet: Facet
    placed: Placed
    stock: Stock

    @property
    def alone(self) -> Placed:
        """The part as it lies on the roof, the lower left of what is cut at the origin."""
        across, up = zip(*self.placed.part.cut_corners, strict=True)
        return Placed(
            part=self.placed.part,
            sheet_no=self.placed.sheet_no,
            x_mm=0.0 - min(across) / 10,
            y_mm=0.0 - min(up) / 10,
            turned_deg=0,
            turned_over=False,
        )

    @property
    def piece(self) -> DrawnPart:
        """The part with what is written on it."""
        part = self.placed.part
        mass_kg = part.area_mm2 / 1e6 * self.good.mass_kg_m2
        return DrawnPart(
            placed=self.alone,
            bevels=bevel_note.bevels(part),
            drawing_code=self.good.drawing_code,
            has_strength_axis=False,
            footing=(f"{self.heading.revision_words}, {self.stock.name.upper()}, {mass_kg:.1f} KG"),
            live=self.heading.may_be_cut,
            face=face_note.up(self.good),
        )

    @property
    def facts(self) -> tuple[str, ...]:
        """What the bench measures: every corner from the lower left one, and the diagonals."""
        return (*_corners(self.alone.cut_outline_mm), *_diagonals(self.alone.cut_outline_mm))


def sheets(plans: Sequence[CutPlan]) -> Iterator[PartSheet]:
    """Give every part of a job as it is drawn alone."""
    for plan in plans:
        for stock in plan.stocks:
            for placed in stock.placed:
                owner = plan.owner_of(placed.part)
                yield PartSheet(
                    heading=owner.heading,
                    good=plan.good,
                    facet=owner.surface.facet(placed.part.facet),
                    placed=placed,
                    stock=stock,
                )


def draw(sheet: PartSheet, pen: Pen) -> None:
    """Draw the part with its note and arrows, the strength axis, and its measures below it."""
    piece = sheet.piece
    part_drawing.draw_cut(piece, pen)
    if part_drawing.write_on(piece, pen) is None:
        part_drawing.write_on(piece, pen, at_any_size=True)
    on = layer.dimension(sheet.good.drawing_code)
    y = -_BELOW_MM
    axis = _axis_words(sheet)
    for text in (f"{sheet.heading.words}: {sheet.placed.part.mark}", *axis, *sheet.facts):
        height = _TITLE_MM if y == -_BELOW_MM else _FACT_MM
        pen.text(text.upper(), (0.0, y - height), height_mm=height, turn_deg=0.0, layer=on)
        y -= height * lettering.LINE_STEP


def extents_mm(sheet: PartSheet) -> tuple[Spot, Spot]:
    """Return the lower left and upper right corner of the drawing [mm]."""
    area = shapely.Polygon(sheet.alone.cut_outline_mm)
    lines = [f"{sheet.heading.words}: {sheet.placed.part.mark}", *_axis_words(sheet), *sheet.facts]
    long = max(Words(text, _FACT_MM).length_mm for text in lines)
    low = -_BELOW_MM - (_TITLE_MM + _FACT_MM * len(lines)) * lettering.LINE_STEP
    right, top = area.bounds[2], area.bounds[3]
    return (-20.0, low), (max(right, long * _TITLE_MM / _FACT_MM * 0.7, long) + 20.0, top + 20.0)


def _axis_words(sheet: PartSheet) -> tuple[str, ...]:
    if sheet.good.strength_axis != "long":
        return ()
    turned = sheet.placed.turned_deg % 180 == 90
    way = "up the slope" if turned else "across the slope"
    return (f"Strength axis runs {way}.",)


def _corners(outline: tuple[Spot, ...]) -> Iterator[str]:
    for number, (x, y) in enumerate(outline, start=1):
        yield f"Corner {number}: {x:.1f} right, {y:.1f} up"


def _diagonals(outline: tuple[Spot, ...]) -> Iterator[str]:
    count = len(outline)
    for i, j in combinations(range(count), 2):
        if 1 < j - i < count - 1:
            yield f"Diagonal {i + 1}-{j + 1}: {dist(outline[i], outline[j]):.1f}"
