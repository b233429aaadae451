"""Says in words what is proved of a number of sheets: of the roof under these rules, only of it.

That given pieces need so many sheets proves nothing of the roof, which other pieces may board with
fewer. So of the pieces it is only ever said how many they need.
"""

from roofmodel.cutting.proof.bound import Bound


def proof(sheets: int, pieces: int, bound: Bound, floor: Bound | None) -> str:
    """Return what follows a number of sheets in a sentence, from its comma or semicolon on.

    Parameters
    ----------
    sheets, pieces : int
        What the plan takes, and how many pieces it cuts.
    bound : Bound
        What these pieces need.
    floor : Bound or None
        What anything under the rules needs at least; None where that was not worked out.

    Examples
    --------
    >>> proof(5, 7, Bound(sheets=5, reason="by area"), Bound(sheets=5, reason="by rows"))
    ', proved minimal under these rules (by rows), in 7 pieces'
    >>> proof(5, 7, Bound(sheets=5, reason="by area"), Bound(sheets=4, reason="by rows"))
    ', at least 4 under these rules (by rows); these 7 pieces need 5 (by area)'
    """
    if floor is not None and sheets == floor.sheets:
        return f", proved minimal under these rules ({floor.reason}), in {pieces} pieces"
    least = "" if floor is None else f", at least {floor.sheets} under these rules ({floor.reason})"
    if sheets == bound.sheets:
        return f"{least}; these {pieces} pieces need {bound.sheets} ({bound.reason})"
    return f"{least}, in {pieces} pieces"


def least_words(sheets: int, bound: Bound, floor: Bound | None) -> str:
    """Return the same in a few words, as it stands in brackets in a list.

    Examples
    --------
    >>> least_words(5, Bound(sheets=5, reason="by area"), Bound(sheets=4, reason="by rows"))
    'at least 4 under the rules; these pieces need 5'
    """
    if floor is not None and sheets == floor.sheets:
        return "no fewer under the rules"
    least = "" if floor is None else f"at least {floor.sheets} under the rules"
    these = f"these pieces need {bound.sheets}" if sheets == bound.sheets else ""
    return "; ".join(filter(None, (least, these))) or "perhaps more than are needed"
