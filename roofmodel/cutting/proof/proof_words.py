"""Says in words what is proved of a number of sheets."""

from roofmodel.cutting.proof.bound import Bound


def proof(sheets: int, pieces: int, bound: Bound, floor: Bound | None) -> str:
    """Return what follows a number of sheets in a sentence, from its comma or semicolon on.

    Parameters
    ----------
    sheets, pieces : int
        What the plan takes, and how many pieces it cuts.
    bound : Bound
        What these pieces need at least.
    floor : Bound or None
        What any laying under the rules needs at least; None where that was not worked out.

    Examples
    --------
    >>> proof(5, 7, Bound(sheets=5, reason="by area"), Bound(sheets=5, reason="by rows"))
    ', proved minimal under these rules (by rows), in 7 pieces'
    """
    if floor is not None and sheets == floor.sheets:
        return f", proved minimal under these rules ({floor.reason}), in {pieces} pieces"
    least = "no fewer" if sheets == bound.sheets else f"at least {bound.sheets}"
    these = f"; these {pieces} pieces need {least} ({bound.reason})"
    if floor is None:
        return these
    return f", proven minimum {floor.sheets} under these rules ({floor.reason}){these}"
