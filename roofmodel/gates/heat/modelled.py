"""A U-value somebody else calculated in two dimensions, for bars this program does not model."""

from dataclasses import dataclass
from typing import Annotated

from pydantic import Field

from roofmodel.foundation.errors import DimensionError, Fault
from roofmodel.foundation.source import Source
from roofmodel.refit.method import Method


@dataclass(frozen=True, slots=True, kw_only=True)
class ModelledU:
    """The result of a calculation to EN ISO 10211: the whole roof's U, and who answers for it.

    It is good for the method it was calculated for and no other.
    """

    u_w_m2k: Annotated[float, Field(description="U of the whole roof, bars among it [W/m²K]")]
    by: Annotated[
        str, Field(description="Who calculated it, and the report's number", max_length=200)
    ]
    method: Annotated[Method, Field(description="The method whose layers were calculated")] = (
        Method.BUILD_ROUND
    )

    def __post_init__(self) -> None:
        """Refuse a result no roof has, or one nobody answers for."""
        faults = []
        if not 0.05 <= self.u_w_m2k <= 7.0:
            text = f"A U-value of {self.u_w_m2k:g} W/m²K is no roof's."
            faults.append(Fault("u_w_m2k", text, "Enter 0.05 to 7."))
        if not self.by.strip():
            text = "Nobody answers for the calculated U-value."
            faults.append(Fault("by", text, "Enter who calculated it, and the report's number."))
        if faults:
            raise DimensionError(faults)

    @property
    def source(self) -> Source:
        """What is printed; nobody but who entered it has read the report."""
        return Source("calculation to EN ISO 10211, entered for the job", self.by, verified=False)
