"""From pieces whose shapes are given to marked parts, and the sentence that names their rules."""

from collections.abc import Sequence

from roofmodel.buildups.sheet_good import SheetGood
from roofmodel.cutting.laying.part_of_board import problem_of
from roofmodel.cutting.parts.part import Part, hand, rounded
from roofmodel.cutting.parts.parting import FULL_FIRST, Parting
from roofmodel.cutting.parts.piece import Piece, SpotsMm, bevels_on, split
from roofmodel.cutting.parts.problem import Problem
from roofmodel.foundation.errors import CuttingError

_TURNS = {"across": (0, 180), "up": (90, 270)}


def problem_for(
    pieces: Sequence[Piece],
    good: SheetGood,
    *,
    job_code: str,
    partings: Sequence[Parting] | None = None,
) -> tuple[Problem, tuple[tuple[Piece, tuple[Part, ...]], ...]]:
    """Return the parts of all pieces as a problem, and which parts make up each piece.

    ``partings`` says for each piece where it is cut; full lengths first when left out.

    Raises
    ------
    CuttingError
        If there is no piece, a mark is not of this job, or a piece fits no sheet; all pieces that
        do not fit are named at once.
    """
    parted: list[tuple[Piece, tuple[Part, ...]]] = []
    refusals: list[str] = []
    chosen = partings or [FULL_FIRST] * len(pieces)
    for piece, parting in zip(pieces, chosen, strict=True):
        if not piece.mark.startswith(f"{job_code}-"):
            refusals.append(
                f"{piece.mark} is not marked for job {job_code}. Give it a mark of that job."
            )
            continue
        try:
            parted.append((piece, _parts(piece, good, parting)))
        except CuttingError as error:
            refusals.append(str(error))
    if refusals:
        raise CuttingError(" ".join(refusals))
    return problem_of([part for _, parts in parted for part in parts], good), tuple(parted)


def claim(pieces: Sequence[Piece], good: SheetGood) -> str:
    """Return the sentence that names every rule the pieces are cut by."""
    return ", ".join(text for text in _clauses(pieces, good) if text)


def _clauses(pieces: Sequence[Piece], good: SheetGood) -> tuple[str, ...]:
    gaps = sorted({piece.split_gap_mm for piece in pieces if piece.may_split})
    between = " or ".join(f"{gap:g} mm" for gap in gaps)
    grain = {piece.sheet_runs for piece in pieces} if good.strength_axis == "long" else set()
    never_over = good.faces != "alike"
    return (
        f"{good.trim_mm:g} mm trimmed off every sheet edge" if good.trim_mm else "",
        "every piece in one part" if len(gaps) == 0 else _joined(pieces),
        f"{between} between the parts" if gaps else "",
        f"no part under {good.minimum_piece_mm:g} mm" if gaps else "",
        "turned by any right angle" if not grain else "",
        *(f"sheet's long edge {_RUNS[way]}" for way in sorted(grain)),
        "never turned over" if never_over else "either face out unless bevelled",
        f"saw cut {good.kerf_mm:g} mm",
    )


_RUNS = {"up": "up the slope", "across": "across the slope"}


def _joined(pieces: Sequence[Piece]) -> str:
    some = "pieces" if all(piece.may_split for piece in pieces) else "some pieces"
    return f"{some} longer than the sheet cut square across into as few parts as possible"


def _parts(piece: Piece, good: SheetGood, parting: Parting) -> tuple[Part, ...]:
    shapes = split(piece, good, parting)
    if len(shapes) == 1:
        return (_part(piece, shapes[0], piece.mark, good),)
    return tuple(
        _part(piece, shape, f"{piece.mark}P{number}", good)
        for number, shape in enumerate(shapes, start=1)
    )


def _part(piece: Piece, corners_mm: SpotsMm, mark: str, good: SheetGood) -> Part:
    corners, bevels = rounded(corners_mm, bevels_on(corners_mm, piece))
    turns = _TURNS[piece.sheet_runs] if good.strength_axis == "long" else (0, 90, 180, 270)
    return Part(
        mark=f"{mark}-{good.short}-{hand(corners, bevels)}",
        facet=piece.facet,
        material=good.code,
        corners=corners,
        bevels_deg=bevels,
        at_mm=(min(u for u, _ in corners_mm), min(v for _, v in corners_mm)),
        may_turn_deg=turns,
        may_turn_over=good.faces == "alike" and not any(bevels),
        thickness_mm=good.thickness_mm,
    )
