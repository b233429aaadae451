"""Says why lengths could not be cut as planned; it has never seen a solver."""

from collections import Counter
from collections.abc import Iterator, Sequence
from string import ascii_uppercase

from roofmodel.cutting.lengths.layout import CutBar, LengthLayout
from roofmodel.cutting.lengths.problem import LengthPart, LengthPiece, LengthProblem, numbered
from roofmodel.cutting.lengths.splice import SpliceRule


def faults(problem: LengthProblem, layout: LengthLayout) -> list[str]:
    """Return every reason why the workshop could not cut this; empty means good."""
    return [
        *_wrong_quantities(problem, layout),
        *_wrong_offcuts(problem, layout),
        *_wrong_stock(problem, layout),
        *(fault for bar in layout.bars for fault in _wrongly_cut(problem, bar)),
    ]


def faults_in_runs(
    pieces: Sequence[LengthPiece], parts: Sequence[LengthPart], splice: SpliceRule | None
) -> list[str]:
    """Return every reason why the parts, laid end to end, do not make up the pieces ordered."""
    by_mark = {part.mark: part for part in parts}
    sentences: list[str] = []
    known = 0
    for piece in pieces:
        for mark in numbered(piece):
            run = [by_mark[mark]] if mark in by_mark else []
            if not run:
                names = [mark + letter for letter in ascii_uppercase]
                run = [by_mark[name] for name in names if name in by_mark]
            known += len(run)
            sentences += _faults_in_run(mark, piece, run, splice)
    if known != len(parts):
        sentences.append(f"{len(parts) - known} parts belong to no piece ordered.")
    return sentences


def _faults_in_run(
    mark: str, piece: LengthPiece, run: Sequence[LengthPart], splice: SpliceRule | None
) -> Iterator[str]:
    total = sum(part.length for part in run)
    wanted = piece.left_mitre + piece.length + piece.right_mitre
    if total != wanted:
        yield f"Piece {mark} is made {total / 10:g} mm long, not {wanted / 10:g} mm."
    if len(run) < 2:
        return
    if splice is None:
        yield f"Piece {mark} is joined, and joints are not allowed."
        return
    if any(part.length < splice.least for part in run):
        yield f"Piece {mark} has a part shorter than {splice.least / 10:g} mm."
    at = -piece.left_mitre
    for part in run[:-1]:
        at += part.length
        if piece.joint_places is not None and at not in piece.joint_places:
            yield f"Piece {mark} is joined at {at / 10:g} mm, where no joint is allowed."


def _wrong_quantities(problem: LengthProblem, layout: LengthLayout) -> Iterator[str]:
    ordered = Counter(problem.parts)
    cut = Counter(part for bar in layout.bars for part in bar.parts)
    for part in ordered - cut:
        yield f"Piece {part.mark} is missing."
    for part in cut - ordered:
        yield f"Piece {part.mark} is cut once too often, or was never ordered."


def _wrong_offcuts(problem: LengthProblem, layout: LengthLayout) -> Iterator[str]:
    rack = {one.label: one.length for one in problem.rack}
    taken = Counter(bar.label for bar in layout.bars if bar.label is not None)
    for label, count in taken.items():
        if label not in rack:
            yield f"The rack has no offcut “{label}”."
        elif count > 1:
            yield f"The offcut “{label}” is cut {count} times."
    for bar in layout.bars:
        if bar.label is not None and bar.length != rack.get(bar.label, bar.length):
            yield f"The offcut “{bar.label}” is not {bar.length / 10:g} mm long."


def _wrong_stock(problem: LengthProblem, layout: LengthLayout) -> Iterator[str]:
    stock = {one.length: one.most for one in problem.stock}
    bought = Counter(bar.length for bar in layout.bars if bar.label is None)
    for length, count in bought.items():
        if length not in stock:
            yield f"No length of {length / 10:g} mm can be bought."
            continue
        most = stock[length]
        if most is not None and count > most:
            yield f"{count} lengths of {length / 10:g} mm are used; {most} are available."


def _wrongly_cut(problem: LengthProblem, bar: CutBar) -> Iterator[str]:
    what = bar.label or f"{bar.length / 10:g} mm"
    if not bar.parts:
        yield f"Nothing is cut from {what}."
        return
    at = 0
    for part, mark in zip(bar.parts, bar.marks, strict=True):
        at += part.length
        if mark != at:
            yield f"The saw mark of {part.mark} is at {mark / 10:g}, not {at / 10:g} mm."
        at += problem.kerf
    end = at - problem.kerf
    if end > bar.length:
        yield f"The pieces on {what} end at {end / 10:g} mm, beyond the length."
