"""Slips people make with taped lengths: digits swapped, one digit wrong, a hundred off, a unit."""

from collections.abc import Iterator

NEAR = 2.6
"""A slip explains a reading if it leads to within this many standard errors of what is wanted."""
_WIDEST_MM = 12.0
"""At most so far: a wide net would call everything a slip."""


def slips(read: float, would_be: float, error: float) -> tuple[str, ...]:
    """Return how a length read may have come from one near ``would_be``, the nearest first [mm].

    Works on the whole number that was written down; nothing is found for a difference that is no
    larger than the doubt about ``would_be`` itself.

    Examples
    --------
    >>> slips(2685, 2864.0, 5.0)
    ('2865 with two digits swapped, keyed as 2685?',)
    """
    reach = min(max(NEAR * error, 1.0), _WIDEST_MM)
    if read <= 0.0 or read != round(read) or abs(read - would_be) <= 2.0 * reach:
        return ()
    by_text: dict[str, float] = {}
    for meant, how in _meant(round(read)):
        if abs(meant - would_be) <= reach:
            text = f"{meant:g} {how} as {read:g}?"
            by_text.setdefault(text, abs(meant - would_be))
    return tuple(sorted(by_text, key=lambda text: by_text[text]))


def _meant(read: int) -> Iterator[tuple[float, str]]:
    """Yield every value one slip away from what was written down."""
    yield from _by_digits(str(read))
    for step in (100.0, 1000.0):
        for meant in (read - step, read + step):
            yield meant, f"read {step:g} off on the tape,"
    for factor, what in ((10.0, "in cm"), (1000.0, "in m"), (0.1, "with a digit too many,")):
        yield read * factor, f"entered {what}"


def _by_digits(digits: str) -> Iterator[tuple[float, str]]:
    for i in range(len(digits) - 1):
        swapped = digits[:i] + digits[i + 1] + digits[i] + digits[i + 2 :]
        yield float(swapped), "with two digits swapped, keyed"
    for i in range(len(digits)):
        for other in "0123456789":
            yield float(digits[:i] + other + digits[i + 1 :]), "with one digit wrong, keyed"
