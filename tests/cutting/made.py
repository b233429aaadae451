"""Facets, parts and layouts made in few words, for the tests of this room."""

from dataclasses import dataclass, replace
from functools import cache

import numpy as np
import shapely

from roofmodel.buildups import catalogue
from roofmodel.cutting.laying.rule import LayingRules
from roofmodel.cutting.parts.layout import Layout, Placed
from roofmodel.cutting.parts.part import Part
from roofmodel.cutting.parts.problem import Problem
from roofmodel.cutting.plan import plan
from roofmodel.shapes.gable import Gable
from roofmodel.shapes.hipped import Hipped
from roofmodel.shapes.lean_to import LeanTo
from roofmodel.shapes.polygonal_end import PolygonalEnd
from roofmodel.shapes.roof import FacetEdge, LineKind

# Sizes of the acceptance jobs, all of them invented.
SHAPES = {
    "J01": LeanTo(width_mm=4000, projection_mm=2800, pitch_deg=15),
    "J04": PolygonalEnd(width_mm=3500, projection_mm=3600, pitch_deg=25, end_facets=3),
    "J06": Hipped(
        width_mm=3000, projection_mm=3400, left_pitch_deg=25, front_pitch_deg=35, right_pitch_deg=25
    ),
    "J07": Gable(width_mm=3800, projection_mm=4200, left_pitch_deg=30, right_pitch_deg=30),
}

# Bars of the two jobs whose counts are proved in words: six bays of 666.7 mm, seven of 600 mm.
SUPPORTS = {
    "J01": {"F1": [i * 4000 / 6 for i in range(7)]},
    "J07": {name: [600.0 * i for i in range(8)] for name in ("F1", "F2")},
}


def roof(job):
    return SHAPES[job].roof(eaves_height_mm=2100.0)


def good(code="BRD-OSB18", **changes):
    """Return a sheet of the catalogue, laid up to the wall: the facts it is held against are."""
    return replace(catalogue.shipped().sheet_goods()[code], **{"wall_gap_mm": 0.0, **changes})


@cache
def planned(job, code="BRD-OSB18", effort="quick"):
    """Return the plan of an acceptance job; many tests look at one, which is a value and stays."""
    return plan(roof(job).facets, good(code), job_code=job, effort=effort)


@dataclass(frozen=True)
class FlatFacet:
    """A facet that is nothing but an outline with square edges."""

    name: str
    corners: tuple
    bevels_deg: tuple = ()
    pitch_deg: float = 0.0

    @property
    def outline_mm(self):
        return np.array(self.corners, dtype=float)

    @property
    def edges(self):
        bevels = self.bevels_deg or (0.0,) * len(self.corners)
        return tuple(FacetEdge(LineKind.HIP if b else LineKind.VERGE, b) for b in bevels)

    @property
    def area_mm2(self):
        return shapely.Polygon(self.corners).area


def facet(*corners, name="F1", bevels_deg=()):
    return FlatFacet(name, corners, bevels_deg)


def rectangle_facet(width_mm, height_mm, name="F1"):
    return facet((0, 0), (width_mm, 0), (width_mm, height_mm), (0, height_mm), name=name)


def rules(length_mm, width_mm, *, gap=0.0, least=200.0, stagger=300.0):
    return LayingRules(
        board_length_mm=length_mm,
        board_width_mm=width_mm,
        trim_mm=0.0,
        gap_mm=gap,
        minimum_piece_mm=least,
        stagger_mm=stagger,
    )


def part(mark, *corners, turns=(0, 180), over=True, bevels_deg=None, at_mm=(0.0, 0.0)):
    """Return a part with its corners given in millimetres."""
    return Part(
        mark=mark,
        facet="F1",
        material="TEST",
        corners=tuple((round(10 * x), round(10 * y)) for x, y in corners),
        bevels_deg=bevels_deg or (0.0,) * len(corners),
        at_mm=at_mm,
        may_turn_deg=turns,
        may_turn_over=over,
    )


def rectangle(mark, length_mm, width_mm, **options):
    corners = ((0, 0), (length_mm, 0), (length_mm, width_mm), (0, width_mm))
    return part(mark, *corners, **options)


def problem(*parts, sheet=(300, 100), kerf=4, trim=0):
    """Return a problem with its sizes given in millimetres."""
    return Problem(
        sheet_length=round(10 * sheet[0]),
        sheet_width=round(10 * sheet[1]),
        kerf=round(10 * kerf),
        trim=round(10 * trim),
        parts=parts,
    )


def placed(one, x_mm, y_mm, *, sheet_no=1, turned=0, over=False):
    return Placed(
        part=one, sheet_no=sheet_no, x_mm=x_mm, y_mm=y_mm, turned_deg=turned, turned_over=over
    )


def layout(*all_placed):
    return Layout(placed=all_placed)


def picture(laid, *, mm_per_character):
    """Return the courses from the top down: one character per so many mm, | at ends and joints."""
    courses = {}
    for board in laid.boards:
        left, right = (f(u for u, _ in board.corners_mm) for f in (min, max))
        line = courses.setdefault(board.course, {})
        for column in range(round(left / mm_per_character), round(right / mm_per_character)):
            line.setdefault(column, "-")
        line[round(left / mm_per_character)] = line[round(right / mm_per_character)] = "|"
    return "\n".join(
        "".join(line.get(column, " ") for column in range(max(line) + 1))
        for _, line in sorted(courses.items(), reverse=True)
    )
