"""From a board on its facet to a marked part, and from parts to a problem."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.laying.board import Board
from roofmodel.cutting.laying.covered import clear_of_mitres
from roofmodel.cutting.parts.facet import BoardedFacet
from roofmodel.cutting.parts.part import Part, hand, rounded
from roofmodel.cutting.parts.problem import Problem
from roofmodel.cutting.parts.tenths import cut_tenths, stock_tenths
from roofmodel.foundation.tolerance import LENGTH_MM

_TURNS = {"long": (0, 180), "none": (0, 90, 180, 270)}


def problem_of(parts: Sequence[Part], good: SheetGood) -> Problem:
    """Return parts and sheet material as a problem, rounded as the saw will have it.

    Raises
    ------
    CuttingError
        If there is no part, or one fits no sheet.
    """
    return Problem(
        sheet_length=stock_tenths(good.length_mm),
        sheet_width=stock_tenths(good.width_mm),
        kerf=cut_tenths(good.kerf_mm),
        trim=cut_tenths(good.trim_mm),
        parts=tuple(parts),
    )


def mark_of(board: Board, good: SheetGood, *, job_code: str) -> str:
    """Return the mark of a board but for its hand, such as ``J04-F2-C1P2-OSB18``."""
    return f"{job_code}-{board.facet}-C{board.course}P{board.position}-{good.short}"


def part_of(board: Board, facet: BoardedFacet, good: SheetGood, *, job_code: str) -> Part:
    """Return the part that becomes a board, marked and rounded to whole tenths."""
    mitred = good.hip_edges == "bevelled"
    if mitred:
        board = replace(board, corners_mm=clear_of_mitres(board.corners_mm, facet, good.reach_mm))
    bevels = side_bevels_deg(board, facet) if mitred else ()
    corners, bevels = rounded(board.corners_mm, bevels or (0.0,) * len(board.corners_mm))
    return Part(
        mark=f"{mark_of(board, good, job_code=job_code)}-{hand(corners, bevels)}",
        facet=board.facet,
        material=good.code,
        corners=corners,
        bevels_deg=bevels,
        at_mm=(
            min(u for u, _ in board.corners_mm),
            min(v for _, v in board.corners_mm),
        ),
        may_turn_deg=_TURNS[good.strength_axis],
        may_turn_over=good.faces == "alike" and not any(bevels),
        thickness_mm=good.thickness_mm,
    )


def side_bevels_deg(board: Board, facet: BoardedFacet) -> tuple[float, ...]:
    """Return for each side of a board how the facet's edge it lies on leans, else 0 [°].

    Below 0 the inside face sticks out, as `FacetEdge.lean_deg` says.
    """
    start = np.asarray(facet.outline_mm, dtype=float)
    way = np.roll(start, -1, axis=0) - start
    bevels = np.array([edge.lean_deg for edge in facet.edges])
    # How far along each side of the facet the nearest place to each corner lies, 0 to 1.
    to_corner = np.asarray(board.corners_mm, dtype=float)[:, None, :] - start
    along = np.clip((to_corner * way).sum(axis=2) / (way * way).sum(axis=1), 0.0, 1.0)
    away = np.linalg.norm(to_corner - along[:, :, None] * way, axis=2)
    on = away <= LENGTH_MM
    both = on & np.roll(on, -1, axis=0)
    own = np.where(both, bevels, 0.0)
    most = np.abs(own).argmax(axis=1)
    return tuple(own[np.arange(len(own)), most].tolist())
