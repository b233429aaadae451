"""Joints in runs longer than the stock: where a fascia, a gutter or a batten is joined."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from roofmodel.cutting.lengths.problem import LengthPart, LengthPiece, numbered
from roofmodel.cutting.parts.tenths import Tenths
from roofmodel.foundation.errors import CuttingError


@dataclass(frozen=True, slots=True, kw_only=True)
class SpliceRule:
    """Joints are allowed; no part between two joints is shorter than ``least``."""

    least: Tenths

    def __post_init__(self) -> None:
        """Refuse a least part of no length."""
        if self.least < 1:
            raise CuttingError(
                f"A shortest part of {self.least / 10:g} mm is not possible. Enter more than 0 mm."
            )


def parts_of(
    pieces: Sequence[LengthPiece], *, longest: Tenths, splice: SpliceRule | None
) -> tuple[LengthPart, ...]:
    """Return the parts to cut, runs longer than the stock joined where that is allowed.

    Parts of a joined run are marked A, B … from its left end.

    Raises
    ------
    CuttingError
        If a run must be joined and no joint can be placed.
    """
    parts: list[LengthPart] = []
    for piece in pieces:
        lengths = [piece.cut_length]
        if splice is not None and piece.cut_length > longest:
            lengths = _joined(piece, longest, splice.least)
        for mark in numbered(piece):
            names = [mark] if len(lengths) == 1 else [f"{mark}{_letter(i)}" for i in range(99)]
            parts += [
                LengthPart(mark=name, length=length)
                for name, length in zip(names, lengths, strict=False)
            ]
    return tuple(parts)


def _joined(piece: LengthPiece, longest: Tenths, least: Tenths) -> list[Tenths]:
    """Return the cut lengths of a joined run from its left end."""
    if piece.joint_places is None:
        joints = _anywhere(piece, longest, least)
    else:
        joints = _at_places(piece, longest, least)
    if joints is None:
        where = "anywhere" if piece.joint_places is None else "at the places given"
        raise CuttingError(
            f"{piece.mark}: a run of {piece.length / 10:g} mm cannot be joined {where} from "
            f"lengths of {longest / 10:g} mm with no part below {least / 10:g} mm. Choose a "
            "longer stock length, a shorter least part or more joint places."
        )
    ends = [-piece.left_mitre, *joints, piece.length + piece.right_mitre]
    lengths = [b - a for a, b in pairwise(ends)]
    if len(lengths) > 26:
        raise CuttingError(
            f"{piece.mark}: {len(lengths)} parts in one run. Check its length and the stock's."
        )
    return lengths


def _anywhere(piece: LengthPiece, longest: Tenths, least: Tenths) -> list[Tenths] | None:
    """Return joints with whole lengths from the left, the last but one cut if the rest is short."""
    full, rest = divmod(piece.cut_length, longest)
    lengths = [longest] * full + ([rest] if rest else [])
    if lengths[-1] < least:
        lengths[-2] -= least - lengths[-1]
        lengths[-1] = least
    if min(lengths) < least or max(lengths) > longest:
        return None
    joints, at = [], -piece.left_mitre
    for length in lengths[:-1]:
        at += length
        joints.append(at)
    # A joint within a mitre would leave an end part without its mitre.
    return joints if all(0 < joint < piece.length for joint in joints) else None


def _at_places(piece: LengthPiece, longest: Tenths, least: Tenths) -> list[Tenths] | None:
    """Return the fewest joints at the places given; of equals the one farthest to the right."""
    start, end = -piece.left_mitre, piece.length + piece.right_mitre
    inside = sorted({place for place in piece.joint_places or () if 0 < place < piece.length})
    best: dict[Tenths, list[Tenths]] = {end: []}
    for here in [*reversed(inside), start]:
        reached = [
            [there, *best[there]]
            for there in sorted(best, reverse=True)
            if least <= there - here <= longest
        ]
        if reached:
            best[here] = min(reached, key=len)
    return best[start][:-1] if start in best else None


def _letter(number: int) -> str:
    return chr(ord("A") + number % 26)
