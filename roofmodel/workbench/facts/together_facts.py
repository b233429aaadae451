"""Jobs cut together, under the names and in the units that reports print."""

from collections.abc import Sequence
from typing import Any

from roofmodel.cutting.rack.offcut import RackPiece
from roofmodel.cutting.together.plan import TogetherPlan
from roofmodel.storage.rack_entry import RackEntry
from roofmodel.workbench.papers.jobs_together import Together
from roofmodel.workbench.papers.together_prices import TogetherPrice


def of_together(together: Together, prices: Sequence[TogetherPrice]) -> dict[str, Any]:
    """Return the figures of jobs cut together, and what each of them sells for."""
    return {
        "jobs": together.holder.job.split("+"),
        "revisions": together.holder.revision.split("+"),
        "sheets": together.sheets,
        "separately": together.separately,
        "plans": [of_plan(plan) for plan in together.plans],
        "prices": [_price(one) for one in prices],
    }


def _price(one: TogetherPrice) -> dict[str, Any]:
    alone, shared = one.alone, one.together
    return {
        "job": one.job_code,
        "price_ex_vat_gbp": None if alone is None else str(alone.ex_vat),
        "price_gbp": None if alone is None else str(alone.total),
        "together_ex_vat_gbp": None if shared is None else str(shared.ex_vat),
        "together_gbp": None if shared is None else str(shared.total),
        "incomplete": one.incomplete,
    }


def of_plan(plan: TogetherPlan) -> dict[str, Any]:
    """Return the figures of one material of jobs cut together."""
    made = plan.made
    return {
        "material": made.good.code,
        "sheet_mm": [made.good.length_mm, made.good.width_mm],
        "sheets": plan.sheets,
        "separately": plan.separately,
        "without_rack": made.without_rack,
        "bound_new": made.least.sheets,
        "bound": None if plan.floor is None else plan.floor.sheets,
        "proved": plan.floor is not None and plan.sheets == plan.floor.sheets,
        "these_pieces_need": plan.bound.sheets,
        "pieces": len(plan.parts),
        "from_rack": list(made.from_rack),
        "offcuts": [
            {
                "of": one.label or f"sheet {one.sheet_no}",
                "size": one.size,
                "area_m2": round(one.area_mm2 / 1e6, 4),
            }
            for one in made.kept
        ],
        "shares": [
            {
                "job": share.job_code,
                "pieces": share.pieces,
                "area_m2": round(share.area_m2, 4),
                "by_area": round(share.by_area, 6),
                "by_pieces": round(share.by_pieces, 6),
                "sheets_alone": share.alone,
            }
            for share in plan.shares
        ],
        "bundles": [
            {
                "job": bundle.job_code,
                "sheets": [{"from": name, "marks": list(marks)} for name, marks in bundle.sheets],
            }
            for bundle in plan.bundles
        ],
        "notes": list(plan.notes),
        "sentence": plan.sentence,
    }


def of_pieces(pieces: Sequence[RackPiece]) -> list[dict[str, Any]]:
    """Return offcuts of the rack."""
    return [_piece(piece) for piece in pieces]


def of_entries(entries: Sequence[RackEntry]) -> list[dict[str, Any]]:
    """Return everything on the rack with its state."""
    return [
        {
            **_piece(entry.piece),
            "state": entry.state.value,
            "job": entry.holder.job if entry.holder else None,
            "revision": entry.holder.revision if entry.holder else None,
        }
        for entry in entries
    ]


def _piece(piece: RackPiece) -> dict[str, Any]:
    return {
        "label": piece.label,
        "material": piece.material,
        "size": piece.size,
        "corners_mm": [[x / 10, y / 10] for x, y in piece.corners],
        "length_mm": None if piece.length is None else piece.length / 10,
        "since": piece.since.isoformat(),
        "place": piece.place,
        "may_turn_over": piece.may_turn_over,
    }
