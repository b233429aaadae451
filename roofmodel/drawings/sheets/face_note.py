"""Which face of a board lies up, in the words of the bench.

Everything is drawn as seen from outside. Of a lining that is its back: whoever scores it from the
room's face sees it mirrored, and must be told.
"""

from roofmodel.buildups.sheet_good import SheetGood


def up(good: SheetGood, *, turned_over: bool = False) -> str:
    """Return which face of a piece lies up."""
    if good.layer == "lining":
        return "ROOM FACE UP" if turned_over else "BACK UP, ROOM FACE DOWN"
    return "OUTSIDE FACE DOWN" if turned_over else "OUTSIDE FACE UP"


def label_on(good: SheetGood, *, turned_over: bool) -> str:
    """Return the face a label is stuck on at the saw, where it is the one that lies up."""
    if good.layer == "lining":
        return "LABEL IS ON THE ROOM FACE" if turned_over else "LABEL IS ON THE BACK"
    return "LABEL IS ON THE INSIDE FACE" if turned_over else "LABEL IS ON THE OUTSIDE FACE"


def line(good: SheetGood) -> str:
    """Return what the line of a piece is, and from where it is seen."""
    if good.layer == "lining":
        return "Line: room face, drawn from the back; seen from the room it is mirrored."
    return "Line: edge of the part's larger face, outside face up unless stated."
