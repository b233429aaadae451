"""The rows of a title block: what ISO 7200 asks of every drawing, and a drawing's own rows."""

from dataclasses import dataclass

from roofmodel.drawings.paper.heading import Heading

Row = tuple[str, ...]
"""Label and value, once or twice beside each other."""

MAKER = "roofmodel (computed)"
NOBODY = "nobody yet"
NOT_ENTERED = "not entered"


@dataclass(frozen=True, slots=True, kw_only=True)
class Titled:
    """What a title block says of one drawing.

    ``number`` tells it from every other drawing, ``kind`` is the type of document, ``scale`` the
    scale or scales; ``own`` are rows of this drawing alone.
    """

    heading: Heading
    title: str
    kind: str
    number: str
    scale: str
    job_title: str = ""
    method: str = ""
    own: tuple[Row, ...] = ()


def rows(one: Titled) -> tuple[Row, ...]:
    """Return the rows from the top.

    Owner, number, day of issue, title, who approved, who made it and the type of document are
    those ISO 7200 asks for (from memory); the day of issue stands with job and revision.
    """
    heading = one.heading
    stamp = heading.stamp
    numbered = ("Number", one.number)
    return (
        ("Owner", heading.owner or NOT_ENTERED, "Type", one.kind),
        ("Title", one.title),
        ("Job", f"{heading.words}  {one.job_title}".strip()),
        ("Method", one.method, *numbered) if one.method else numbered,
        *one.own,
        ("Made by", MAKER, "Approved", (stamp.approved if stamp else "") or NOBODY),
        ("Status", stamp.status if stamp else "for information", "Scale", f"{one.scale}, mm"),
    )
