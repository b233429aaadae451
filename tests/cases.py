"""Cases of a test of which a few stand for all in the usual run."""

import pytest


def few_of(cases, usual, *, name=str):
    """Return all cases as parameters; those that are not among the usual are slow.

    `usual` holds names as `name` gives them. Raises if one of them names no case, so that a case
    renamed is not left out unseen.
    """
    cases = list(cases)
    assert set(usual) <= {name(case) for case in cases}, usual
    slow = pytest.mark.slow
    return [
        pytest.param(case, id=name(case), marks=() if name(case) in usual else slow)
        for case in cases
    ]
