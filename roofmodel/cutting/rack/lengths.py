"""Offcuts of materials bought by the length, to and from their plan of lengths."""

from collections.abc import Sequence
from datetime import date

from roofmodel.cutting.lengths.plan import LengthPlan
from roofmodel.cutting.lengths.problem import RackLength
from roofmodel.cutting.rack.offcut import RackPiece


def offered(rack: Sequence[RackPiece], material: str) -> tuple[RackLength, ...]:
    """Return the offcuts of a material as its plan takes them, in the order of the rack."""
    return tuple(
        piece.as_length()
        for piece in rack
        if piece.material == material and piece.length is not None
    )


def kept(made: LengthPlan, prefix: str, *, first: int = 1) -> dict[int, RackLength]:
    """Return what a plan leaves worth keeping, by the number of its bar, with its label.

    Parameters
    ----------
    made : LengthPlan
        The plan that is cut.
    prefix : str
        Begins every label: job and revision.
    first : int
        Number of the first bar in its label; more than 1 where another plan of the same material
        is cut for the job.
    """
    return {
        number: RackLength(
            label=f"{prefix}-{made.material}-{first + number - 1}", length=bar.offcut
        )
        for number, bar in enumerate(made.bars, start=1)
        if bar.offcut > 0 and bar.offcut >= made.keep
    }


def to_rack(
    made: LengthPlan, prefix: str, *, since: date, place: str = ""
) -> tuple[RackPiece, ...]:
    """Return what a plan leaves worth keeping, labelled by the number of its bar.

    Parameters
    ----------
    made : LengthPlan
        The plan that is cut.
    prefix : str
        Begins every label: job and revision.
    since : date
        The day of cutting.
    place : str
        Where the offcuts will stand.
    """
    return tuple(
        RackPiece(
            label=one.label, material=made.material, since=since, length=one.length, place=place
        )
        for one in kept(made, prefix).values()
    )
