"""How flat a covering may be laid: its own figure in the catalogue, or the maker's for the job."""

from dataclasses import dataclass

from roofmodel.buildups.material import Material
from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.foundation.source import Source

PRACTICE = Source(
    "common practice, no source; the manufacturer's figure takes precedence", "", verified=False
)
MAKER = Source("the manufacturer of the covering, as entered for this job", "", verified=False)

COVERINGS = ("tile", "panel")
"""Categories of material that keep the rain out, the outer one first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MinimumPitch:
    """A covering and the minimum pitch it takes [°]; None where nobody has said."""

    covering: str
    deg: float | None
    source: Source

    @property
    def words(self) -> str:
        """What is printed."""
        if self.deg is None:
            return f"the minimum pitch of {self.covering} is not known"
        return f"{self.covering} is laid from {self.deg:g}° up ({self.source})"


def of(covering: Material, entered_deg: float | None = None) -> MinimumPitch:
    """Return the minimum pitch of a covering: the maker's as entered, else the catalogue's.

    Raises
    ------
    DimensionError
        If the material is no covering.
    """
    if covering.category not in COVERINGS:
        text = f"{covering.name} is not a covering, so it has no minimum pitch."
        raise DimensionError([Fault("material", text, "Choose a tile or a panel.")])
    if entered_deg is not None:
        return MinimumPitch(covering=covering.name, deg=entered_deg, source=MAKER)
    return MinimumPitch(covering=covering.name, deg=covering.minimum_pitch_deg, source=PRACTICE)
