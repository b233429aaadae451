"""What the rack knows of an offcut: free, kept for a job, or cut up."""

from dataclasses import dataclass
from enum import StrEnum

from roofmodel.cutting.rack.offcut import RackPiece
from roofmodel.foundation.errors import RoofModelError


class RackError(RoofModelError):
    """The rack cannot do what was asked; it is left as it was."""


class RackDamagedError(RackError):
    """The file of the rack cannot be trusted; it is left as it is."""


class RackState(StrEnum):
    """Whether an offcut can be had."""

    FREE = "free"
    RESERVED = "reserved"
    USED = "used"


@dataclass(frozen=True, slots=True, kw_only=True)
class Holder:
    """The job, or the jobs cut together, for which offcuts are kept; and the revision."""

    job: str
    revision: str

    def __post_init__(self) -> None:
        """Refuse a job nobody could find again."""
        if not (self.job.strip() and self.revision.strip()):
            raise RackError("An offcut is reserved for a job and a revision. Enter both.")

    def __str__(self) -> str:
        """Return job and revision in words."""
        return f"{self.job} revision {self.revision}"


@dataclass(frozen=True, slots=True, kw_only=True)
class RackEntry:
    """An offcut and its state; ``holder`` is the job that keeps it or has cut it."""

    piece: RackPiece
    state: RackState = RackState.FREE
    holder: Holder | None = None

    @property
    def words(self) -> str:
        """The state in words."""
        return f"{self.state.value} by {self.holder}" if self.holder else self.state.value


@dataclass(frozen=True, slots=True, kw_only=True)
class Cutting:
    """What cutting one material of a job takes from the rack by its labels, and puts on it."""

    material: str
    used: tuple[str, ...]
    kept: tuple[RackPiece, ...]
