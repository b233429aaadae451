"""A short name for a content: the same content has the same one, another hardly ever."""

import hashlib

LETTERS = "ACDEFHJKMNPTVWXY3479"
"""Without those that are taken for one another on a dusty label."""


def letters(content: str, count: int) -> str:
    """Return so many letters and figures that name a content.

    Examples
    --------
    >>> letters("one roof", 6) == letters("one roof", 6)
    True
    >>> len(letters("", 4))
    4
    """
    number = int.from_bytes(hashlib.sha256(content.encode()).digest(), "big")
    text = ""
    for _ in range(count):
        number, place = divmod(number, len(LETTERS))
        text += LETTERS[place]
    return text
