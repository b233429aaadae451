"""What is stamped on every paper: whether it may be cut from, or that it only indicates."""

from dataclasses import dataclass

FOR_CUTTING = "FOR CUTTING"
NOT_FOR_CUTTING = "NOT FOR CUTTING"
INDICATIVE = "INDICATIVE: computed, not approved"


@dataclass(frozen=True, slots=True, kw_only=True)
class Stamp:
    """What stands on every page: its status, words across the page, why, and who approved it."""

    status: str
    watermark: str = ""
    reason: str = ""
    approved: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Release:
    """The stamp of a set; ``reasons`` say what still keeps it from being cut.

    ``approved`` is who released the revision, and when; empty while nobody has. ``content`` is the
    short name of what a release holds for.
    """

    reasons: tuple[str, ...] = ()
    approved: str = ""
    content: str = ""

    @property
    def allowed(self) -> bool:
        """Whether the set is for cutting."""
        return not self.reasons

    @property
    def status(self) -> str:
        """What the title block says."""
        return FOR_CUTTING if self.allowed else NOT_FOR_CUTTING

    @property
    def watermark(self) -> str:
        """What is printed across a page that must not be cut from."""
        return "" if self.allowed else NOT_FOR_CUTTING

    @property
    def reason(self) -> str:
        """All reasons in one line."""
        return " ".join(self.reasons)

    @property
    def stamp(self) -> Stamp:
        """What is stamped on a page of lists."""
        return Stamp(
            status=self.status,
            watermark=self.watermark,
            reason=self.reason,
            approved=self.approved,
        )
