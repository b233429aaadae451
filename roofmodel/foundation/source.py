"""Where a number comes from: the document, or the kind of knowledge there is instead of one."""

from dataclasses import dataclass
from enum import StrEnum


class Kind(StrEnum):
    """What sort of knowledge a source is."""

    DOCUMENT = "document"
    SITE = "read on site"
    ENTERED = "entered for the job"
    COMPUTED = "computed"
    FIRM = "the firm's own"
    INVENTED = "invented for the demo"
    MEMORY = "from memory"
    PRACTICE = "common practice"


_TOLD = (
    ("read on site", Kind.SITE),
    ("from memory", Kind.MEMORY),
    ("common practice", Kind.PRACTICE),
    ("invented", Kind.INVENTED),
    ("placeholder", Kind.INVENTED),
    ("computed", Kind.COMPUTED),
    ("the firm", Kind.FIRM),
    ("entered", Kind.ENTERED),
    ("typed", Kind.ENTERED),
    ("as assumed", Kind.PRACTICE),
)
"""What the words of a source tell of its kind; the first that stands in them counts."""


@dataclass(frozen=True, slots=True)
class Source:
    """Document and place a value was taken from.

    ``verified`` is true only when one of us read the value at that place; reports print
    "(not yet verified)" otherwise.
    """

    document: str
    place: str
    verified: bool

    @property
    def kind(self) -> Kind:
        """What sort of knowledge it is, as its own words say, so that both cannot disagree."""
        words = f"{self.document} {self.place}".lower()
        return next((kind for told, kind in _TOLD if told in words), Kind.DOCUMENT)

    @property
    def words(self) -> str:
        """Document and place, without whether anybody read them there."""
        return f"{self.document}, {self.place}" if self.place else self.document

    def __str__(self) -> str:
        """Return the source as reports print it."""
        return self.words + ("" if self.verified else " (not yet verified)")


COMPUTED = Source("computed from the figures it rests on", "", verified=True)
"""The source of a figure that is as good as its inputs, and nothing else."""

UNKNOWN = Source("not known", "", verified=False)
"""The source of what has none."""
