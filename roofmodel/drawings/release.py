"""Whether papers may be cut from: what is stamped on every one of them."""

from dataclasses import dataclass

FOR_CUTTING = "FOR CUTTING"
NOT_FOR_CUTTING = "NOT FOR CUTTING"


@dataclass(frozen=True, slots=True, kw_only=True)
class Release:
    """The stamp of a set; ``reasons`` say what still keeps it from being cut."""

    reasons: tuple[str, ...] = ()

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
